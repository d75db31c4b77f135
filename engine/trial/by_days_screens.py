"""Screens of a trial by days: what it is, today's set-up, its menu, and its result."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.kit.opening import FIGURE_FOOT, draw_figure, draw_lead
from engine.trial.by_days import Today
from engine.trial.by_days_power import Power
from engine.trial.by_days_words import power_figure, power_words
from engine.trial.menu_screens import (
    TrialChoice,
    draw_arms,
    draw_list,
    past_choices,
)
from engine.trial.screen_words import (
    BEGUN,
    BY_CHANCE,
    COMPARED,
    GOES_ON,
    LASTS,
    MIXED_FIGURES,
    SET_UP_SINCE,
    UNCOMPARED,
    WHOLE_SESSION,
    once_more,
)
from engine.trial.set_up_picture import draw_set_up
from engine.trial.status import TrialStatus
from engine.trial.trial import SetUp


class DaysBegin(Menu[bool]):
    """What a trial by days is and can find. Its outcome is whether the player begins it."""

    name = "trial by days"
    in_a_bar = True

    def __init__(self, power: Power) -> None:
        """`power` says what the trial can find for this player."""
        super().__init__([Choice("Begin", True), Choice("Back", False)], back=False)
        self._figure = power_figure(power)
        self._lines = (LASTS, BY_CHANCE, COMPARED, *power_words(power), MIXED_FIGURES, UNCOMPARED)

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the choices, and what the screen says."""
        figure = f"{self._figure.value} {self._figure.words}"
        return {**super().details(), "said": (figure, *self._lines)}

    def picture(self, canvas: Canvas) -> None:
        """Draw the difference it can find, and what it asks and compares, a line each."""
        lead, *lines = self._lines
        width = draw_figure(canvas, self._figure)
        y = draw_lead(canvas, title(canvas, "Beside practice, by days"), lead, width)
        draw_list(canvas, max(y, FIGURE_FOOT) + 20, lines)


class TodaysAnswer(Enum):
    """What the player can answer to the set-up of the day."""

    READY = "ready"
    NOT_TODAY = "not today"
    BACK = "back"


class TodaysSetUp(Menu[TodaysAnswer]):
    """Set-up that today's five minutes are played with; its outcome is the player's answer."""

    name = "trial today"
    in_a_bar = True

    def __init__(
        self, today: Today, set_up: SetUp, changes: Sequence[bool], *, recalibrated: bool
    ) -> None:
        """`changes` tells which features of the set-up the other one differs in.

        `recalibrated`: whether the pedals were calibrated since the trial began.
        """
        super().__init__(
            [
                Choice("Ready", TodaysAnswer.READY),
                Choice("Not today", TodaysAnswer.NOT_TODAY),
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
        today = self._today
        y = draw_set_up(canvas, "Today", today.arm, today.words, self._set_up, self._changes)
        why = f"{self._why} " if self._why else ""
        y = (
            canvas.text(f"{why}{WHOLE_SESSION}", (left, y), theme.BODY, theme.QUIET, width=width)
            + 12
        )
        if self._recalibrated:
            canvas.text(SET_UP_SINCE, (left, y), theme.BODY, theme.QUIET, width=width)

    @property
    def _why(self) -> str:
        """Sentence on why the day is played once more; empty if it is new."""
        earlier = self._today.earlier
        if earlier is not None:
            return once_more(earlier)
        return BEGUN if self._today.begun else ""


class DaysUnderWay(Menu[TrialChoice]):
    """Trial menu while a trial by days is under way. Its outcome is what the player chose."""

    name = "trial by days under way"
    in_a_bar = True

    def __init__(self, arms: tuple[SetUp, SetUp], status: TrialStatus, past: int) -> None:
        """`past` is the number of past trials."""
        super().__init__(
            [
                Choice("Back", TrialChoice.BACK),
                *past_choices(past),
                Choice("Give it up", TrialChoice.GIVE_UP),
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
        heading = title(canvas, "A trial by days is under way")
        y = draw_lead(canvas, heading, f"{self._status.words}.") + 8
        y = draw_arms(canvas, y, self._arms) + 20
        for line in (GOES_ON, MIXED_FIGURES, UNCOMPARED):
            y = canvas.text(line, (theme.MARGIN, y), theme.BODY, theme.QUIET) + 14
