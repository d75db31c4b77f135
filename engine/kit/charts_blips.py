"""Chart of many blips as deviations from the brake that was held, with the typical one in bold.

Two such charts stand side by side on the same scale, for two weeks or for the two positions of a
trial.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from drills.deviation import AROUND_BLIP, Deviation, Span
from drills.trace import Values
from engine.kit import charts_marks, theme
from engine.kit.area import Area
from engine.kit.canvas import Point
from engine.kit.charts import ABOVE, Axes, Paper, fitted, framed, scale_across, scale_up, top_of

APART = 60
"""Gap between two charts that stand side by side, in canvas units."""
NEARLY_ALL = 95.0
"""Percentage of blips that must fit on a chart's scale; a few wild ones must not shrink it."""
LEAST_REACH = 10.0
"""Smallest reach of the scale of a chart of blips, up and down from 0, in points."""
POINTS, BOLD_POINTS = 160, 400
"""Largest number of points that the thin curve of a blip and the bold median are drawn with."""
STEPS = (0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0)
"""Steps that the labelled times under a chart of blips may have, in s."""
MOST_LABELS = 8
"""Largest number of labelled times under a chart of blips."""
SPARE = 80
"""Length by which a heading may exceed the width of its chart, in canvas units."""
ARROW = 14
"""Height and half the width of the arrow where a blip leaves the scale, in canvas units."""


@dataclass(frozen=True)
class BlipsKind:
    """What the curves of a chart of blips are."""

    span: Span = AROUND_BLIP
    """Time that the chart covers, in s from the beginning of the blip."""
    zero: str = "held"
    """Label of the line of deviation 0, a word."""
    curve: str = "a blip"
    """Label of one thin curve."""
    band: float | None = None
    """Tolerance drawn as a band about 0, in points; None for none."""


HELD = BlipsKind()
"""Single blips of the drills, against what was held."""


def halves(area: Area) -> tuple[Area, Area]:
    """Areas of two charts side by side, left and right, within the area of both."""
    width = (area.width - APART) / 2
    left = Area(area.left, area.top, width, area.height)
    return left, left.within(width + APART, 0, -(width + APART), 0)


def blips_reach(pictures: Sequence[Deviation]) -> float:
    """Reach up and down of a chart's scale, in points, that contains NEARLY_ALL of the blips."""
    if not pictures:
        return LEAST_REACH
    most = [float(np.abs(blip.deviation).max()) for blip in pictures]
    return top_of(max(float(np.percentile(most, NEARLY_ALL)), LEAST_REACH))


def blips_chart(
    paper: Paper,
    area: Area,
    heading: str,
    pictures: Sequence[Deviation],
    median: Deviation,
    reach: float,
    before: tuple[str, Deviation] | None = None,
    kind: BlipsKind = HELD,
) -> None:
    """Draw a thin curve for each blip and a bold one for their median, the typical one.

    `reach` is that of the scale in points, `before` the label and curve of another median, drawn
    dashed. An arrow at the edge marks where blips go beyond the scale.
    """
    axes = Axes(framed(area).within(0, ABOVE, 0, 0), *kind.span, -reach, reach)
    frame = axes.frame
    scale_up(paper, axes, "points", zero=kind.zero)
    if kind.band is not None:
        top, bottom = axes.down(kind.band), axes.down(-kind.band)
        paper.box((frame.left, top), (frame.width, bottom - top), theme.BAND)
    line = fitted(paper, heading, frame.width + SPARE)
    paper.text(line, (frame.left, area.top), theme.SMALL, theme.TEXT)
    samples = [(charts_marks.thin, kind.curve), (charts_marks.thick, "typical")]
    if before is not None:
        samples.append((charts_marks.dashes, before[0]))
    charts_marks.legend(paper, axes, 0, samples)
    onset = axes.across(0.0)
    paper.line((onset, frame.top), (onset, frame.bottom), theme.BAND, 2)
    paper.shape(_lost(axes, median), theme.DIP)
    for blip in pictures:
        paper.curve(_points(axes, blip, POINTS), theme.EARLIER, 2)
    paper.curve(_points(axes, median, BOLD_POINTS), theme.BRAKE, 7)
    if before is not None:
        charts_marks.dashed(paper, _points(axes, before[1], BOLD_POINTS), theme.TEXT, 5)
    for way in (1, -1):
        for x in _beyond(axes, pictures, way):
            edge = axes.down(way * reach)
            base = edge + way * ARROW
            paper.shape([(x - ARROW, base), (x + ARROW, base), (x, edge)], theme.TEXT)
    times = _labelled(kind.span)
    scale_across(paper, axes, [(time, f"{time:g}" if time else "blip, 0 s") for time in times])


def beyond_words(pictures: Sequence[Deviation], reach: float) -> str:
    """Sentence on how far blips go beyond the scale of their chart; empty if none does."""
    most = {
        "down": max((-float(blip.deviation.min()) for blip in pictures), default=0.0),
        "up": max((float(blip.deviation.max()) for blip in pictures), default=0.0),
    }
    parts = [f"{points:.0f} points {way}" for way, points in most.items() if points > reach]
    return f"The largest leave the picture: {' and '.join(parts)}." if parts else ""


def _beyond(axes: Axes, pictures: Sequence[Deviation], way: int) -> list[float]:
    """Horizontal position of each blip's peak beyond the scale, upwards (1) or downwards (-1)."""
    peaks = [(blip, int(np.argmax(way * blip.deviation))) for blip in pictures]
    return [
        axes.across(float(blip.time[k])) for blip, k in peaks if way * blip.deviation[k] > axes.high
    ]


def _points(axes: Axes, blip: Deviation, most: int) -> list[Point]:
    chosen = [k for k in _thinned(blip.time, most) if axes.first <= blip.time[k] <= axes.last]
    return [axes.place(float(blip.time[k]), float(blip.deviation[k])) for k in chosen]


def _lost(axes: Axes, median: Deviation) -> list[Point]:
    """Outline of what the typical blip loses: between its curve and 0, where it is below."""
    held = axes.down(0.0)
    under = [(x, max(y, held)) for x, y in _points(axes, median, BOLD_POINTS)]
    return [(under[0][0], held), *under, (under[-1][0], held)]


def _thinned(time: Values, most: int) -> list[int]:
    """Indices of at most `most` samples of a curve, evenly spread, plus the last one, to draw."""
    return [*range(0, time.size - 1, -(-time.size // most)), time.size - 1]


def _labelled(span: Span) -> list[float]:
    """Times that are labelled under a chart of blips that covers a span, in s, 0 among them."""
    first, last = span
    step = next(step for step in STEPS if (last - first) / step < MOST_LABELS or step == STEPS[-1])
    counts = range(math.ceil(round(first / step, 6)), math.floor(round(last / step, 6)) + 1)
    return [round(count * step, 6) for count in counts]
