"""Charts with one mark per bin of days: the dip, the extra stopping distance, steadiness.

Every word stands outside the frame, so that none touches what is drawn.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from itertools import pairwise

from engine.kit import charts_marks, theme
from engine.kit.charts import Area, Axes, Paper, framed, scale_across, scale_up, top_of
from engine.kit.charts_dates import day_marks
from engine.practice.changes import Change, Changed
from engine.practice.steadiness import DaySteadiness
from engine.progress.changes_words import change_on_day
from engine.progress.progress import BinnedMeasure, Progress

FEWEST_DAYS = 7
"""Smallest number of days that the axis of a chart spans, so that first marks stand apart."""
COUNTS_HEIGHT = 62
"""Height of the strip below a chart that shows the blips per bin, in canvas units."""
COUNTS_GAP = 40
"""Space between the frame of a chart and the strip of counts below it, in canvas units."""
LARGEST_MARK, SMALLEST_MARK = 11.0, 2.5
"""Largest and smallest radius of the mark of a bin, in canvas units: the fewer bins, the larger."""


def dip_chart(paper: Paper, area: Area, progress: Progress) -> None:
    """Draw the dip of single blips over the days."""
    _binned_chart(paper, area, progress.dips, "points", progress)


def distance_chart(paper: Paper, area: Area, progress: Progress) -> None:
    """Draw the extra stopping distance of single blips over the days."""
    _binned_chart(paper, area, progress.distances, "m", progress)


def _binned_chart(
    paper: Paper, area: Area, measure: BinnedMeasure, unit: str, progress: Progress
) -> None:
    """Draw each bin's median with a bar for its middle half, and a strip of blips per bin.

    `unit` is that of the measure. There is at least one bin.
    """
    bins, each, today = measure.bins, measure.length.value, progress.today
    changes = change_words(progress.changes, bins[0].first, today)
    above = charts_marks.ROW if changes else 0
    frame = framed(area).within(0, above, 0, COUNTS_GAP + COUNTS_HEIGHT)
    axes = _axes(frame, bins[0].first, today, max(bin_.high for bin_ in bins))
    scale_up(paper, axes, unit, above)
    samples = (
        (charts_marks.dot, f"median of a {each}"),
        (charts_marks.bar, "its middle half"),
        (charts_marks.column, f"blips a {each}"),
    )
    charts_marks.legend(paper, axes, above, samples)
    charts_marks.mark_changes(paper, axes, changes)
    xs = [axes.across((bin_.first.toordinal() + bin_.last.toordinal()) / 2) for bin_ in bins]
    radius = _radius(xs)
    medians = [(x, axes.down(bin_.middle)) for x, bin_ in zip(xs, bins, strict=True)]
    for begin, end in pairwise([0, *measure.begins, len(medians)]):
        paper.curve(medians[begin:end], theme.EARLIER, 2)
    for (x, y), bin_ in zip(medians, bins, strict=True):
        ends = axes.down(bin_.high), axes.down(bin_.low)
        charts_marks.middle_half(paper, x, ends, radius)
        paper.disc((x, y), radius, theme.BRAKE)
    strip = Area(frame.left, frame.bottom + COUNTS_GAP, frame.width, COUNTS_HEIGHT)
    _counts(paper, strip, xs, [bin_.count for bin_ in bins], radius)
    marks = day_marks(_first_day(bins[0].first, today), today)
    scale_across(paper, Axes(strip, axes.first, axes.last, 0, 1), marks)


def steadiness_over_days(paper: Paper, area: Area, progress: Progress) -> None:
    """Draw steadiness at the end of each day, and the interval of the present one if there is one.

    There is at least one day. On a new scale of the brake there is no present value at first.
    """
    days, now, today = progress.daily_steadiness, progress.steadiness, progress.today
    changes = change_words(progress.changes, days[0].day, today)
    above = charts_marks.ROW if changes else 0
    most = max([day.value for day in days] + ([] if now is None else [now.high]))
    axes = _axes(framed(area).within(0, above, 0, 0), days[0].day, today, most)
    scale_up(paper, axes, "points", above)
    samples = [(charts_marks.dot, "steadiness at the end of a day")]
    if now is not None:
        samples.append((charts_marks.ends, "likely between, now"))
    charts_marks.legend(paper, axes, above, samples)
    charts_marks.mark_changes(paper, axes, changes)
    dots = [axes.place(day.day.toordinal(), day.value) for day in days]
    radius = _radius([x for x, _ in dots])
    if now is not None:
        charts_marks.interval(paper, dots[-1][0], (axes.down(now.low), axes.down(now.high)))
    for begin, end in pairwise([0, *_scale_begins(days, progress.changes), len(dots)]):
        paper.curve(dots[begin:end], theme.EARLIER, 3)
    for dot in dots:
        paper.disc(dot, radius, theme.BRAKE)
    scale_across(paper, axes, day_marks(_first_day(days[0].day, today), today))


def _scale_begins(days: Sequence[DaySteadiness], changes: Sequence[Change]) -> list[int]:
    """Indices of the days between which and the day before the brake's scale changed."""
    changed = [change.at.date() for change in changes if change.what is Changed.SCALE]
    return [
        number
        for number, (before, day) in enumerate(pairwise(days), start=1)
        if any(before.day <= at <= day.day for at in changed)
    ]


def change_words(changes: Sequence[Change], first: date, today: date) -> list[tuple[float, str]]:
    """Ordinal of the day and words for each change from `first` to `today`."""
    days = [(change.at.date(), change_on_day(change)) for change in changes]
    return [(day.toordinal(), words) for day, words in days if first <= day <= today]


def _first_day(first: date, today: date) -> date:
    """Day at the left edge of a chart whose first value is on day `first`."""
    return min(first, today - timedelta(days=FEWEST_DAYS - 1))


def _axes(frame: Area, first: date, today: date, most: float) -> Axes:
    """Axes from day `first` to `today`, half a day free on either side, and from 0 up to `most`."""
    begins, ends = _first_day(first, today).toordinal() - 0.5, today.toordinal() + 0.5
    return Axes(frame, begins, ends, 0.0, top_of(most))


def _radius(xs: Sequence[float]) -> float:
    """Radius of marks at these x that keeps neighbours apart; all in canvas units."""
    apart = (xs[-1] - xs[0]) / (len(xs) - 1) if len(xs) > 1 else LARGEST_MARK * 3
    return min(max(apart / 3, SMALLEST_MARK), LARGEST_MARK)


def _counts(
    paper: Paper, strip: Area, xs: Sequence[float], counts: Sequence[int], radius: float
) -> None:
    """Draw a column for each bin's number of blips, and the largest number beside the strip."""
    most = max(counts)
    paper.line((strip.left, strip.bottom), (strip.right, strip.bottom), theme.FAINT, 2)
    for x, count in zip(xs, counts, strict=True):
        height = strip.height * count / most
        paper.box((x - radius, strip.bottom - height), (2 * radius, height), theme.FAINT)
    paper.line((strip.left - 10, strip.top), (strip.left, strip.top), theme.FAINT, 2)
    paper.text(f"{most}", (strip.left - 20, strip.top - 16), theme.SMALL, theme.QUIET, "right")
