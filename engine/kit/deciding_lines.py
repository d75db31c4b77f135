"""Lines of a deviation plot that say what decided: an average, a drift, and a time."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from drills.deviation import Average, Deviation, MarkedTime
from engine.kit import theme
from engine.kit.area import Area
from engine.kit.canvas import Colour, Point
from engine.kit.charts import Paper
from engine.kit.deviation_frame import Frame
from engine.kit.label_places import LabelPlaces
from engine.kit.typeface import Weight
from engine.kit.widgets import CAPITALS

DOT = (7, 4, 17)
"""Width and height of a dot of a limit, and the distance from one to the next, in canvas units."""
NUMBER = 84
"""Height of the number of what decided, in canvas units."""
CLEAR = 12
"""Gap between a mark or a line and what is written beside it, in canvas units."""
SOLID = 5
"""Thickness of the line of an average or a time, in canvas units."""
TICK = 12
"""Half the height of the ends of the line of a time, in canvas units."""
ABOVE_PULSE = 10
"""Distance of the line of a time from the top of the strip of the throttle, in canvas units."""


def dotted(canvas: Paper, start: Point, end: Point, colour: Colour) -> None:
    """Draw a dotted line from left to right, level or sloping."""
    width, height, step = DOT
    long = max(end[0] - start[0], 1.0)
    for dot in range(max(int((long - width) // step) + 1, 1)):
        down = start[1] + (end[1] - start[1]) * dot * step / long
        canvas.box((start[0] + dot * step, down - height / 2), (width, height), colour)


def dotted_along(canvas: Paper, points: Sequence[Point], colour: Colour) -> None:
    """Draw a dotted line along points from left to right, its dots evenly spread."""
    if len(points) == 2:
        dotted(canvas, points[0], points[1], colour)
        return
    width, height, step = DOT
    corners = np.array(points)
    passed = np.r_[0.0, np.cumsum(np.hypot(*np.diff(corners, axis=0).T), dtype=np.float64)]
    for at in np.arange(0.0, passed[-1], step, dtype=np.float64):
        x, y = (float(np.interp(at, passed, corners[:, axis])) for axis in (0, 1))
        canvas.box((x - width / 2, y - height / 2), (width, height), colour)


def draw_average(canvas: Paper, frame: Frame, now: Deviation, average: Average) -> None:
    """Draw an average or a drift as a solid line, and what it may be at most as a dotted one.

    The number and the limit are written right of the plot, where `room_for` left room for them.
    """
    axes = frame.axes
    first, last = average.during[0][0], average.during[-1][1]
    whole = (first, last)
    for span in average.during:
        ends = (_at(average.line, at, whole) for at in span)
        for pair in pairwise(frame.beside(now, span, *ends)):
            canvas.line(*pair, theme.TEXT, SOLID)
    for span in (whole,) if now.meant is None else average.during:
        ends = (_at(average.allowed, at, whole) for at in span)
        dotted_along(canvas, frame.beside(now, span, *ends), theme.TEXT)
    line, most = (axes.down(now.level(last) + one[1]) for one in (average.line, average.allowed))
    is_under = average.allowed[1] < average.allowed[0] or average.allowed[1] < 0
    number, limit = _apart(axes.frame, line, most, is_under)
    left = axes.frame.right + CLEAR
    at = left, number - NUMBER * CAPITALS
    canvas.text(average.label, at, NUMBER, weight=Weight.BOLD)
    at = left, limit - theme.SMALL * CAPITALS
    canvas.text(average.limit, at, theme.SMALL, theme.QUIET)


def room_for(canvas: Paper, average: Average | None) -> float:
    """Width right of the plot that the number and the limit of an average take."""
    if average is None:
        return 0.0
    number = canvas.measure(average.label, NUMBER, Weight.BOLD)
    return max(number, canvas.measure(average.limit, theme.SMALL)) + CLEAR


def _apart(area: Area, line: float, most: float, is_under: bool) -> tuple[float, float]:
    """Heights of the number at a line and of the limit at another, far enough apart.

    `is_under` is whether both are under the line of no deviation.
    """
    outwards = 1.0 if is_under else -1.0
    high, low = NUMBER * CAPITALS, theme.SMALL * CAPITALS
    line = min(max(line, area.top + high), area.bottom - high)
    needed = high + low + CLEAR
    if abs(most - line) >= needed:
        return line, most
    if outwards * (line - most) > 0:
        return line, line - outwards * needed
    most = line + outwards * needed
    over = max(area.top + low - most, most - area.bottom + low, 0.0)
    return line - outwards * over, most - outwards * over


def draw_timing(canvas: Paper, frame: Frame, timing: MarkedTime, labels: LabelPlaces) -> None:
    """Draw a time as a line with two ends, over the throttle or else the axis of time."""
    axes, area = frame.axes, frame.axes.frame
    y = area.bottom + ABOVE_PULSE if frame.shows_throttle else area.bottom - TICK
    left, right = (axes.across(min(max(at, axes.first), axes.last)) for at in _ends(timing))
    canvas.line((left, y), (right, y), theme.TEXT, SOLID)
    for x in (left, right):
        canvas.line((x, y - TICK), (x, y + TICK), theme.TEXT, SOLID)
    if not frame.shows_throttle:
        labels.keep_off(Area(left, y - TICK, right - left, 2 * TICK))
    wide, high = labels.half(timing.label, NUMBER, Weight.BOLD)
    up, middle = min(y - TICK, area.bottom) - CLEAR - high, (left + right) / 2
    places = [(middle, up), (right + wide, up), (left - wide, up)]
    labels.write(timing.label, NUMBER, theme.TEXT, places, Weight.BOLD)


def _ends(timing: MarkedTime) -> tuple[float, float]:
    return timing.begins, timing.ends


def _at(ends: tuple[float, float], at: float, span: tuple[float, float]) -> float:
    """Deviation of a straight line at a time, by its two ends and the time that it spans."""
    share = (at - span[0]) / max(span[1] - span[0], 1e-9)
    return ends[0] + share * (ends[1] - ends[0])
