"""Marks of charts: dashed lines, spreads, dated changes, and samples of each for a legend."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence

from engine.kit import theme
from engine.kit.canvas import Colour, Point
from engine.kit.charts import ABOVE, GAP, LETTER, Axes, Paper

ROW = 50
"""Height of a row above a chart's frame where dated changes are named, in canvas units."""
MOST_ROWS = 3
"""Most rows of changes above a chart, as a count."""
MOST_ABOVE = 0.4
"""Largest share of a chart's height that the names of changes take."""
DASH, BLANK = 18, 14
"""Length of a dash of a dashed line and of the gap after it, in canvas units."""
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


def change_rows(paper: Paper, axes: Axes, changes: Iterable[tuple[float, str]]) -> int:
    """Rows of names that changes need above a chart whose frame has its full height, as a count.

    `changes` are pairs of their value across and their text.
    """
    most = min(MOST_ROWS, int(axes.frame.height * MOST_ABOVE // ROW))
    return 1 + max((row for _, row, _ in _placed(paper, axes, changes, most)), default=-1)


def mark_changes(paper: Paper, axes: Axes, changes: Iterable[tuple[float, str]], rows: int) -> None:
    """Draw a dashed line in a chart at each change, a pair of its value across and its text above.

    Names that would touch stand in rows; where none of them has room the oldest are left out.
    """
    frame, marked = axes.frame, list(changes)
    for value, _ in marked:
        x = axes.across(value)
        dashed(paper, [(x, frame.top), (x, frame.bottom)], theme.QUIET, 3)
    for left, row, words in _placed(paper, axes, marked, rows):
        paper.text(words, (left, frame.top - (row + 1) * ROW), theme.SMALL, theme.TEXT)


def _placed(
    paper: Paper, axes: Axes, changes: Iterable[tuple[float, str]], rows: int
) -> list[tuple[float, int, str]]:
    """Each change that is named: the left edge of its name, its row and its name."""
    frame, placed = axes.frame, list[tuple[float, int, str]]()
    free = [frame.right] * rows
    for value, words in sorted(changes, reverse=True):
        x, width = axes.across(value), paper.measure(words, theme.SMALL)
        for row in range(rows):
            left = min(max(x - width / 2, frame.left), free[row] - width)
            if left >= frame.left and left + width >= x:
                placed.append((left, row, words))
                free[row] = left - GAP
                break
    return placed


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


def shade(paper: Paper, centre: Point) -> None:
    """Draw a shaded strip with a line in a legend, as the sample of a course and its spread."""
    x, y = centre
    corner = (x - SAMPLE / 2, y - LETTER)
    paper.box(corner, (SAMPLE, 2 * LETTER), theme.DIP)
    paper.curve([(x - SAMPLE / 2, y), (x + SAMPLE / 2, y)], theme.BRAKE, 6)


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


def spread(paper: Paper, ends: Sequence[tuple[float, float, float]], least: float) -> None:
    """Shade the spread about a course, from triples of x, upper y and lower y.

    A single triple is shaded `least` canvas units to both sides.
    """
    if len(ends) == 1:
        [(x, top, bottom)] = ends
        ends = [(x - least, top, bottom), (x + least, top, bottom)]
    upper = [(x, top) for x, top, _ in ends]
    lower = [(x, bottom) for x, _, bottom in reversed(ends)]
    paper.shape([*upper, *lower], theme.DIP)


def middle_half(paper: Paper, x: float, ends: tuple[float, float], radius: float) -> None:
    """Draw a bar over the middle half of values, from quartile to quartile, behind a mark."""
    top, height = min(ends), max(abs(ends[1] - ends[0]), 2)
    paper.box((x - radius, top), (2 * radius, height), theme.DIP, min(radius, 6))
