"""Clean repetitions in a row, and days practised in a row by the local calendar."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Self

REST_EVERY = 7
"""days, among any so many in a row one may be a rest day."""
REMEMBERED = 2
"""days, fewest in a row that are said to be lost."""
DAY = timedelta(days=1)


def clean_streak(before: int, clean: bool) -> int:
    """Clean repetitions in a row, one counted repetition later."""
    return before + 1 if clean else 0


@dataclass(frozen=True)
class DayStreak:
    """One local day, and the days in a row up to it; a rest day breaks no row nor counts in it."""

    day: date
    """The day."""
    counted: int = 0
    """count, repetitions on it that were not void."""
    clean: int = 0
    """count, clean ones of them."""
    row: int = 1
    """days, practised in a row up to this one."""
    unbroken: int = 1
    """days, practised up to this one since the last that was not."""

    def plus(self, clean: bool) -> Self:
        """With one more counted repetition."""
        return replace(self, counted=self.counted + 1, clean=self.clean + clean)

    def streak_on(self, today: date) -> int:
        """The days in a row as they stand on this day or a later one without practice."""
        missed = (today - self.day).days - 1
        if missed <= 0:
            return self.row
        if missed > 1:
            return 0
        # The day missed is a rest day; the one before it lies `unbroken + 1` days back.
        return self.row if self.unbroken + 1 >= REST_EVERY else self.unbroken

    def ended_by(self, today: date) -> bool:
        """Whether the row came to an end: on this day or a later one none of it is in force, or
        its newest days alone."""
        return self.streak_on(today) < self.row

    def has_rest_left(self, today: date) -> bool:
        """Whether the row of a day or a later one outlasts it if the next day is missed.

        That is today while nothing was done today, else tomorrow. False where there is no row.
        """
        row, missed = self.streak_on(today), max(self.day + DAY, today)
        return 0 < row == self.streak_on(missed + DAY)

    def following(self, before: DayStreak) -> Self:
        """With its rows as they are where `before` is the last day practised before it."""
        next_day = (self.day - before.day).days == 1
        unbroken = before.unbroken + 1 if next_day else 1
        return replace(self, row=before.streak_on(self.day) + 1, unbroken=unbroken)
