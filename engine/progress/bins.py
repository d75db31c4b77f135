"""Bins of a measure: by day, week or month, by equal counts, and the two weeks compared."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from engine.practice.course import LEFT_OUT, Course, Ints

DAYS, WEEKS = 120, 1096
"""days back from today up to which a chart has a bin a day, and up to which (three years) one a
week: so it has no more than 160 bins in 13 years."""
EPOCH = date(1970, 1, 1).toordinal()
"""Ordinal of the day that numpy counts from."""
MOST = 40
"""count of handfuls at most, so that each can be told from the next."""
LEAST = 5
"""count of repetitions in a handful, where there are as many."""
WEEK = timedelta(days=7)
"""From one week to the next."""
REST = timedelta(days=6)
"""From the first day of a week to its last."""


class Unit(StrEnum):
    """How long a bin is."""

    DAY = "day"
    WEEK = "week"
    MONTH = "month"


@dataclass(frozen=True)
class CalendarBin:
    """The repetitions of one day, week (Monday to Sunday) or calendar month."""

    first: date
    """Its first day."""
    last: date
    """Its last day; of the bin that is not over, today."""
    low: float
    """Lower quartile, in the unit of the measure."""
    middle: float
    """Median, in the unit of the measure."""
    high: float
    """Upper quartile, in the unit of the measure."""
    count: int
    """count of repetitions it rests on."""


def is_in_trend(course: Course) -> NDArray[np.bool_]:
    """Which repetitions enter a trend, shape (n,): measured, and not of a day's first."""
    entering: NDArray[np.bool_] = (course.place > LEFT_OUT) & np.isfinite(course.value)
    return entering


def left_out(course: Course) -> int:
    """count of measured repetitions that enter no trend, as they are among a day's first."""
    return int(np.sum((course.place <= LEFT_OUT) & np.isfinite(course.value)))


def unit_of(course: Course, today: date) -> Unit:
    """How long the bins of a course are, by how far it reaches back."""
    if not len(course):
        return Unit.DAY
    back = today.toordinal() - int(course.day.min())
    if back <= DAYS:
        return Unit.DAY
    return Unit.WEEK if back <= WEEKS else Unit.MONTH


def calendar_bins(course: Course, today: date) -> tuple[CalendarBin, ...]:
    """A bin for every day, week or month with repetitions that enter a trend, in order.

    Quartiles are interpolated between the values on either side (definition 7 of Hyndman & Fan
    1996, which is also that of numpy): of 1, 2, 3, 4 they are 1.75, 2.5 and 3.25.
    """
    unit = unit_of(course, today)
    entering = is_in_trend(course)
    days, values = course.day[entering], course.value[entering]
    span = SPAN[unit](days)
    order = np.lexsort((values, span))
    spans, begins, counts = np.unique(span[order], return_index=True, return_counts=True)
    low, middle, high = (_quantiles(values[order], begins, counts, one) for one in (1, 2, 3))
    rows = zip(spans.tolist(), low, middle, high, counts.tolist(), strict=True)
    ends = max(today, _day(int(days.max()))) if days.size else today
    return tuple(
        CalendarBin(BEGIN[unit](place), min(BEGIN[unit](place + 1) - timedelta(days=1), ends), *row)
        for place, *row in rows
    )


def _quantiles(
    ordered: NDArray[np.float64], begins: Ints, counts: Ints, quarters: int
) -> list[float]:
    """A quantile of every bin, of values that rise within each."""
    steps = (counts - 1) * quarters
    below = begins + steps // 4
    above = np.minimum(below + 1, begins + counts - 1)
    share = steps % 4 / 4
    found: list[float] = (ordered[below] + share * (ordered[above] - ordered[below])).tolist()
    return found


def _day(ordinal: int) -> date:
    return date.fromordinal(ordinal)


def _week_of(days: Ints) -> Ints:
    # Ordinal 1 was a Monday.
    return (days - 1) // 7


def _month_of(days: Ints) -> Ints:
    months: Ints = (days - EPOCH).astype("datetime64[D]").astype("datetime64[M]").astype(np.int64)
    return months


def _month_begins(month: int) -> date:
    return date(1970 + month // 12, month % 12 + 1, 1)


SPAN: Mapping[Unit, Callable[[Ints], Ints]] = {
    Unit.DAY: lambda days: days,
    Unit.WEEK: _week_of,
    Unit.MONTH: _month_of,
}
"""The number of the bin that each day is in."""


BEGIN: Mapping[Unit, Callable[[int], date]] = {
    Unit.DAY: _day,
    Unit.WEEK: lambda week: _day(7 * week + 1),
    Unit.MONTH: _month_begins,
}
"""The first day of a bin."""


@dataclass(frozen=True)
class EqualCountBin:
    """Some repetitions of a kind one after another."""

    first: int
    """From 1, the place of the first of them among those of the kind."""
    last: int
    """The place of the last of them."""
    count: int
    """count of those that enter a trend."""
    low: float
    """Lower quartile, in the unit of the measure."""
    middle: float
    """Median, in the unit of the measure."""
    high: float
    """Upper quartile, in the unit of the measure."""


def equal_count_bins(course: Course, changes: Sequence[int]) -> Iterator[EqualCountBin]:
    """What enters a trend, a handful at a time; none reaches over a change.

    `changes` are counts of repetitions of the kind, each before a change.
    """
    entering = np.flatnonzero(is_in_trend(course))
    size = max(-(-entering.size // MOST), LEAST)
    for part in np.split(entering, np.searchsorted(entering, sorted(set(changes)))):
        for some in np.array_split(part, max(part.size // size, 1)):
            if some.size:
                low, middle, high = np.percentile(course.value[some], (25, 50, 75)).tolist()
                yield EqualCountBin(
                    int(some[0]) + 1, int(some[-1]) + 1, some.size, low, middle, high
                )


@dataclass(frozen=True)
class DateRange:
    """A week that need not begin on a Monday."""

    first: date
    """Its first day."""
    last: date
    """Its last day."""


def two_weeks(days: Sequence[date], today: date) -> tuple[DateRange, ...]:
    """The first week of practice and this one, from the practised days in order.

    This one is the last seven days up to today or, where nothing was done in them, up to the
    newest practised day. It is missing where it would overlap the first: until 13 days after the
    first day, and until there is practice after the first week. Both are missing where nothing
    was done yet.
    """
    if not days:
        return ()
    first = DateRange(days[0], days[0] + REST)
    this = DateRange(today - REST, today)
    if days[-1] < this.first or days[-1] > today:
        this = DateRange(days[-1] - REST, days[-1])
    return (first, this) if this.first > first.last else (first,)
