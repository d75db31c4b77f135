"""Menus of trials: starting one, continuing or giving up the current one, and past ones."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.kit.typeface import Weight
from engine.trial.screen_words import (
    BY_DAYS,
    FAIR,
    HEADING,
    IN_BLOCKS,
    QUESTION,
    STAY,
    TELLS_NOTHING,
    TOO_LITTLE,
    UNTOLD,
)
from engine.trial.status import TrialStatus
from engine.trial.trial import BLOCK, Arm, SetUp

COLUMN_GAP = 100
"""Space between the two columns of the trial menu, in canvas units."""


class TrialChoice(Enum):
    """What the player can choose in the trial menu."""

    BEGIN = "begin"
    BEGIN_BY_DAYS = "begin by days"
    ON = "on"
    GIVE_UP = "give up"
    PAST = "past"
    BACK = "back"


class AboutTrial(Menu[TrialChoice]):
    """Trial menu while no trial is under way. Its outcome is what the player chose."""

    name = "about trial"
    in_a_bar = True

    def __init__(self, past: int) -> None:
        """`past` is the number of past trials; without any, they are not offered."""
        super().__init__(
            [
                Choice("Begin in blocks", TrialChoice.BEGIN),
                Choice("Begin by days", TrialChoice.BEGIN_BY_DAYS),
                *past_choices(past),
                Choice("Back", TrialChoice.BACK),
            ],
            back=TrialChoice.BACK,
        )

    def picture(self, canvas: Canvas) -> None:
        """Draw what a trial answers, and its two kinds side by side."""
        y = draw_lead(canvas, title(canvas, HEADING), QUESTION) + 50
        step = (theme.WIDTH - 2 * theme.MARGIN + COLUMN_GAP) / 2
        for number, (heading, lines) in enumerate((IN_BLOCKS, BY_DAYS)):
            x = theme.MARGIN + number * step
            below = canvas.text(heading, (x, y), theme.BODY, weight=Weight.BOLD) + 16
            for line in lines:
                width = step - COLUMN_GAP
                below = canvas.text(line, (x, below), theme.SMALL + 4, theme.QUIET, width=width)
                below += 12
        bottom = theme.BAR - 3.2 * theme.BODY
        for number, line in enumerate((FAIR, UNTOLD)):
            canvas.text(line, (theme.MARGIN, bottom + number * 1.2 * theme.BODY), theme.BODY)


class UnderWay(Menu[TrialChoice]):
    """Trial menu while a trial is under way. Its outcome is what the player chose."""

    name = "trial under way"
    in_a_bar = True

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
        note = f"block {status.block} of {status.blocks}, {status.done} of {BLOCK} done"
        on, back = Choice("Go on", TrialChoice.ON, note), Choice("Back", TrialChoice.BACK)
        others = [*past_choices(past), Choice("Give it up", TrialChoice.GIVE_UP)]
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
        y = draw_lead(canvas, title(canvas, "A trial is under way"), f"{self._status.words}.") + 20
        y = draw_arms(canvas, y, self._arms) + 20
        width = theme.WIDTH - 2 * theme.MARGIN
        for line in filter(None, (f"On the level: {self._level}", UNTOLD, self._trouble)):
            colour = theme.TEXT if line == self._trouble else theme.QUIET
            y = canvas.text(line, (theme.MARGIN, y), theme.BODY, colour, width=width) + 14


class GivingUp(Menu[bool]):
    """Question whether to give up the trial. Its outcome is whether the player confirmed it."""

    name = "give up"
    in_a_bar = True

    def __init__(self, status: TrialStatus) -> None:
        super().__init__([Choice("No, keep it", False), Choice("Give it up", True)], back=False)
        self._status = status

    def picture(self, canvas: Canvas) -> None:
        """Draw what is lost when the trial is given up, and what stays."""
        y = draw_lead(canvas, title(canvas, "Give the trial up?"), TELLS_NOTHING) + 20
        draw_list(canvas, y, (f"{self._status.words}.", STAY))


class GivenUp(Menu[bool]):
    """Screen of a past trial that was given up: its set-ups and how far it came, but no score."""

    name = "given up"
    in_a_bar = True

    def __init__(self, arms: tuple[SetUp, SetUp], status: TrialStatus) -> None:
        super().__init__([Choice("Back", True)], back=True)
        self._arms = arms
        self._status = status

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the label of the choice, and how far the trial came."""
        return {**super().details(), "far": self._status.words}

    def picture(self, canvas: Canvas) -> None:
        """Draw the set-ups of the trial, and how far it came."""
        heading = title(canvas, "This trial was given up")
        y = draw_lead(canvas, heading, f"{self._status.words}.") + 20
        y = draw_arms(canvas, y, self._arms) + 20
        canvas.text(TOO_LITTLE, (theme.MARGIN, y), theme.BODY, theme.QUIET)


class NoTrial(Menu[bool]):
    """Screen that says why no trial can be played now."""

    name = "no trial"
    in_a_bar = True
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
    list_top = theme.BELOW + 20

    def __init__(self, trials: Sequence[tuple[int, str, str]]) -> None:
        """`trials` has the number, date with ending, and set-ups of each, the newest first."""
        choices = [Choice(ended, number, set_ups) for number, ended, set_ups in trials]
        super().__init__([*choices, Choice("Back", 0)], back=0)

    def picture(self, canvas: Canvas) -> None:
        """Draw the heading alone: the trials are the choices of the menu."""
        title(canvas, "Past trials")


def past_choices(count: int) -> list[Choice[TrialChoice]]:
    """Choice of the past trials, if there are any."""
    return [Choice("Past trials", TrialChoice.PAST)] if count else []


def draw_arms(canvas: Canvas, y: float, arms: tuple[SetUp, SetUp]) -> float:
    """Write what A and B are, a line each; returns the top of what comes below."""
    for arm, set_up in zip(Arm, arms, strict=True):
        line = canvas.cut(f"{arm.value}: {set_up.name}", theme.WIDTH - 2 * theme.MARGIN)
        y = canvas.text(line, (theme.MARGIN, y)) + 14
    return y


def draw_lead(
    canvas: Canvas, y: float, text: str, width: float = theme.WIDTH - 2 * theme.MARGIN
) -> float:
    """Write the lead sentence of a screen; returns the top of what comes below."""
    return canvas.text(text, (theme.MARGIN, y), theme.LEAD, width=width, weight=Weight.BOLD)


def draw_list(canvas: Canvas, y: float, lines: Sequence[str]) -> None:
    """Draw lines of text as a list with dots, from `y` canvas units down."""
    width = theme.WIDTH - 2 * theme.MARGIN - 48
    for line in lines:
        canvas.disc((theme.MARGIN + 12, y + 21), 8, theme.BRAKE)
        y = canvas.text(line, (theme.MARGIN + 48, y), theme.BODY + 2, width=width) + 24
