"""What charts mark in their frames: dashed lines, changes, and samples of what is drawn."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence

from engine.kit import theme
from engine.kit.canvas import Colour, Point
from engine.kit.charts import ABOVE, GAP, LETTER, Axes, Paper

ROW = 52
"""units, height of the row over a frame that says what was changed."""
DASH, BLANK = 18, 14
"""units, a dash and the gap to the next."""
CAP = 10
"""units, half of the ends of an interval."""
SAMPLE = 44
"""units across, a sample of what is drawn."""
AFTER = 12
"""units, from a sample to its words."""
DOT = 8
"""units, radius of the mark in a sample."""


def dashed(paper: Paper, points: Sequence[Point], colour: Colour, width: float) -> None:
    """A line through points in dashes."""
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
    """A line with ends, down a picture."""
    paper.line((x, min(ends)), (x, max(ends)), theme.TEXT, 4)
    for y in ends:
        paper.line((x - CAP, y), (x + CAP, y), theme.TEXT, 4)


def mark_changes(paper: Paper, axes: Axes, told: Iterable[tuple[float, str]]) -> None:
    """Dashed lines where something was changed, the words of each over the frame in their order.

    Where there is no room for all of them the newest have theirs.
    """
    frame = axes.frame
    free = frame.right
    for value, words in sorted(told, reverse=True):
        x = axes.across(value)
        dashed(paper, [(x, frame.top), (x, frame.bottom)], theme.TEXT, 3)
        width = paper.measure(words, theme.SMALL)
        left = min(max(x - width / 2, frame.left), free - width)
        if left >= frame.left:
            paper.text(words, (left, frame.top - ROW + 4), theme.SMALL, theme.TEXT)
            free = left - GAP


Sample = tuple[Callable[[Paper, Point], None], str]
"""Draws what is explained about a point, and the words for it."""


def legend(paper: Paper, axes: Axes, above: float, samples: Sequence[Sample]) -> None:
    """Samples with their words over a frame, the last ending at its right edge."""
    top = axes.frame.top - ABOVE - above
    wide = [SAMPLE + AFTER + paper.measure(words, theme.SMALL) for _, words in samples]
    x = axes.frame.right - sum(wide) - GAP * (len(wide) - 1)
    for (draw, words), width in zip(samples, wide, strict=True):
        draw(paper, (x + SAMPLE / 2, top + LETTER))
        paper.text(words, (x + SAMPLE + AFTER, top), theme.SMALL, theme.QUIET)
        x += width + GAP


def dot(paper: Paper, centre: Point) -> None:
    """A sample of a mark."""
    paper.disc(centre, DOT, theme.BRAKE)


def bar(paper: Paper, centre: Point) -> None:
    """A sample of a middle half."""
    middle_half(paper, centre[0], (centre[1] - LETTER, centre[1] + LETTER), DOT)


def column(paper: Paper, centre: Point) -> None:
    """A sample of a count."""
    paper.box((centre[0] - DOT, centre[1] - LETTER), (2 * DOT, 2 * LETTER), theme.FAINT)


def ends(paper: Paper, centre: Point) -> None:
    """A sample of an interval."""
    interval(paper, centre[0], (centre[1] - LETTER, centre[1] + LETTER))


def thick(paper: Paper, centre: Point) -> None:
    """A sample of a bold line."""
    x, y = centre
    paper.curve([(x - SAMPLE / 2, y), (x + SAMPLE / 2, y)], theme.BRAKE, 7)


def thin(paper: Paper, centre: Point) -> None:
    """A sample of a thin line."""
    x, y = centre
    paper.curve([(x - SAMPLE / 2, y), (x + SAMPLE / 2, y)], theme.EARLIER, 2)


def dashes(paper: Paper, centre: Point) -> None:
    """A sample of a dashed line."""
    x, y = centre
    dashed(paper, [(x - SAMPLE / 2, y), (x + SAMPLE / 2, y)], theme.TEXT, 5)


def middle_half(paper: Paper, x: float, ends: tuple[float, float], radius: float) -> None:
    """The bar of a middle half behind a mark of some radius."""
    top, height = min(ends), max(abs(ends[1] - ends[0]), 2)
    paper.box((x - radius / 2, top), (radius, height), theme.EARLIER, radius / 2)
