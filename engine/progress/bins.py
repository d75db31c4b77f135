"""Bins of a measure for charts: calendar bins, and the first and the newest week."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from engine.practice.course import LEFT_OUT, Course, Ints

DAILY_UP_TO = 120
"""Longest history, in days back from today, that is drawn with one bin per day."""
WEEKLY_UP_TO = 1096
"""Longest history drawn with one bin per week, in days: three years. Beyond it a bin is a month,
so a chart of 13 years has at most 160 bins."""
EPOCH = date(1970, 1, 1).toordinal()
"""Ordinal of 1 January 1970, the day from which numpy counts its dates."""
REST_OF_WEEK = timedelta(days=6)
"""Time from the first day of a week to its last."""


class BinLength(StrEnum):
    """Length of a calendar bin in a chart."""

    DAY = "day"
    WEEK = "week"
    MONTH = "month"


@dataclass(frozen=True)
class CalendarBin:
    """Calendar bin: quartiles of the repetitions of one day, week (from Monday) or month."""

    first: date
    """First day of the calendar bin."""
    last: date
    """Last day of the calendar bin; today, if the bin is not over yet."""
    low: float
    """Lower quartile of the bin's repetitions, in the unit of the measure."""
    middle: float
    """Median of the bin's repetitions, in the unit of the measure."""
    high: float
    """Upper quartile of the bin's repetitions, in the unit of the measure."""
    count: int
    """Number of repetitions in the calendar bin."""


def is_in_trend(course: Course) -> NDArray[np.bool_]:
    """Mask of the repetitions used for trends, shape (n,): measured, and not a day's warm-up.

    The first `LEFT_OUT` repetitions of a day are its warm-up.
    """
    used: NDArray[np.bool_] = (course.place > LEFT_OUT) & np.isfinite(course.value)
    return used


def left_out(course: Course) -> int:
    """Number of measured repetitions left out of trends as the warm-up of their day."""
    return int(np.sum((course.place <= LEFT_OUT) & np.isfinite(course.value)))


def bin_length(course: Course, today: date) -> BinLength:
    """Length of the calendar bins for a measure, chosen by how far back its repetitions reach."""
    if not len(course):
        return BinLength.DAY
    back = today.toordinal() - int(course.day.min())
    if back <= DAILY_UP_TO:
        return BinLength.DAY
    return BinLength.WEEK if back <= WEEKLY_UP_TO else BinLength.MONTH


def calendar_bins(
    course: Course, today: date, length: BinLength | None = None
) -> tuple[CalendarBin, ...]:
    """Calendar bins of the repetitions used for trends, oldest first; none is empty.

    Without a `length` the bins are as long as `bin_length` says.

    Quartiles are interpolated between the values on either side (definition 7 of Hyndman & Fan
    1996, which is also that of numpy): of 1, 2, 3, 4 they are 1.75, 2.5 and 3.25.
    """
    length = bin_length(course, today) if length is None else length
    used = is_in_trend(course)
    days, values = course.day[used], course.value[used]
    index = INDEX[length](days)
    order = np.lexsort((values, index))
    indices, starts, counts = np.unique(index[order], return_index=True, return_counts=True)
    low, middle, high = (_quartile(values[order], starts, counts, k) for k in (1, 2, 3))
    rows = zip(indices.tolist(), low, middle, high, counts.tolist(), strict=True)
    newest = max(today, _day(int(days.max()))) if days.size else today
    first_day = FIRST_DAY[length]
    return tuple(
        CalendarBin(first_day(number), min(first_day(number + 1) - timedelta(days=1), newest), *row)
        for number, *row in rows
    )


def _quartile(ordered: NDArray[np.float64], starts: Ints, counts: Ints, k: int) -> list[float]:
    """The k-th quartile of every bin; `ordered` holds the bins' values, sorted within each bin."""
    steps = (counts - 1) * k
    below = starts + steps // 4
    above = np.minimum(below + 1, starts + counts - 1)
    share = steps % 4 / 4
    quartiles: list[float] = (ordered[below] + share * (ordered[above] - ordered[below])).tolist()
    return quartiles


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


INDEX: Mapping[BinLength, Callable[[Ints], Ints]] = {
    BinLength.DAY: lambda days: days,
    BinLength.WEEK: _week_of,
    BinLength.MONTH: _month_of,
}
"""Function from ordinals of days to the numbers of their calendar bins, by length of the bins."""


FIRST_DAY: Mapping[BinLength, Callable[[int], date]] = {
    BinLength.DAY: _day,
    BinLength.WEEK: lambda week: _day(7 * week + 1),
    BinLength.MONTH: _month_begins,
}
"""Function from the number of a calendar bin to its first day, by length of the bins."""


@dataclass(frozen=True)
class DateRange:
    """Range of days from one date to another, both included."""

    first: date
    """First day of the range."""
    last: date
    """Last day of the range."""


def two_weeks(days: Sequence[date], today: date) -> tuple[DateRange, ...]:
    """The first week of practice and the current one; `days` are the days practised, in order.

    The current week is the last seven days up to today or, without practice in them, the seven
    up to the newest day practised. Only the first week is returned where the two would overlap:
    until 13 days after the first day, and until there is practice after the first week. Nothing
    is returned before any practice.
    """
    if not days:
        return ()
    first = DateRange(days[0], days[0] + REST_OF_WEEK)
    current = DateRange(today - REST_OF_WEEK, today)
    if days[-1] < current.first or days[-1] > today:
        current = DateRange(days[-1] - REST_OF_WEEK, days[-1])
    return (first, current) if current.first > first.last else (first,)
