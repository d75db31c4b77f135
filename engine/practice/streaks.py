"""Streaks: clean repetitions in a row, and days practised in a row by the local calendar."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Self

REST_EVERY = 7
"""Days in a row of which one may be a rest day."""
REMEMBERED = 2
"""Shortest streak, in days, whose end the player hears of."""
DAY = timedelta(days=1)
"""Length of one calendar day."""


def clean_streak(before: int, clean: bool) -> int:
    """Clean repetitions in a row after one more counted repetition."""
    return before + 1 if clean else 0


@dataclass(frozen=True)
class DayStreak:
    """One local day practised, and the streak up to it; a rest day neither breaks it nor counts."""

    day: date
    """The local day."""
    counted: int = 0
    """Repetitions on it that were not void, as a count."""
    clean: int = 0
    """Clean repetitions on it, as a count."""
    row: int = 1
    """Length of the streak up to this day, in days practised."""
    unbroken: int = 1
    """Days practised up to this one since the last day that was missed."""

    def plus(self, clean: bool) -> Self:
        """The day with one more counted repetition."""
        return replace(self, counted=self.counted + 1, clean=self.clean + clean)

    def streak_on(self, today: date) -> int:
        """Length of the streak, in days, on this day or on a later one without practice."""
        missed = (today - self.day).days - 1
        if missed <= 0:
            return self.row
        if missed > 1:
            return 0
        # The day missed is a rest day; the one before it lies `unbroken + 1` days back.
        return self.row if self.unbroken + 1 >= REST_EVERY else self.unbroken

    def ended_by(self, today: date) -> bool:
        """Whether the streak is broken, or cut to its newest days, on this day or a later one."""
        return self.streak_on(today) < self.row

    def has_rest_left(self, today: date) -> bool:
        """Whether the streak survives missing the next day that can still be missed.

        That is today while nothing was done today, else tomorrow. False where there is no streak.
        """
        length, missed = self.streak_on(today), max(self.day + DAY, today)
        return 0 < length == self.streak_on(missed + DAY)

    def following(self, before: DayStreak) -> Self:
        """The day with its streak continued from `before`, the last day practised before it."""
        next_day = (self.day - before.day).days == 1
        unbroken = before.unbroken + 1 if next_day else 1
        return replace(self, row=before.streak_on(self.day) + 1, unbroken=unbroken)
