"""The door to a trial: what it is, how far the one under way has come, and giving it up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.trial.status import UNTOLD, TrialStatus, listed
from engine.trial.trial import BLOCK, Arm, SetUp

HEADING = "Try a foot position"
"""What the door is called."""
ABOUT = (
    "Two set-ups of the foot, A and B, on one level: five repetitions of each make a pair.",
    "Which of them comes first in each pair is drawn by lot: so practice, warm-up and good days "
    "favour neither.",
    "How clean or quiet you were is not shown before the end. It may take several days.",
)
"""What a trial is."""


class Door(Enum):
    """What to do about trials."""

    BEGIN = "begin"
    ON = "on"
    GIVE_UP = "give up"
    PAST = "past"
    BACK = "back"


class AboutTrial(Menu[Door]):
    """No trial is under way: ends with whether to begin one."""

    name = "about trial"

    def __init__(self, past: int) -> None:
        """`past`: count of trials that there were."""
        super().__init__(
            [Choice("Begin a trial", Door.BEGIN), *_past(past), Choice("Back", Door.BACK)],
            back=Door.BACK,
        )

    def picture(self, canvas: Canvas) -> None:
        """What a trial is, as a list."""
        listed(canvas, title(canvas, HEADING) + 20, ABOUT)


class UnderWay(Menu[Door]):
    """A trial is under way: ends with what to do about it."""

    name = "trial under way"

    def __init__(
        self, arms: tuple[SetUp, SetUp], level: str, far: TrialStatus, past: int, trouble: str = ""
    ) -> None:
        """`level` is the title of its level, `past` how many trials there were before.

        `trouble` says why it cannot go on; empty where it can.
        """
        note = f"block {far.block} of {far.blocks}, {far.done} of {BLOCK} are done"
        on, back = Choice("Go on with it", Door.ON, note), Choice("Back", Door.BACK)
        others = [Choice("Give it up", Door.GIVE_UP), *_past(past)]
        super().__init__(
            [back, *others] if trouble else [on, *others, back],
            back=Door.BACK,
        )
        self._arms = arms
        self._level = level
        self._far = far
        self._trouble = trouble

    def details(self) -> Mapping[str, object]:
        """The labels of the choices, and how far it is."""
        return {**super().details(), "far": self._far.words, "trouble": self._trouble}

    def picture(self, canvas: Canvas) -> None:
        """What it is, and how far: nothing of the score."""
        y = title(canvas, "A trial is under way") + 10
        width = theme.WIDTH - 2 * theme.MARGIN
        for arm, one in zip(Arm, self._arms, strict=True):
            said = canvas.cut(f"{arm.value}: {one.name}", width)
            y = canvas.text(said, (theme.MARGIN, y)) + 18
        lines = (f"On the level: {self._level}", f"{self._far.words}. {UNTOLD}", self._trouble)
        for line in filter(None, lines):
            y = canvas.text(line, (theme.MARGIN, y), width=width) + 18


class GivingUp(Menu[bool]):
    """Ends with whether it is given up."""

    name = "give up"

    def __init__(self, far: TrialStatus) -> None:
        super().__init__([Choice("No, keep it", False), Choice("Give it up", True)], back=False)
        self._far = far

    def picture(self, canvas: Canvas) -> None:
        """What would be lost, and what not."""
        listed(
            canvas,
            title(canvas, "Give the trial up?") + 20,
            (
                f"{self._far.words}.",
                "One that is given up tells nothing: a part of it would fool you.",
                "Its repetitions stay in the history.",
            ),
        )


class GivenUp(Menu[bool]):
    """A trial that was given up: how far it came, and no more. Ends with going on."""

    name = "given up"

    def __init__(self, arms: tuple[SetUp, SetUp], far: TrialStatus) -> None:
        super().__init__([Choice("Back", True)], back=True)
        self._arms = arms
        self._far = far

    def details(self) -> Mapping[str, object]:
        """The choice, and how far it came."""
        return {**super().details(), "far": self._far.words}

    def picture(self, canvas: Canvas) -> None:
        """What it was and how far it came."""
        y = title(canvas, "This trial was given up") + 20
        width = theme.WIDTH - 2 * theme.MARGIN
        for arm, one in zip(Arm, self._arms, strict=True):
            said = canvas.cut(f"{arm.value}: {one.name}", width)
            y = canvas.text(said, (theme.MARGIN, y)) + 18
        said = (
            f"{self._far.words}. That is too little to tell, and so nothing is told of the score."
        )
        canvas.text(said, (theme.MARGIN, y), width=width)


class NoTrial(Menu[bool]):
    """No trial can be played now, and why. Ends with going back."""

    name = "no trial"

    def __init__(self, why: str) -> None:
        super().__init__([Choice("Back", True)], back=True)
        self._why = why

    def details(self) -> Mapping[str, object]:
        """The choice, and why."""
        return {**super().details(), "why": self._why}

    def picture(self, canvas: Canvas) -> None:
        """Why."""
        y = title(canvas, HEADING) + 20
        width = theme.WIDTH - 2 * theme.MARGIN
        canvas.text(self._why, (theme.MARGIN, y), theme.BODY + 4, width=width)


class PastTrials(Menu[int]):
    """Ends with the number of a trial to look at again; 0 goes back."""

    name = "past trials"

    def __init__(self, trials: Sequence[tuple[int, str, str]]) -> None:
        """`trials`: the number, when and how it ended, and what was tried, the newest first."""
        choices = [Choice(ended, number, tried) for number, ended, tried in trials]
        super().__init__([*choices, Choice("Back", 0)], back=0)

    def picture(self, canvas: Canvas) -> None:
        """Only the heading."""
        title(canvas, "Past trials")


def _past(count: int) -> list[Choice[Door]]:
    some = "one trial" if count == 1 else f"{count} trials"
    return [Choice("Look at past ones", Door.PAST, some)] if count else []
