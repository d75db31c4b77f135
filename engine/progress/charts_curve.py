"""The learning curve of one kind: its repetitions a handful at a time, and the fitted curve."""

from __future__ import annotations

import math

import numpy as np

from engine.kit import charts_marks, theme
from engine.kit.charts import Area, Axes, Paper, framed, scale_across, scale_up, step_of, top_of
from engine.progress.learning_curve import Curve
from engine.progress.progress import KindProgress

POINTS = 120
"""count of points that the curve is drawn with."""
RADIUS = 9
"""units, of the mark of a handful."""


def learning(paper: Paper, area: Area, learned: KindProgress) -> None:
    """Marks with their middle halves, the curve from where it begins, and what was changed."""
    marks = learned.handfuls
    changes = [(float(after), one.what.value) for after, one in learned.changes]
    above = charts_marks.ROW if changes else 0
    count = marks[-1].last
    most = max(one.high for one in marks)
    frame = framed(area).within(0, above, 0, 0)
    axes = Axes(frame, 0.0, float(count), 0.0, top_of(most))
    measure = learned.measure
    scale_up(paper, axes, f"{learned.name}: {measure.label.lower()}, {measure.unit}", above)
    most_in = max(one.count for one in marks)
    samples = [
        (charts_marks.dot, f"median of up to {most_in}"),
        (charts_marks.bar, "middle half"),
    ]
    curve = learned.growth.curve
    if curve is not None:
        samples.append((charts_marks.dashes, "the curve"))
    charts_marks.legend(paper, axes, above, samples)
    charts_marks.mark_changes(paper, axes, changes)
    radius = min(frame.width / len(marks) / 3, RADIUS)
    for one in marks:
        x = axes.across((one.first + one.last) / 2)
        charts_marks.middle_half(paper, x, (axes.down(one.high), axes.down(one.low)), radius)
        paper.disc((x, axes.down(one.middle)), radius, theme.BRAKE)
    if curve is not None:
        _fitted(paper, axes, curve, learned.begins)
    scale_across(paper, axes, _marks(count))


def _fitted(paper: Paper, axes: Axes, curve: Curve, begins: int) -> None:
    """The curve in long dashes from where it begins to the newest repetition."""
    after = np.linspace(0, axes.last - begins, POINTS)
    values = curve.floor + curve.gain * np.exp(-curve.rate * after)
    points = [
        axes.place(begins + place, value)
        for place, value in zip(after.tolist(), values.tolist(), strict=True)
    ]
    charts_marks.dashed(paper, points, theme.TEXT, 5)


def _marks(count: int) -> list[tuple[float, str]]:
    """Round counts of repetitions, the last with the word for them."""
    step = max(math.ceil(step_of(count)), 1)
    counts = range(0, count + 1, step)
    return [(one, f"{one}" if one else "0 repetitions") for one in counts]
