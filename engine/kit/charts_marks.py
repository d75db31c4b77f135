"""Marks of charts: dashed lines, intervals, dated changes, and samples of each for a legend."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence

from engine.kit import theme
from engine.kit.canvas import Colour, Point
from engine.kit.charts import ABOVE, GAP, LETTER, Axes, Paper

ROW = 52
"""Height of the line over a frame that names the changes, in canvas units."""
DASH, BLANK = 18, 14
"""Length of a dash and of the gap after it, in canvas units."""
CAP = 10
"""Half the width of the caps of an interval, in canvas units."""
SAMPLE = 44
"""Width of a sample in a legend, in canvas units."""
AFTER = 12
"""Gap between a sample and its label, in canvas units."""
DOT = 8
"""Radius of the dot in a sample, in canvas units."""


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
    """Draw an interval: a vertical line with a cap at both ends."""
    paper.line((x, min(ends)), (x, max(ends)), theme.TEXT, 4)
    for y in ends:
        paper.line((x - CAP, y), (x + CAP, y), theme.TEXT, 4)


def mark_changes(paper: Paper, axes: Axes, changes: Iterable[tuple[float, str]]) -> None:
    """Draw a dashed line at each change, a pair of its value and its text, with the text above.

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
"""Entry of a legend: a function that draws a sample about a point, and its label."""


def legend(paper: Paper, axes: Axes, above: float, samples: Sequence[Sample]) -> None:
    """Draw a legend over a frame, with its right end at the frame's right edge."""
    top = axes.frame.top - ABOVE - above
    wide = [SAMPLE + AFTER + paper.measure(words, theme.SMALL) for _, words in samples]
    x = axes.frame.right - sum(wide) - GAP * (len(wide) - 1)
    for (draw, words), width in zip(samples, wide, strict=True):
        draw(paper, (x + SAMPLE / 2, top + LETTER))
        paper.text(words, (x + SAMPLE + AFTER, top), theme.SMALL, theme.QUIET)
        x += width + GAP


def dot(paper: Paper, centre: Point) -> None:
    """Draw a dot as a sample."""
    paper.disc(centre, DOT, theme.BRAKE)


def bar(paper: Paper, centre: Point) -> None:
    """Draw the bar of a middle half as a sample."""
    middle_half(paper, centre[0], (centre[1] - LETTER, centre[1] + LETTER), DOT)


def column(paper: Paper, centre: Point) -> None:
    """Draw the column of a count as a sample."""
    paper.box((centre[0] - DOT, centre[1] - LETTER), (2 * DOT, 2 * LETTER), theme.FAINT)


def ends(paper: Paper, centre: Point) -> None:
    """Draw an interval as a sample."""
    interval(paper, centre[0], (centre[1] - LETTER, centre[1] + LETTER))


def thick(paper: Paper, centre: Point) -> None:
    """Draw a bold line as a sample."""
    x, y = centre
    paper.curve([(x - SAMPLE / 2, y), (x + SAMPLE / 2, y)], theme.BRAKE, 7)


def thin(paper: Paper, centre: Point) -> None:
    """Draw a thin line as a sample."""
    x, y = centre
    paper.curve([(x - SAMPLE / 2, y), (x + SAMPLE / 2, y)], theme.EARLIER, 2)


def dashes(paper: Paper, centre: Point) -> None:
    """Draw a dashed line as a sample."""
    x, y = centre
    dashed(paper, [(x - SAMPLE / 2, y), (x + SAMPLE / 2, y)], theme.TEXT, 5)


def middle_half(paper: Paper, x: float, ends: tuple[float, float], radius: float) -> None:
    """Draw the bar of a middle half, from quartile to quartile, behind a mark of some radius."""
    top, height = min(ends), max(abs(ends[1] - ends[0]), 2)
    paper.box((x - radius / 2, top), (radius, height), theme.EARLIER, radius / 2)
