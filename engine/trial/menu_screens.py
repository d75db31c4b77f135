"""Menus of trials: starting one, continuing or giving up the current one, and past ones."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.practice.blip_size import BLIP
from engine.trial.status import UNTOLD, TrialStatus
from engine.trial.trial import BLOCK, Arm, SetUp

HEADING = "Try a foot position"
"""Title of the trial menu."""
ABOUT = (
    "Two set-ups of the foot, A and B, on one level: five repetitions of each make a pair.",
    "Which of them comes first in each pair is drawn by lot: so practice, warm-up and good days "
    "favour neither.",
    f"Every blip goes to {BLIP:g} %: a larger one makes a deeper dip. One far off is repeated.",
    "How clean or quiet you were is not shown before the end. It may take several days.",
)
"""Explanation of what a trial is, shown in its menu, one string a line."""


class TrialChoice(Enum):
    """What the player can choose in the trial menu."""

    BEGIN = "begin"
    ON = "on"
    GIVE_UP = "give up"
    PAST = "past"
    BACK = "back"


class AboutTrial(Menu[TrialChoice]):
    """Trial menu while no trial is under way. Its outcome is what the player chose."""

    name = "about trial"

    def __init__(self, past: int) -> None:
        """`past` is the number of past trials; without any, they are not offered."""
        super().__init__(
            [
                Choice("Begin a trial", TrialChoice.BEGIN),
                *_past(past),
                Choice("Back", TrialChoice.BACK),
            ],
            back=TrialChoice.BACK,
        )

    def picture(self, canvas: Canvas) -> None:
        """Draw what a trial is, one marked line for each point."""
        draw_list(canvas, title(canvas, HEADING) + 20, ABOUT)


class UnderWay(Menu[TrialChoice]):
    """Trial menu while a trial is under way. Its outcome is what the player chose."""

    name = "trial under way"

    def __init__(
        self,
        arms: tuple[SetUp, SetUp],
        level: str,
        status: TrialStatus,
        past: int,
        trouble: str = "",
    ) -> None:
        """`level` is the title of the trial's level, `past` the number of past trials.

        `trouble` says why the trial cannot be continued; empty if it can.
        """
        note = f"block {status.block} of {status.blocks}, {status.done} of {BLOCK} are done"
        on, back = Choice("Go on with it", TrialChoice.ON, note), Choice("Back", TrialChoice.BACK)
        others = [Choice("Give it up", TrialChoice.GIVE_UP), *_past(past)]
        super().__init__(
            [back, *others] if trouble else [on, *others, back],
            back=TrialChoice.BACK,
        )
        self._arms = arms
        self._level = level
        self._status = status
        self._trouble = trouble

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the choices, the status, why the trial cannot go on."""
        return {**super().details(), "far": self._status.words, "trouble": self._trouble}

    def picture(self, canvas: Canvas) -> None:
        """Draw the set-ups, the level and the status of the trial; no score, as it is not over."""
        y = title(canvas, "A trial is under way") + 10
        width = theme.WIDTH - 2 * theme.MARGIN
        for arm, set_up in zip(Arm, self._arms, strict=True):
            line = canvas.cut(f"{arm.value}: {set_up.name}", width)
            y = canvas.text(line, (theme.MARGIN, y)) + 18
        lines = (f"On the level: {self._level}", f"{self._status.words}. {UNTOLD}", self._trouble)
        for line in filter(None, lines):
            y = canvas.text(line, (theme.MARGIN, y), width=width) + 18


class GivingUp(Menu[bool]):
    """Question whether to give up the trial. Its outcome is whether the player confirmed it."""

    name = "give up"

    def __init__(self, status: TrialStatus) -> None:
        super().__init__([Choice("No, keep it", False), Choice("Give it up", True)], back=False)
        self._status = status

    def picture(self, canvas: Canvas) -> None:
        """Draw what is lost when the trial is given up, and what stays."""
        draw_list(
            canvas,
            title(canvas, "Give the trial up?") + 20,
            (
                f"{self._status.words}.",
                "One that is given up tells nothing: a part of it would fool you.",
                "Its repetitions stay in the history.",
            ),
        )


class GivenUp(Menu[bool]):
    """Screen of a past trial that was given up: its set-ups and how far it came, but no score."""

    name = "given up"

    def __init__(self, arms: tuple[SetUp, SetUp], status: TrialStatus) -> None:
        super().__init__([Choice("Back", True)], back=True)
        self._arms = arms
        self._status = status

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the label of the choice, and how far the trial came."""
        return {**super().details(), "far": self._status.words}

    def picture(self, canvas: Canvas) -> None:
        """Draw the set-ups of the trial, and how far it came."""
        y = title(canvas, "This trial was given up") + 20
        width = theme.WIDTH - 2 * theme.MARGIN
        for arm, set_up in zip(Arm, self._arms, strict=True):
            line = canvas.cut(f"{arm.value}: {set_up.name}", width)
            y = canvas.text(line, (theme.MARGIN, y)) + 18
        done = self._status.words
        text = f"{done}. That is too little to tell, and so nothing is told of the score."
        canvas.text(text, (theme.MARGIN, y), width=width)


class NoTrial(Menu[bool]):
    """Screen that says why no trial can be played now."""

    name = "no trial"
    heading = HEADING
    """Heading of the screen."""

    def __init__(self, why: str) -> None:
        super().__init__([Choice("Back", True)], back=True)
        self._why = why

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the label of the choice, and the reason."""
        return {**super().details(), "why": self._why}

    def picture(self, canvas: Canvas) -> None:
        """Draw the heading and the reason."""
        y = title(canvas, self.heading) + 20
        width = theme.WIDTH - 2 * theme.MARGIN
        canvas.text(self._why, (theme.MARGIN, y), theme.BODY + 4, width=width)


class NotTold(NoTrial):
    """Screen in the place of the outcome of a trial: why that is not told, or not yet."""

    name = "trial not told"
    heading = "What the trial found"


class PastTrials(Menu[int]):
    """List of past trials. Its outcome is the number of the trial to show, or 0 for going back."""

    name = "past trials"

    def __init__(self, trials: Sequence[tuple[int, str, str]]) -> None:
        """`trials` has the number, date with ending, and set-ups of each, the newest first."""
        choices = [Choice(ended, number, set_ups) for number, ended, set_ups in trials]
        super().__init__([*choices, Choice("Back", 0)], back=0)

    def picture(self, canvas: Canvas) -> None:
        """Draw the heading alone: the trials are the choices of the menu."""
        title(canvas, "Past trials")


def _past(count: int) -> list[Choice[TrialChoice]]:
    number = "one trial" if count == 1 else f"{count} trials"
    return [Choice("Look at past ones", TrialChoice.PAST, number)] if count else []


def draw_list(canvas: Canvas, y: float, lines: Sequence[str]) -> None:
    """Draw lines of text as a list with dots, from `y` canvas units down."""
    width = theme.WIDTH - 2 * theme.MARGIN - 48
    for line in lines:
        canvas.disc((theme.MARGIN + 12, y + 21), 8, theme.BRAKE)
        y = canvas.text(line, (theme.MARGIN + 48, y), theme.BODY + 2, width=width) + 24
