"""Chart of the learning curve of one kind of drill: its days, in bins, over its repetitions."""

from __future__ import annotations

import math

import numpy as np

from engine.kit import charts_marks, theme
from engine.kit.area import Area
from engine.kit.charts import Axes, Paper, framed, scale_across, scale_up, step_of, top_of
from engine.progress.ahead import Curve
from engine.progress.changes_words import name_on_chart
from engine.progress.progress import Progress

POINTS = 120
"""Number of points that the fitted learning curve is drawn with."""
LABELS = 5
"""Most steps of the scale of repetitions under the chart, as a count."""
RADIUS = 9
"""Largest radius of the mark of a bin, in canvas units."""


def learning_chart(paper: Paper, area: Area, progress: Progress) -> None:
    """Draw the chosen kind of drill: its days in bins at today's level, its curve, the changes.

    It has at least one bin.
    """
    kind = progress.kinds[progress.chosen]
    bins, measure, curve = kind.bins, kind.measure, kind.learning.curve
    changes = [(float(after), name_on_chart(change)) for after, change in kind.changes]
    # The newest repetitions may have no bin yet, and a change may have come after the newest bin.
    count = max([bins[-1].last, *(after for after, _ in kind.changes)])
    frame = framed(area)
    rows = charts_marks.change_rows(paper, Axes(frame, 0.0, float(count), 0.0, 1.0), changes)
    above = rows * charts_marks.ROW
    frame = frame.within(0, above, 0, 0)
    axes = Axes(frame, 0.0, float(count), 0.0, top_of(max(bin_.high for bin_ in bins)))
    scale_up(paper, axes, f"{measure.label}, {measure.unit}", above)
    largest = max(bin_.days for bin_ in bins)
    samples = [(charts_marks.dot, "a day" if largest == 1 else f"typical of {largest} days")]
    if largest > 1:
        samples.append((charts_marks.bar, "middle half of the days"))
    if curve is not None:
        samples.append((charts_marks.dashes, "the curve"))
    charts_marks.legend(paper, axes, above, samples)
    charts_marks.mark_changes(paper, axes, changes, rows)
    radius = min(frame.width / len(bins) / 3, RADIUS)
    for bin_ in bins:
        x = axes.across(bin_.n)
        if bin_.days > 1:
            charts_marks.middle_half(paper, x, (axes.down(bin_.high), axes.down(bin_.low)), radius)
        paper.disc((x, axes.down(bin_.middle)), radius, theme.BRAKE)
    if curve is not None:
        _draw_curve(paper, axes, curve, kind.curve_begins)
    scale_across(paper, axes, _marks(count))


def _draw_curve(paper: Paper, axes: Axes, curve: Curve, begins: int) -> None:
    """Draw the fitted curve as long dashes, from repetition `begins` to the newest one."""
    after = np.linspace(0, axes.last - begins, POINTS)
    values = curve.floor + curve.gain * np.exp(-curve.rate * after)
    points = [
        axes.place(begins + n, value)
        for n, value in zip(after.tolist(), values.tolist(), strict=True)
    ]
    charts_marks.dashed(paper, points, theme.TEXT, 5)


def _marks(count: int) -> list[tuple[float, str]]:
    """Numbers of repetitions to write on the axis up to a count, each with its words."""
    step = max(math.ceil(step_of(count, LABELS)), 1)
    numbers = range(0, count + 1, step)
    return [(number, f"{number}" if number else "0 repetitions") for number in numbers]
