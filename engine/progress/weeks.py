"""Single blips of the first and of the current week, to be drawn over each other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np

from drills.deviation import Deviation
from drills.typical import median_of
from engine.drill.stored_picture import picture_of
from engine.practice.blip_size import scaled
from engine.practice.course import Course
from engine.progress.bins import DateRange, two_weeks
from engine.store import History
from engine.store.courses import traced_numbers
from engine.store.repetitions import measures_of

SINGLE = "blip"
"""Name of the kind of drill with single blips, whose curves, dips and distances are drawn."""
MOST_DRAWN = 120
"""Largest number of blips drawn for a week, chosen evenly: more would merge into grey."""


@dataclass(frozen=True)
class Week:
    """Single blips of one week, to be drawn over each other."""

    first: date
    """First day of the week whose blips are drawn."""
    last: date
    """Last day of the week; today if the week is not over yet."""
    blips: tuple[Deviation, ...]
    """Brake curves of the blips drawn for the week, oldest first."""
    median: Deviation
    """Median, at each moment, of the brake curves that the chart of the week draws."""
    traced: int
    """Number of the week's blips with a stored trace, including those not drawn."""
    dip: float
    """Median dip of the blips drawn for the week, in points."""
    peak: float
    """Median size of the blips drawn for the week, the highest throttle of each in %."""
    scaled_dip: float
    """Median of the dips as they would be at blips of one size, in points."""


def weeks_of(history: History, single: Course, today: date, after: int) -> tuple[Week, ...]:
    """The first week with single blips that can be drawn, then the current week.

    `single` is the course of their dips. Only repetitions numbered above `after` are drawn. Raises
    StoreError.
    """
    return tuple(_weeks(history, single, today, after))


def _weeks(history: History, single: Course, today: date, after: int) -> Iterator[Week]:
    """The first and the current week, as far as they can be drawn."""
    traced = np.isin(single.number, traced_numbers(history, SINGLE, date.min, date.max))
    traced &= single.number > after
    days = np.unique(single.day[traced & np.isfinite(single.value)]).tolist()
    for dates in two_weeks([date.fromordinal(day) for day in days], today):
        first, last = dates.first.toordinal(), dates.last.toordinal()
        of_week = traced & (single.day >= first) & (single.day <= last)
        up_to_today = DateRange(dates.first, min(dates.last, today))
        week = _week(history, up_to_today, single.number[of_week].tolist())
        if week is None:
            return
        yield week


def _week(history: History, dates: DateRange, numbers: Sequence[int]) -> Week | None:
    """Week drawn from the repetitions with these numbers; None if none of them can be drawn."""
    drawn, dips, peaks = [], [], []
    for number in evenly(numbers, MOST_DRAWN):
        measures = measures_of(history, number)
        picture = picture_of(history, number, measures)
        dip, peak = measures.get("dip"), measures.get("peak")
        if picture is not None and dip is not None and peak is not None:
            drawn.append(picture)
            dips.append(dip)
            peaks.append(peak)
    if not drawn:
        return None
    like = [scaled(dip, peak) for dip, peak in zip(dips, peaks, strict=True)]
    return Week(
        dates.first,
        dates.last,
        tuple(drawn),
        median_of(drawn),
        len(numbers),
        float(np.median(dips)),
        float(np.median(peaks)),
        float(np.median(like)),
    )


def evenly(numbers: Sequence[int], most: int) -> list[int]:
    """At most `most` of the numbers, evenly spaced, with the first and the last among them."""
    if len(numbers) <= most:
        return list(numbers)
    places = np.linspace(0, len(numbers) - 1, most).round().astype(np.int64)
    return [numbers[place] for place in places]
