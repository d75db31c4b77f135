"""Marks of charts: dashed lines, intervals, dated changes, and samples of each for a legend."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence

from engine.kit import theme
from engine.kit.canvas import Colour, Point
from engine.kit.charts import ABOVE, GAP, LETTER, Axes, Paper

ROW = 52
"""Height of the row above a chart's frame where dated changes are named, in canvas units."""
DASH, BLANK = 18, 14
"""Length of a dash of a dashed line and of the gap after it, in canvas units."""
CAP = 10
"""Half the width of the caps at both ends of a drawn interval, in canvas units."""
SAMPLE = 44
"""Width of the sample of a mark in the legend of a chart, in canvas units."""
AFTER = 12
"""Gap between a sample in a legend and its label, in canvas units."""
DOT = 8
"""Radius of the sample of a dot in a legend, in canvas units."""


def dashed(paper: Paper, points: Sequence[Point], colour: Colour, width: float) -> None:
    """Draw a dashed line through points."""
    drawn, left, is_dash = [points[0]], float(DASH), True
    for end in points[1:]:
        start = drawn[-1]
        while (length := math.dist(start, end)) > left:
            share = left / length
            start = start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])
            if is_dash:
                paper.curve([*drawn, start], colour, width)
            is_dash, drawn = not is_dash, [start]
            left = DASH if is_dash else BLANK
        drawn.append(end)
        left -= length
    if is_dash:
        paper.curve(drawn, colour, width)


def interval(paper: Paper, x: float, ends: tuple[float, float]) -> None:
    """Draw an interval in a chart: a vertical line at `x` with a cap at both ends."""
    paper.line((x, min(ends)), (x, max(ends)), theme.TEXT, 4)
    for y in ends:
        paper.line((x - CAP, y), (x + CAP, y), theme.TEXT, 4)


def mark_changes(paper: Paper, axes: Axes, changes: Iterable[tuple[float, str]]) -> None:
    """Draw a dashed line in a chart at each change, a pair of its value across and its text above.

    If there is no room for all texts, the newest ones are written.
    """
    frame = axes.frame
    free = frame.right
    for value, words in sorted(changes, reverse=True):
        x = axes.across(value)
        dashed(paper, [(x, frame.top), (x, frame.bottom)], theme.TEXT, 3)
        width = paper.measure(words, theme.SMALL)
        left = min(max(x - width / 2, frame.left), free - width)
        if left >= frame.left:
            paper.text(words, (left, frame.top - ROW + 4), theme.SMALL, theme.TEXT)
            free = left - GAP


Sample = tuple[Callable[[Paper, Point], None], str]
"""Entry of a chart's legend: a function that draws the sample of a mark about a point, and its
label."""


def legend(paper: Paper, axes: Axes, above: float, samples: Sequence[Sample]) -> None:
    """Draw the legend of a chart above its frame, ending at the frame's right edge."""
    top = axes.frame.top - ABOVE - above
    wide = [SAMPLE + AFTER + paper.measure(words, theme.SMALL) for _, words in samples]
    x = axes.frame.right - sum(wide) - GAP * (len(wide) - 1)
    for (draw, words), width in zip(samples, wide, strict=True):
        draw(paper, (x + SAMPLE / 2, top + LETTER))
        paper.text(words, (x + SAMPLE + AFTER, top), theme.SMALL, theme.QUIET)
        x += width + GAP


def dot(paper: Paper, centre: Point) -> None:
    """Draw a dot in a legend, as the sample of a value."""
    paper.disc(centre, DOT, theme.BRAKE)


def bar(paper: Paper, centre: Point) -> None:
    """Draw a short bar in a legend, as the sample of the middle half of values."""
    middle_half(paper, centre[0], (centre[1] - LETTER, centre[1] + LETTER), DOT)


def column(paper: Paper, centre: Point) -> None:
    """Draw a short column in a legend, as the sample of a count."""
    paper.box((centre[0] - DOT, centre[1] - LETTER), (2 * DOT, 2 * LETTER), theme.FAINT)


def ends(paper: Paper, centre: Point) -> None:
    """Draw a short interval with caps in a legend, as the sample of an interval."""
    interval(paper, centre[0], (centre[1] - LETTER, centre[1] + LETTER))


def thick(paper: Paper, centre: Point) -> None:
    """Draw a short bold line in a legend, as the sample of a bold curve."""
    x, y = centre
    paper.curve([(x - SAMPLE / 2, y), (x + SAMPLE / 2, y)], theme.BRAKE, 7)


def thin(paper: Paper, centre: Point) -> None:
    """Draw a short thin line in a legend, as the sample of a thin curve."""
    x, y = centre
    paper.curve([(x - SAMPLE / 2, y), (x + SAMPLE / 2, y)], theme.EARLIER, 2)


def dashes(paper: Paper, centre: Point) -> None:
    """Draw a short dashed line in a legend, as the sample of a dashed curve."""
    x, y = centre
    dashed(paper, [(x - SAMPLE / 2, y), (x + SAMPLE / 2, y)], theme.TEXT, 5)


def middle_half(paper: Paper, x: float, ends: tuple[float, float], radius: float) -> None:
    """Draw a bar over the middle half of values, from quartile to quartile, behind a mark."""
    top, height = min(ends), max(abs(ends[1] - ends[0]), 2)
    paper.box((x - radius / 2, top), (radius, height), theme.EARLIER, radius / 2)
