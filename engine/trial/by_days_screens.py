"""Screens of a trial by days: what it is, today's set-up, its menu, and its result."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.trial.by_days import Today
from engine.trial.by_days_power import Power
from engine.trial.by_days_words import power_words
from engine.trial.menu_screens import TrialChoice, draw_list, past_choices
from engine.trial.result_screens import TrialFigures
from engine.trial.set_up_picture import draw_set_up
from engine.trial.status import TrialStatus
from engine.trial.trial import DAY_BLIPS, DAY_PAIRS, Arm, SetUp

MIXED_FIGURES = "Your practice figures go on, of both set-ups together."
"""What is shown while a trial by days is under way, said before it begins and in its menu."""
UNCOMPARED = "A and B are not compared before the end."
"""What is not shown while a trial by days is under way."""
ANEW = "The pedals were set up anew since it began: the end will say so."
"""Warning that days of a trial were read with different calibrations."""


class DaysBegin(Menu[bool]):
    """What a trial by days is and can find. Its outcome is whether the player begins it."""

    name = "trial by days"

    def __init__(self, power: Power) -> None:
        """`power` says what the trial can find for this player."""
        super().__init__([Choice("Begin", True), Choice("Back", False)], back=False)
        self._lines = (
            f"{2 * DAY_PAIRS} days of five minutes, with no extra repetitions.",
            "Each day is played with A or with B, by lot in pairs.",
            "Your steadiness blips of these days are compared.",
            " ".join(power_words(power)),
            f"{MIXED_FIGURES} {UNCOMPARED}",
        )

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the choices, and what the screen says."""
        return {**super().details(), "said": self._lines}

    def picture(self, canvas: Canvas) -> None:
        """Draw what the trial asks, compares and finds, one marked line for each."""
        draw_list(canvas, title(canvas, "Beside practice, by days") + 20, self._lines)


class TodaysAnswer(Enum):
    """What the player can answer to the set-up of the day."""

    READY = "ready"
    NOT_TODAY = "not today"
    BACK = "back"


class TodaysSetUp(Menu[TodaysAnswer]):
    """Set-up that today's five minutes are played with; its outcome is the player's answer."""

    name = "trial today"

    def __init__(
        self, today: Today, set_up: SetUp, changes: Sequence[bool], *, recalibrated: bool
    ) -> None:
        """`changes` tells which features of the set-up the other one differs in.

        `recalibrated`: whether the pedals were calibrated since the trial began.
        """
        super().__init__(
            [
                Choice("Ready", TodaysAnswer.READY),
                Choice("Not today", TodaysAnswer.NOT_TODAY, "practice without the trial"),
                Choice("Back", TodaysAnswer.BACK),
            ],
            back=TodaysAnswer.BACK,
        )
        self._today = today
        self._set_up = set_up
        self._changes = tuple(changes)
        self._recalibrated = recalibrated

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the choices, A or B, and which day of the trial it is."""
        today = self._today
        day = {"arm": today.arm.value, "day": today.block + 1, "begun": today.begun}
        return {**super().details(), **day, "anew": self._recalibrated}

    def picture(self, canvas: Canvas) -> None:
        """Draw the set-up with the features that differ marked, and which day it is."""
        left, width = theme.MARGIN, theme.WIDTH - 2 * theme.MARGIN
        y = draw_set_up(canvas, f"Today {self._today.arm.value}", self._set_up, self._changes)
        y = canvas.text(f"{self._place}.", (left, y), theme.BODY) + 12
        text = "All of today's five minutes are played so. Place the foot before you go on."
        y = canvas.text(text, (left, y), theme.BODY, theme.QUIET, width=width) + 12
        if self._recalibrated:
            canvas.text(ANEW, (left, y), theme.BODY, theme.QUIET, width=width)

    @property
    def _place(self) -> str:
        words, earlier = self._today.words.capitalize(), self._today.earlier
        if earlier is not None:
            return f"{words}, once more: {earlier} of {DAY_BLIPS} steadiness blips so far"
        return f"{words}, as you began it" if self._today.begun else words


class DaysUnderWay(Menu[TrialChoice]):
    """Trial menu while a trial by days is under way. Its outcome is what the player chose."""

    name = "trial by days under way"

    def __init__(self, arms: tuple[SetUp, SetUp], status: TrialStatus, past: int) -> None:
        """`past` is the number of past trials."""
        super().__init__(
            [
                Choice("Back", TrialChoice.BACK),
                Choice("Give it up", TrialChoice.GIVE_UP),
                *past_choices(past),
            ],
            back=TrialChoice.BACK,
        )
        self._arms = arms
        self._status = status

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the choices, and how far the trial is."""
        return {**super().details(), "far": self._status.words}

    def picture(self, canvas: Canvas) -> None:
        """Draw the set-ups, how far the trial is, and how it goes on; no score of it."""
        y = title(canvas, "A trial by days is under way") + 10
        width = theme.WIDTH - 2 * theme.MARGIN
        for arm, set_up in zip(Arm, self._arms, strict=True):
            line = canvas.cut(f"{arm.value}: {set_up.name}", width)
            y = canvas.text(line, (theme.MARGIN, y)) + 18
        lines = (
            f"{self._status.words}. It goes on with your five minutes.",
            f"{MIXED_FIGURES} {UNCOMPARED}",
        )
        for line in lines:
            y = canvas.text(line, (theme.MARGIN, y), width=width) + 18


class DaysFigures(TrialFigures):
    """Outcome of a trial by days in words and as a table. Its outcome is the page to show next."""

    name = "trial by days result"
