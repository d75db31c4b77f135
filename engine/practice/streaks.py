"""Clean repetitions in a row, and days practised in a row by the local calendar."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from engine.practice.results import Result

REST_EVERY = 7
"""days, among any so many in a row one may be a rest day."""

_DAY = timedelta(days=1)


def clean_streak(results: Sequence[Result]) -> int:
    """Clean repetitions since the last that was not; void ones are passed over."""
    streak = 0
    for result in reversed(results):
        if result.void:
            continue
        if not result.clean:
            break
        streak += 1
    return streak


def day_streak(days: Iterable[date], today: date) -> int:
    """Days practised up to today; today itself is not missed before it is over.

    One rest day in seven does not break the streak and does not count in it.
    """
    practised = frozenset(days)
    day = today if today in practised else today - _DAY
    streak, last_rest = 0, date.max
    while True:
        if day in practised:
            streak += 1
        elif (last_rest - day).days < REST_EVERY:
            return streak
        else:
            last_rest = day
        day -= _DAY
