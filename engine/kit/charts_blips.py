"""Blips laid on each other against what was held, their median bold: two such charts stand side
by side on one scale, of two weeks or of the two arms of a trial.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from drills.deviation import AROUND_BLIP, Deviation
from drills.trace import Values
from engine.kit import charts_marks, theme
from engine.kit.canvas import Point
from engine.kit.charts import (
    ABOVE,
    Area,
    Axes,
    Paper,
    fitted,
    framed,
    scale_across,
    scale_up,
    top_of,
)

APART = 60
"""units, from one chart to the other."""
NEARLY_ALL = 95.0
"""%, of the blips that stay inside the scale: the wildest do not make all others small."""
LEAST_REACH = 10.0
"""points, the least that the scale reaches up and down."""
POINTS, BOLD_POINTS = 160, 400
"""count of points that a thin curve and a bold one are drawn with at most."""
SECONDS = (-0.5, 0.0, 0.5, 1.0, 1.5)
"""s, the marks across, 0 where the blip began."""
SPARE = 80
"""units, by which a heading may be longer than its frame is wide."""
ARROW = 14
"""units, half as wide as an arrow at an edge is, and how tall it is."""


def halves(area: Area) -> tuple[Area, Area]:
    """Where the two charts stand."""
    width = (area.width - APART) / 2
    left = Area(area.left, area.top, width, area.height)
    return left, left.within(width + APART, 0, -(width + APART), 0)


def blips_reach(pictures: Sequence[Deviation]) -> float:
    """points, the scale that nearly all of some blips stay inside."""
    if not pictures:
        return LEAST_REACH
    most = [float(np.abs(one.deviation).max()) for one in pictures]
    return top_of(max(float(np.percentile(most, NEARLY_ALL)), LEAST_REACH))


def blips_chart(
    paper: Paper,
    area: Area,
    said: str,
    pictures: Sequence[Deviation],
    median: Deviation,
    reach: float,
    before: tuple[str, Deviation] | None = None,
) -> None:
    """Thin curves and their median, headed by `said`; `before` is another median and its name.

    Where blips go beyond the scale an arrow stands at its edge.
    """
    axes = Axes(framed(area).within(0, ABOVE, 0, 0), *AROUND_BLIP, -reach, reach)
    frame = axes.frame
    scale_up(paper, axes, "points", zero="held")
    heading = fitted(paper, said, frame.width + SPARE)
    paper.text(heading, (frame.left, area.top), theme.SMALL, theme.QUIET)
    samples = [(charts_marks.thin, "a blip"), (charts_marks.thick, "median")]
    if before is not None:
        samples.append((charts_marks.dashes, before[0]))
    charts_marks.legend(paper, axes, 0, samples)
    paper.line(axes.place(axes.first, 0), axes.place(axes.last, 0), theme.QUIET, 2)
    onset = axes.across(0.0)
    paper.line((onset, frame.top), (onset, frame.bottom), theme.FAINT, 2)
    for one in pictures:
        paper.curve(_points(axes, one, POINTS), theme.EARLIER, 2)
    paper.curve(_points(axes, median, BOLD_POINTS), theme.BRAKE, 7)
    if before is not None:
        charts_marks.dashed(paper, _points(axes, before[1], BOLD_POINTS), theme.TEXT, 5)
    for way in (1, -1):
        for x in _beyond(axes, pictures, way):
            edge = axes.down(way * reach)
            base = edge + way * ARROW
            paper.shape([(x - ARROW, base), (x + ARROW, base), (x, edge)], theme.TEXT)
    scale_across(paper, axes, [(one, "blip, 0 s" if one == 0 else f"{one:g}") for one in SECONDS])


def beyond_words(pictures: Sequence[Deviation], reach: float) -> str:
    """How far blips go beyond the scale, which the arrows mark; empty where none does."""
    most = {
        "down": max((-float(one.deviation.min()) for one in pictures), default=0.0),
        "up": max((float(one.deviation.max()) for one in pictures), default=0.0),
    }
    parts = [f"{points:.0f} points {way}" for way, points in most.items() if points > reach]
    return f"The wildest go beyond the scale: to {' and '.join(parts)}." if parts else ""


def _beyond(axes: Axes, pictures: Sequence[Deviation], way: int) -> list[float]:
    """units from the left, where blips are farthest beyond the scale, up (1) or down (-1)."""
    tops = [(one, int(np.argmax(way * one.deviation))) for one in pictures]
    return [
        axes.across(float(one.time[k])) for one, k in tops if way * one.deviation[k] > axes.high
    ]


def _points(axes: Axes, one: Deviation, most: int) -> list[Point]:
    chosen = _thinned(one.time, most)
    return [axes.place(float(one.time[k]), float(one.deviation[k])) for k in chosen]


def _thinned(time: Values, most: int) -> list[int]:
    """Places of enough points to draw, the last among them."""
    return [*range(0, time.size - 1, -(-time.size // most)), time.size - 1]
