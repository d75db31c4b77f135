"""Streaks: clean repetitions in a row, and days practised in a row by the local calendar."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Self

REST_EVERY = 7
"""Days in a row of which one may be a rest day without breaking the streak."""
REMEMBERED = 2
"""Shortest streak whose end is told to the player, in days."""
DAY = timedelta(days=1)
"""Length of one calendar day."""


def clean_streak(before: int, clean: bool) -> int:
    """Number of clean repetitions in a row after one more; `before` is the number until then."""
    return before + 1 if clean else 0


@dataclass(frozen=True)
class DayStreak:
    """One local day practised, and the streak up to it; a rest day neither breaks it nor counts."""

    day: date
    """Local day on which the player practised."""
    counted: int = 0
    """Repetitions on the day that were not void, as a count."""
    clean: int = 0
    """Clean repetitions on the day, as a count."""
    row: int = 1
    """Length of the streak up to and including this day, in days practised."""
    unbroken: int = 1
    """Days practised without a gap up to and including this one, as a count."""

    def plus(self, clean: bool) -> Self:
        """This day with one more counted repetition."""
        return replace(self, counted=self.counted + 1, clean=self.clean + clean)

    def streak_on(self, today: date) -> int:
        """Length of the streak, in days, on this day or a later one not practised yet."""
        missed = (today - self.day).days - 1
        if missed <= 0:
            return self.row
        if missed > 1:
            return 0
        # The day missed is a rest day; the one before it lies `unbroken + 1` days back.
        return self.row if self.unbroken + 1 >= REST_EVERY else self.unbroken

    def ended_by(self, today: date) -> bool:
        """Whether by `today` the streak has ended, or shrunk to the days since its last gap."""
        return self.streak_on(today) < self.row

    def has_rest_left(self, today: date) -> bool:
        """Whether the streak survives one missed day, the next one that can be missed.

        The day missed is today while nothing was done today, else tomorrow. False without a streak.
        """
        length, missed = self.streak_on(today), max(self.day + DAY, today)
        return 0 < length == self.streak_on(missed + DAY)

    def following(self, before: DayStreak) -> Self:
        """This day with its streak continued from `before`, the previous day practised."""
        next_day = (self.day - before.day).days == 1
        unbroken = before.unbroken + 1 if next_day else 1
        return replace(self, row=before.streak_on(self.day) + 1, unbroken=unbroken)
