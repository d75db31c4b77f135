"""A measure over the days for a chart: median and middle half of a day, a week or a month each.

The first repetitions of a day are worse than the rest (warm-up decrement, abstract), so they are
left out of every trend, and the screens say how many were.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from engine.practice.course import LEFT_OUT, Course, Whole

DAYS, WEEKS = 120, 1096
"""days back from today up to which a chart has a bin a day, and up to which (three years) one a
week: so it has no more than 160 bins in 13 years."""
EPOCH = date(1970, 1, 1).toordinal()
"""Ordinal of the day that numpy counts from."""


class Unit(StrEnum):
    """How long a bin is."""

    DAY = "day"
    WEEK = "week"
    MONTH = "month"


@dataclass(frozen=True)
class Bin:
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


def by_span(course: Course, today: date) -> tuple[Bin, ...]:
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
        Bin(BEGIN[unit](place), min(BEGIN[unit](place + 1) - timedelta(days=1), ends), *row)
        for place, *row in rows
    )


def _quantiles(
    ordered: NDArray[np.float64], begins: Whole, counts: Whole, quarters: int
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


def _week_of(days: Whole) -> Whole:
    # Ordinal 1 was a Monday.
    return (days - 1) // 7


def _month_of(days: Whole) -> Whole:
    months: Whole = (days - EPOCH).astype("datetime64[D]").astype("datetime64[M]").astype(np.int64)
    return months


def _month_begins(month: int) -> date:
    return date(1970 + month // 12, month % 12 + 1, 1)


SPAN: Mapping[Unit, Callable[[Whole], Whole]] = {
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
