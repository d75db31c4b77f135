"""Charts over the days: a measure with its middle half, and the steadiness band.

Every word stands outside the frame, so that none touches what is drawn.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from engine.kit import charts_marks, theme
from engine.kit.charts import Area, Axes, Paper, framed, scale_across, scale_up, top_of
from engine.kit.charts_dates import day_marks, day_words
from engine.kit.steadiness_chart import SteadinessView
from engine.practice.changes import Change
from engine.practice.steadiness import DaySteadiness
from engine.progress.progress import BinnedMeasure

LEAST_DAYS = 7
"""days across at least, so that the first of them stand where days do."""
COUNTS = 62
"""units, height of the strip of counts under the frame."""
BETWEEN = 40
"""units, from the frame to that strip."""
WIDEST, CLOSEST = 11.0, 2.5
"""units, radius of the mark of a bin where there is room, and where there is none."""


def spread(
    paper: Paper, area: Area, shown: BinnedMeasure, unit: str, told: Sequence[Change], today: date
) -> None:
    """A mark for the median of each bin, a bar for its middle half, and how many there were.

    `unit` is that of the measure. There is at least one bin.
    """
    bins, each = shown.bins, shown.unit.value
    changes = change_words(told, bins[0].first, today)
    above = charts_marks.ROW if changes else 0
    upper = framed(area).within(0, above, 0, BETWEEN + COUNTS)
    axes = _axes(upper, bins[0].first, today, max(one.high for one in bins))
    scale_up(paper, axes, unit, above)
    samples = (
        (charts_marks.dot, f"median of a {each}"),
        (charts_marks.bar, "its middle half"),
        (charts_marks.column, f"blips a {each}"),
    )
    charts_marks.legend(paper, axes, above, samples)
    charts_marks.mark_changes(paper, axes, changes)
    places = [axes.across((one.first.toordinal() + one.last.toordinal()) / 2) for one in bins]
    radius = _radius(places)
    middles = [(x, axes.down(one.middle)) for x, one in zip(places, bins, strict=True)]
    paper.curve(middles, theme.EARLIER, 2)
    for (x, y), one in zip(middles, bins, strict=True):
        ends = axes.down(one.high), axes.down(one.low)
        charts_marks.middle_half(paper, x, ends, radius)
        paper.disc((x, y), radius, theme.BRAKE)
    strip = Area(upper.left, upper.bottom + BETWEEN, upper.width, COUNTS)
    _counts(paper, strip, places, [one.count for one in bins], radius)
    marks = day_marks(_begins(bins[0].first, today), today)
    scale_across(paper, Axes(strip, axes.first, axes.last, 0, 1), marks)


def bands(
    paper: Paper,
    area: Area,
    days: Sequence[DaySteadiness],
    now: SteadinessView,
    told: Sequence[Change],
    today: date,
) -> None:
    """A mark for the band at the end of each of some days, and the interval of the newest."""
    changes = change_words(told, days[0].day, today)
    above = charts_marks.ROW if changes else 0
    most = max(now.high, *(one.value for one in days))
    axes = _axes(framed(area).within(0, above, 0, 0), days[0].day, today, most)
    scale_up(paper, axes, "points", above)
    samples = (
        (charts_marks.dot, "the band at the end of a day"),
        (charts_marks.ends, "likely between, now"),
    )
    charts_marks.legend(paper, axes, above, samples)
    charts_marks.mark_changes(paper, axes, changes)
    dots = [axes.place(one.day.toordinal(), one.value) for one in days]
    radius = _radius([x for x, _ in dots])
    charts_marks.interval(paper, dots[-1][0], (axes.down(now.low), axes.down(now.high)))
    paper.curve(dots, theme.EARLIER, 3)
    for place in dots:
        paper.disc(place, radius, theme.BRAKE)
    scale_across(paper, axes, day_marks(_begins(days[0].day, today), today))


def change_words(told: Sequence[Change], first: date, today: date) -> list[tuple[float, str]]:
    """The changes from one day to another: the day as an ordinal, and what it was."""
    found = [(one.at.date(), one.what.value) for one in told]
    return [
        (day.toordinal(), f"{what}, {day_words(day)}")
        for day, what in found
        if first <= day <= today
    ]


def _begins(first: date, today: date) -> date:
    """The day at the left edge."""
    return min(first, today - timedelta(days=LEAST_DAYS - 1))


def _axes(frame: Area, first: date, today: date, most: float) -> Axes:
    """Half a day is left free at either side."""
    begins, ends = _begins(first, today).toordinal() - 0.5, today.toordinal() + 0.5
    return Axes(frame, begins, ends, 0.0, top_of(most))


def _radius(places: Sequence[float]) -> float:
    """units, of a mark, so that neighbours can be told apart."""
    apart = (places[-1] - places[0]) / (len(places) - 1) if len(places) > 1 else WIDEST * 3
    return min(max(apart / 3, CLOSEST), WIDEST)


def _counts(
    paper: Paper, strip: Area, places: Sequence[float], counts: Sequence[int], radius: float
) -> None:
    """A column for each count, and the most of them beside."""
    most = max(counts)
    paper.line((strip.left, strip.bottom), (strip.right, strip.bottom), theme.FAINT, 2)
    for x, count in zip(places, counts, strict=True):
        height = strip.height * count / most
        paper.box((x - radius, strip.bottom - height), (2 * radius, height), theme.FAINT)
    paper.line((strip.left - 10, strip.top), (strip.left, strip.top), theme.FAINT, 2)
    paper.text(f"{most}", (strip.left - 20, strip.top - 16), theme.SMALL, theme.QUIET, "right")
