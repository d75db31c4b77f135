"""Deviation plot: the brake against what was held, as the one thing to see or with every limit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from drills.deviation import Bound, Deviation, Span, about_middle
from engine.kit import theme
from engine.kit.area import Area
from engine.kit.canvas import Colour, Point
from engine.kit.charts import Paper
from engine.kit.deciding_lines import (
    CLEAR,
    DOT,
    NUMBER,
    dotted_along,
    draw_average,
    draw_timing,
    room_for,
)
from engine.kit.deviation_frame import Frame, draw_frame, frame_of
from engine.kit.label_places import LabelPlaces
from engine.kit.typeface import Weight
from engine.kit.widgets import CAPITALS

THICK = 8
"""Thickness of the curve of a repetition, in canvas units."""
THIN = 3
"""Thickness of the curves of earlier repetitions, in canvas units."""
PIECES = 12
"""Number of pieces of the line of a limit beside which its label may stand, at least."""
SHORTEST = 240
"""Least length of the line of a limit, in canvas units: a shorter one begins before its time, as
else the curve would hide it."""
RING = 18
"""Radius of the ring around the worst place, in canvas units."""
LINE = 46
"""Distance between the names of limits beside the deviation plot, in canvas units."""
AT = 0.01
"""Largest distance of the worst place from a stretch of the curve that it is part of, in s: the
places are whole milliseconds, the edges of what is judged are not."""
ARROW = 18
"""Half the width of the arrow where a curve leaves the scale, in canvas units."""
LEAVES = 0.5
"""Least distance past the scale that an arrow marks, in points: numbers beside it are whole."""


def decisive(
    canvas: Paper, corner: Point, size: Point, now: Deviation, before: Sequence[Deviation] = ()
) -> Frame:
    """Draw the curve of one repetition with only what decided it: the worst place and its limit.

    The curves `before` lie thin under it, and no number stands on them. What was off is filled on
    the side that decided, near the worst place or, where an area or an average decided, all of it.
    Returns the frame of the plot.
    """
    now = about_middle(now)
    frame = frame_of(corner, size, now, room_for(canvas, now.average))
    curve = frame.curve(now)
    labels = LabelPlaces(canvas, frame.axes.frame)
    labels.spare_curve(curve, THICK)
    labels.spare_curve(frame.asked(now), THIN)
    _fill(canvas, frame, now)
    draw_frame(canvas, frame, now)
    for picture in before:
        canvas.curve(frame.curve(picture), theme.EARLIER, THIN)
        labels.spare_curve(frame.curve(picture), THIN)
    bound = _allowed_of(now)
    lines = [] if bound is None else _limit(canvas, frame, now, bound, theme.TEXT)
    for line in lines:
        labels.keep_off(line)
    canvas.curve(curve, theme.BRAKE, THICK)
    for (x, y), _ in _arrows(canvas, frame, now):
        labels.keep_off(Area(x - ARROW, y - ARROW, 2 * ARROW, 2 * ARROW))
    if now.average is not None:
        draw_average(canvas, frame, now, now.average)
    if now.timing is not None:
        draw_timing(canvas, frame, now.timing, labels)
    _worst(canvas, frame, now, labels)
    if bound is not None and lines:
        _allowed(frame, now, bound, lines, labels)
    return frame


def deviation(
    canvas: Paper,
    corner: Point,
    size: Point,
    now: Deviation,
    before: Sequence[Deviation] = (),
    *,
    limits: bool = False,
) -> Frame:
    """Draw the curve `now` bold over those `before`, thin; returns the frame of the plot.

    `limits` is whether all limits of `now` are drawn, with their names.
    """
    bounds = now.bounds if limits else ()
    named = [bound.label for bound in bounds if bound.label]
    wide = max((canvas.measure(label, theme.SMALL) + 2 * CLEAR for label in named), default=0.0)
    frame = frame_of(corner, size, now, wide)
    draw_frame(canvas, frame, now)
    for picture in before:
        canvas.curve(frame.curve(picture), theme.EARLIER, THIN)
    names = []
    for bound in bounds:
        lines = _limit(canvas, frame, now, bound, theme.QUIET)
        names += [(lines[-1].top, bound.label)] if lines and bound.label else []
    canvas.curve(frame.curve(now), theme.BRAKE, THICK)
    _beside(canvas, frame.axes.frame, names)
    labels = LabelPlaces(canvas, frame.axes.frame)
    labels.spare_curve(frame.curve(now), THICK)
    for at, edge in _arrows(canvas, frame, now):
        near = [(at[0] + side * 60, at[1]) for side in (1, -1)]
        labels.write(f"{abs(edge):.0f}", theme.SMALL, theme.TEXT, near)
    return frame


def _fill(canvas: Paper, frame: Frame, now: Deviation) -> None:
    """Fill what the brake was off on the failing side, between its curve and the zero line.

    Only what was judged is filled: near the worst place, or all of an area or an average.
    """
    judged = now.span if now.decides is None else now.decides.during
    if now.average is not None:
        for side in now.average.sides:
            for span in now.average.during:
                _fill_side(canvas, frame, now, side, span)
    elif now.area:
        for span in now.within or (judged,):
            _fill_side(canvas, frame, now, now.area, span)
    elif now.worst is not None:
        side = round(np.sign(now.worst.deviation))
        _fill_side(canvas, frame, now, side, judged, near=now.worst.at)


def _fill_side(
    canvas: Paper,
    frame: Frame,
    now: Deviation,
    side: int,
    span: Span,
    near: float | None = None,
) -> None:
    """Fill between the curve and the zero line on one side, in a time, or only `near` a moment."""
    axes = frame.axes
    first, last = max(span[0], axes.first), min(span[1], axes.last)
    failing = side * now.deviation > 0
    failing &= (now.time >= first) & (now.time <= last)
    edges = np.flatnonzero(np.diff(failing.astype(np.int8), prepend=0, append=0))
    for begin, after in zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True):
        if near is not None and not now.time[begin] - AT <= near <= now.time[after - 1] + AT:
            continue
        part = replace(
            now,
            time=now.time[begin:after],
            deviation=now.deviation[begin:after],
            meant=None if now.meant is None else now.meant[begin:after],
        )
        line = frame.curve(part)
        if len(line) > 1:
            about = frame.beside(now, (float(part.time[0]), float(part.time[-1])), 0.0, 0.0)
            canvas.shape([about[0], *line, *reversed(about[1:])], theme.DIP)


def _allowed_of(now: Deviation) -> Bound | None:
    """Limit on the curve that decided, on the side of the worst place if it has two."""
    bound, worst = now.decides, now.worst
    if bound is None or worst is None or bound.low is None or bound.high is None:
        return bound
    return replace(bound, high=None) if worst.deviation < 0 else replace(bound, low=None)


def _limit(canvas: Paper, frame: Frame, now: Deviation, bound: Bound, colour: Colour) -> list[Area]:
    """Draw a limit as dotted lines over the time in which it is judged; returns what they cover."""
    covered: list[Area] = []
    for edge in (bound.high, bound.low):
        points = [] if edge is None else _edge(frame, now, bound, edge)
        if len(points) < 2:
            continue
        dotted_along(canvas, points, colour)
        covered += [_around(*pair) for pair in pairwise(points[:: max(len(points) // PIECES, 1)])]
    return covered


def _edge(frame: Frame, now: Deviation, bound: Bound, edge: float) -> list[Point]:
    """Points of the line of a limit at a deviation in points, from left to right.

    Those outside the scale are left out.
    """
    axes, area = frame.axes, frame.axes.frame
    if now.meant is not None:
        line = frame.beside(now, bound.during, edge, edge)
        return [at for at in line if area.top < at[1] < area.bottom]
    if not axes.low <= edge <= axes.high:
        return []
    first, last = axes.across(bound.during[0]), axes.across(bound.during[1])
    first, y = max(min(first, last - SHORTEST), axes.frame.left), axes.down(edge)
    return [(first, y), (last, y)]


def _around(start: Point, end: Point) -> Area:
    """Area that a piece of a dotted line covers."""
    high, top, low = DOT[1], min(start[1], end[1]), max(start[1], end[1])
    return Area(start[0], top - high / 2 - 2, max(end[0] - start[0], DOT[0]), low - top + high + 4)


def _allowed(
    frame: Frame, now: Deviation, bound: Bound, lines: Sequence[Area], labels: LabelPlaces
) -> None:
    """Write what a limit allows beside one of its lines, the lower one first."""
    axes, label = frame.axes, bound.label
    half = labels.half(label, theme.SMALL)
    places = []
    for line in reversed(lines):
        middle = line.top + line.height / 2
        level = axes.down(now.level(frame.time(line.left + line.width / 2)))
        beyond = half[1] + CLEAR if middle > level else -half[1] - CLEAR
        inside = [line.right - half[0], line.left + half[0], line.left + line.width / 2]
        if line.width <= SHORTEST:
            inside.sort()
        places += [(line.right + half[0] + CLEAR, middle), (line.left - half[0] - CLEAR, middle)]
        places += [(x, middle + beyond) for x in inside]
        places += [(x, middle - beyond) for x in inside]
    labels.write(label, theme.SMALL, theme.QUIET, places)


def _worst(canvas: Paper, frame: Frame, now: Deviation, labels: LabelPlaces) -> None:
    """Draw a ring around the worst place of the curve, and its number where nothing else is."""
    worst, area = now.worst, frame.axes.frame
    if worst is None:
        return
    x, y = frame.place(now, worst.at, worst.deviation)
    x = min(max(x, area.left + RING), area.right - RING)
    y = min(max(y, area.top + RING), area.bottom - RING)
    canvas.disc((x, y), RING, theme.GROUND)
    canvas.disc((x, y), RING, theme.TEXT, 6)
    labels.keep_off(Area(x - RING, y - RING, 2 * RING, 2 * RING))
    if not worst.label:
        return
    half = labels.half(worst.label, NUMBER, Weight.BOLD)
    side, under = RING + CLEAR + half[0], RING + CLEAR + half[1]
    down = 1.0 if worst.deviation < 0 else -1.0
    beside = [(x - side, y), (x + side, y)]
    beyond = [(x + part * side, y + down * under) for part in (0.0, -0.7, 0.7)]
    aside = [(x + part * side, y + down * under / 2) for part in (-1.0, 1.0)]
    inside = [(x + part * side, y - down * under) for part in (-0.7, 0.7)]
    places = [*beside, *aside, *beyond, *inside]
    labels.write(worst.label, NUMBER, theme.TEXT, places, Weight.BOLD)


def _arrows(canvas: Paper, frame: Frame, now: Deviation) -> list[tuple[Point, float]]:
    """Draw an arrow where the curve leaves the scale farthest; returns its place, and how far.

    There is none at the worst place, which has a ring.
    """
    axes, arrows = frame.axes, []
    seen = np.flatnonzero((now.time >= axes.first) & (now.time <= axes.last))
    for way, edge in ((1, axes.high), (-1, axes.low)):
        if not seen.size:
            continue
        k = int(seen[np.argmax(way * now.drawn[seen])])
        value = float(now.drawn[k])
        if way * (value - edge) < LEAVES:
            continue
        worst = now.worst
        if worst is not None and way * (now.level(worst.at) + worst.deviation) > way * edge:
            continue
        x, y = axes.place(float(now.time[k]), edge)
        x = min(max(x, axes.frame.left + ARROW), axes.frame.right - ARROW)
        canvas.shape([(x - ARROW, y + 24 * way), (x + ARROW, y + 24 * way), (x, y)], theme.TEXT)
        arrows.append(((x, y + 24 * way), value))
    return arrows


def _beside(canvas: Paper, area: Area, names: Sequence[tuple[float, str]]) -> None:
    """Write names right of the plot, each as near to its height as the others allow."""
    tops = [max(height - CAPITALS * theme.SMALL, area.top) for height, _ in sorted(names)]
    for number in range(1, len(tops)):
        tops[number] = max(tops[number], tops[number - 1] + LINE)
    for number in reversed(range(len(tops))):
        lowest = area.bottom - (len(tops) - number) * LINE
        tops[number] = min(tops[number], lowest)
    for top, (_, name) in zip(tops, sorted(names), strict=True):
        canvas.text(name, (area.right + CLEAR, top), theme.SMALL, theme.QUIET)
