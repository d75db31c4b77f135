"""Charts of a value over the days: steadiness, the dip, the extra stopping distance.

They begin at the player's first day. Every word stands outside the frame, so that none touches what
is drawn.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from itertools import pairwise

from engine.kit import charts_marks, theme
from engine.kit.area import Area
from engine.kit.charts import Axes, Paper, framed, scale_across, scale_up, top_of
from engine.kit.charts_dates import axis_marks
from engine.practice.changes import Change, Changed
from engine.practice.steadiness import WINDOW, DaySteadiness
from engine.progress.changes_words import change_on_day
from engine.progress.progress import BinnedMeasure, Progress

FEWEST_DAYS = 7
"""Smallest number of days that the axis of a chart spans, so that first marks stand apart."""
LARGEST_MARK, SMALLEST_MARK = 9.0, 2.5
"""Largest and smallest radius of the mark of a bin, in canvas units: the fewer bins, the larger."""
A_ROW = 12
"""Blips in a row of those that the first steadiness waits for, as a count."""
PITCH = 92.0
"""Distance from one of these blips to the next, in canvas units."""
LINE = 6.0
"""Width of the line of a course, in canvas units."""


def dip_chart(paper: Paper, area: Area, progress: Progress) -> None:
    """Draw the dip of single blips over the days."""
    _binned_chart(paper, area, progress.dips, "points", progress)


def distance_chart(paper: Paper, area: Area, progress: Progress) -> None:
    """Draw the extra stopping distance of single blips over the days."""
    _binned_chart(paper, area, progress.distances, "m", progress)


def _binned_chart(
    paper: Paper, area: Area, measure: BinnedMeasure, unit: str, progress: Progress
) -> None:
    """Draw the medians of bins as a line, on the shade of their middle halves.

    `unit` is that of the measure. There is at least one bin.
    """
    bins = measure.bins
    most = max(bin_.high for bin_ in bins)
    axes, first = _axes(paper, area, bins[0].first, most, progress)
    each = measure.length.value
    samples = [(charts_marks.shade, f"typical of a {each}, and the middle half of its blips")]
    _frame_of(paper, axes, area, first, unit, samples, progress)
    days = [
        (max(bin_.first, first).toordinal() + min(bin_.last, progress.today).toordinal()) / 2
        for bin_ in bins
    ]
    rows = [(day, bin_.low, bin_.middle, bin_.high) for day, bin_ in zip(days, bins, strict=True)]
    draw_course(paper, axes, rows, measure.begins)


def steadiness_over_days(paper: Paper, area: Area, progress: Progress) -> None:
    """Draw steadiness at the end of each day, on the shade of its interval.

    Before the first, the blips are drawn that it waits for.
    """
    days = progress.daily_steadiness
    if not days:
        _waiting(paper, area, progress.steadiness_blips)
        return
    axes, first = _axes(paper, area, days[0].day, max(day.high for day in days), progress)
    samples = [(charts_marks.shade, "steadiness, and its likely range")]
    _frame_of(paper, axes, area, first, "points", samples, progress)
    rows = [(float(day.day.toordinal()), day.low, day.value, day.high) for day in days]
    draw_course(paper, axes, rows, _scale_begins(days, progress.changes))


def draw_course(
    paper: Paper,
    axes: Axes,
    rows: Sequence[tuple[float, float, float, float]],
    begins: Sequence[int] = (),
) -> None:
    """Draw values in order as a line with dots, on the shade between their low and high ends.

    `rows` are position across, low end, value and high end; `begins` the indices at which the line
    begins anew.
    """
    radius = _radius([axes.across(row[0]) for row in rows])
    for begin, end in pairwise([0, *begins, len(rows)]):
        part = rows[begin:end]
        if not part:
            continue
        spread = [(axes.across(x), axes.down(high), axes.down(low)) for x, low, _, high in part]
        charts_marks.spread(paper, spread, radius)
        dots = [axes.place(x, value) for x, _, value, _ in part]
        paper.curve(dots, theme.BRAKE, LINE)
        for dot in dots:
            paper.disc(dot, radius, theme.BRAKE)


def _waiting(paper: Paper, area: Area, blips: int) -> None:
    """Draw a disc for each blip there is of those that steadiness needs, and rings for the rest."""
    rows = WINDOW // A_ROW
    for number in range(WINDOW):
        row, column = divmod(number, A_ROW)
        x = area.left + area.width / 2 + (column - (A_ROW - 1) / 2) * PITCH
        y = area.top + area.height / 2 + (row - (rows - 1) / 2) * PITCH
        if number < blips:
            paper.disc((x, y), PITCH / 4, theme.BRAKE)
        else:
            paper.disc((x, y), PITCH / 4, theme.FAINT, 4)


def _scale_begins(days: Sequence[DaySteadiness], changes: Sequence[Change]) -> list[int]:
    """Indices of the days between which and the day before the brake's scale changed."""
    changed = [change.at.date() for change in changes if change.what is Changed.SCALE]
    return [
        number
        for number, (before, day) in enumerate(pairwise(days), start=1)
        if any(before.day <= at <= day.day for at in changed)
    ]


def _change_words(changes: Sequence[Change], first: date, today: date) -> list[tuple[float, str]]:
    """Ordinal of the day and words for each change from `first` to `today`."""
    days = [(change.at.date(), change_on_day(change)) for change in changes]
    return [(day.toordinal(), words) for day, words in days if first <= day <= today]


def _axes(
    paper: Paper, area: Area, first: date, most: float, progress: Progress
) -> tuple[Axes, date]:
    """Axes from the player's first day to today, from 0 up to `most`, and that first day.

    `first` is the day of the first value, where no day practised is known. Above the frame is room
    for the names of changes.
    """
    begun = progress.days[0][0] if progress.days else first
    last = max(progress.today, begun + timedelta(days=FEWEST_DAYS - 1))
    ends = begun.toordinal() - 0.5, last.toordinal() + 0.5
    frame = framed(area)
    changes = _change_words(progress.changes, begun, progress.today)
    rows = charts_marks.change_rows(paper, Axes(frame, *ends, 0.0, 1.0), changes)
    return Axes(frame.within(0, rows * charts_marks.ROW, 0, 0), *ends, 0.0, top_of(most)), begun


def _frame_of(
    paper: Paper,
    axes: Axes,
    area: Area,
    first: date,
    unit: str,
    samples: Sequence[charts_marks.Sample],
    progress: Progress,
) -> None:
    """Draw the scales of a chart in its area, its legend, and the changes from day `first` on."""
    above = axes.frame.top - framed(area).top
    scale_up(paper, axes, unit, above)
    charts_marks.legend(paper, axes, above, samples)
    changes = _change_words(progress.changes, first, progress.today)
    rows = round(above / charts_marks.ROW)
    charts_marks.mark_changes(paper, axes, changes, rows)
    scale_across(paper, axes, axis_marks(first, progress.today))


def _radius(xs: Sequence[float]) -> float:
    """Radius of marks at these x that keeps neighbours apart; all in canvas units."""
    apart = (xs[-1] - xs[0]) / (len(xs) - 1) if len(xs) > 1 else LARGEST_MARK * 3
    return min(max(apart / 3, SMALLEST_MARK), LARGEST_MARK)
