"""Weeks of practice, from Monday: the steps of the hill that the days practised are drawn as."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

WEEK = timedelta(days=7)
"""Length of a week."""
ONE_HILL = 53
"""Longest history in weeks that is one hill; a longer one has a ridge for each year."""
MOST_YEARS = 10
"""Most years that are drawn, as a count: the lines of more would touch."""


@dataclass(frozen=True)
class PracticeWeek:
    """Practice of one week, or of the part of it that is in one year."""

    monday: date
    """The Monday on which the week begins."""
    counts: tuple[int, ...] = ()
    """Repetitions on each day practised, in order; empty for a week of rest."""

    @property
    def total(self) -> int:
        """Repetitions of the week, as a count."""
        return sum(self.counts)


@dataclass(frozen=True)
class Ridge:
    """Weeks in a row that are drawn as one hill."""

    first: date
    """Day at the left foot of the hill."""
    last: date
    """Day at its right foot: the last of the year, or the last that the one hill has room for."""
    weeks: tuple[PracticeWeek, ...]
    """Every week that has begun, those of rest too, in order."""

    @property
    def days(self) -> int:
        """Days practised, as a count."""
        return sum(len(week.counts) for week in self.weeks)


def _monday_of(day: date) -> date:
    """The Monday of a day's week."""
    return day - timedelta(days=day.weekday())


def is_one_hill(days: Sequence[tuple[date, int]], today: date) -> bool:
    """Whether the whole history is drawn as one hill."""
    return not days or _monday_of(days[0][0]) > _monday_of(today) - ONE_HILL * WEEK


def ridges(days: Sequence[tuple[date, int]], today: date, fewest: int) -> list[Ridge]:
    """Hills of a history, oldest first: one from the first day on, or one for each year.

    `days` are the days practised with their repetitions, in order; one hill has room for `fewest`
    weeks at least. There is at least one day.
    """
    begun = days[0][0]
    if is_one_hill(days, today):
        monday = _monday_of(begun)
        room = max((_monday_of(today) - monday) // WEEK + 1, fewest)
        return [
            Ridge(monday, monday + room * WEEK - timedelta(days=1), _weeks(days, monday, today))
        ]
    first_year = max(begun.year, today.year - MOST_YEARS + 1)
    return [
        Ridge(
            date(year, 1, 1),
            date(year, 12, 31),
            _weeks(
                [day for day in days if day[0].year == year],
                date(year, 1, 1),
                min(date(year, 12, 31), today),
            ),
        )
        for year in range(first_year, today.year + 1)
    ]


def all_weeks(days: Sequence[tuple[date, int]], today: date) -> tuple[PracticeWeek, ...]:
    """Every week from the first day practised to today. There is at least one day."""
    return _weeks(days, days[0][0], today)


def _weeks(days: Sequence[tuple[date, int]], first: date, last: date) -> tuple[PracticeWeek, ...]:
    """Every week from that of the first to that of the last day, with the days practised in it."""
    monday = _monday_of(first)
    counts: list[list[int]] = [[] for _ in range((last - monday).days // 7 + 1)]
    for day, count in days:
        if first <= day <= last:
            counts[(day - monday).days // 7].append(count)
    return tuple(
        PracticeWeek(monday + number * WEEK, tuple(week)) for number, week in enumerate(counts)
    )
