"""Picture of a trial's difference: intervals with dots about 0, A to the left, B to the right."""

from __future__ import annotations

import math
from collections.abc import Sequence

from engine.kit import theme
from engine.kit.area import Area
from engine.kit.canvas import Align, Canvas
from engine.kit.charts import Axes, step_of
from engine.trial.difference_rows import PARTS, DifferenceRow, reach_of
from engine.trial.outcome import NOTICEABLE

ABOVE = 66
"""Space above the frame for the words at its sides, in canvas units."""
BELOW = 60
"""Space below the frame for the numbers of its scale, in canvas units."""
TALLEST = 440
"""Largest height of the picture, in canvas units."""
DOT, CAP = 20.0, 24.0
"""Radius of the dot of the first interval, and half the height of its ends, in canvas units."""
LINE = 10.0
"""Width of the line of the first interval, in canvas units."""
ASIDE = 20
"""Smallest gap from the name of an interval to the sides and to the line at 0, in canvas units."""
LATER = 0.6
"""Sizes of the later intervals, as a share of those of the first."""
TOO_SMALL = "too small to notice"
"""Label of the band of differences that a player would not notice."""
STEADIER = "{} steadier"
"""Label of the side of the picture where an arm is steadier."""


def draw_difference(canvas: Canvas, area: Area, rows: Sequence[DifferenceRow]) -> None:
    """Draw how much steadier one arm is, in points: each row an interval with a dot.

    There is at least one row.
    """
    height = min(area.height, TALLEST)
    frame = Area(area.left, area.top, area.width, height).within(0, ABOVE, 0, BELOW)
    reach = reach_of(rows)
    axes = Axes(frame, -reach, reach, 0.0, 1.0)
    canvas.box((frame.left, frame.top), (frame.width, frame.height), theme.RAISED, theme.ROUND)
    low, high = axes.across(-NOTICEABLE), axes.across(NOTICEABLE)
    canvas.box((low, frame.top), (high - low, frame.height), theme.BAND)
    top, zero = area.top + 6, axes.across(0.0)
    canvas.text(STEADIER.format("A"), (frame.left, top), theme.SMALL)
    canvas.text(TOO_SMALL, (zero, top), theme.SMALL, theme.QUIET, "centre")
    canvas.text(STEADIER.format("B"), (frame.right, top), theme.SMALL, theme.TEXT, "right")
    canvas.line((zero, frame.top), (zero, frame.bottom), theme.TEXT, 4)
    _scale(canvas, axes)
    for number, row in enumerate(rows):
        y = frame.top + frame.height * (number + 0.62) / len(rows)
        _interval(canvas, axes, y, row, first=number == 0)


def _scale(canvas: Canvas, axes: Axes) -> None:
    """Write the numbers under the picture: points to either side, without a sign."""
    frame, step = axes.frame, step_of(axes.last, PARTS)
    count = math.floor(axes.last / step + 1e-9)
    for number in range(-count, count + 1):
        x, value = axes.across(number * step), f"{abs(number * step):g}"
        words = f"{value} points" if number == count else value
        align: Align = "right" if number == count else "left" if number == -count else "centre"
        canvas.text(words, (x, frame.bottom + 14), theme.SMALL, theme.QUIET, align)


def _interval(canvas: Canvas, axes: Axes, y: float, row: DifferenceRow, *, first: bool) -> None:
    """Draw one interval with its dot, its name above its left end or as near as there is room."""
    size = 1.0 if first else LATER
    colour = theme.BRAKE if first else theme.QUIET
    low, middle, high = (axes.across(end) for end in (row.low, row.value, row.high))
    canvas.line((low, y), (high, y), colour, LINE * size)
    for end in (low, high):
        canvas.line((end, y - CAP * size), (end, y + CAP * size), colour, LINE * size)
    canvas.disc((middle, y), DOT * size + 6, theme.RAISED)
    canvas.disc((middle, y), DOT * size, colour)
    left = _label_left(axes, low, canvas.measure(row.label, theme.SMALL))
    above = y - DOT - theme.SMALL - 10
    canvas.text(row.label, (left, above), theme.SMALL, theme.QUIET)


def _label_left(axes: Axes, low: float, wide: float) -> float:
    """Left edge of the name of an interval, as near its left end as the line at 0 allows."""
    frame, zero = axes.frame, axes.across(0.0)
    left = min(max(low, frame.left + ASIDE), frame.right - wide - ASIDE)
    if left + wide + ASIDE <= zero or zero + ASIDE <= left:
        return left
    right_of = zero + ASIDE
    return right_of if right_of + wide + ASIDE <= frame.right else zero - ASIDE - wide
