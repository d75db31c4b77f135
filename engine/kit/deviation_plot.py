"""Deviation plot of the reveal: the brake against what was held, with earlier repetitions faint.

All labels stand outside the frame, so that none touches a curve.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from drills.deviation import Bound, Deviation
from drills.trace import Values
from engine.kit import theme
from engine.kit.canvas import Canvas, Point
from engine.kit.charts import Area, Axes

POINTS = 900
"""Largest number of points that a curve of the deviation plot is drawn with."""
LEFT = 170
"""Space left of the deviation plot for its vertical scale, in canvas units."""
RIGHT = 290
"""Space right of the deviation plot for the names of the limits, in canvas units."""
ABOVE = 44
"""Space above the deviation plot for the label of the cue, in canvas units."""
BELOW = 54
"""Space below the deviation plot for the time scale, in canvas units."""
THROTTLE = 76
"""Height of the strip for throttle and clutch at the foot of a deviation plot, in canvas units."""
MARKS = (0.2, 0.4, 1.0, 2.0, 5.0)
"""Steps that labelled marks of the time scale may have, in s; the first with room for labels is
used."""
MARK_LEAST = 120
"""Smallest distance between labelled marks of the time scale, in canvas units."""
NEARLY = 1e-6
"""Tolerance within which a time mark still lies on the end of the time scale, in steps."""
FINE_LEAST = 30
"""Smallest distance between marks of the time scale without labels, in canvas units."""
ZERO = {
    "held": "what was held",
    "target": "the target",
    "straight": "a straight way down",
}
"""Text for what a deviation of 0 means, by the zero of a `Deviation`."""
TICKS = (1.0, 2.0, 5.0, 10.0, 15.0, 20.0, 30.0, 40.0, 50.0, 60.0, 80.0)
"""Deviations that may be labelled on the vertical scale of the deviation plot, in points."""
TICK_AT_MOST = 0.8
"""Largest labelled deviation, as a share of the reach of the vertical scale."""
LINE = 46
"""Distance between the names of limits beside the deviation plot, in canvas units."""


def deviation(
    canvas: Canvas,
    corner: Point,
    size: Point,
    now: Deviation,
    before: Sequence[Deviation],
) -> None:
    """Draw the deviation plot: `now` bold, those `before` faint, and the limits of `now`."""
    whole = Area(*corner, *size).within(LEFT, ABOVE, RIGHT, BELOW)
    strip = 0.0 if now.throttle is None else THROTTLE
    axes = Axes(whole.within(0, 0, 0, strip), *now.span, -now.reach, now.reach)
    canvas.box((whole.left, whole.top), (whole.width, whole.height), theme.RAISED, 8)
    heading = f"brake against {ZERO[now.zero]}, in points"
    if _cue_reaches(canvas, axes, now, whole.right - canvas.measure(heading, theme.SMALL)):
        canvas.text(heading, (whole.left, whole.top - 42), theme.SMALL, theme.QUIET)
    else:
        canvas.text(heading, (whole.right, whole.top - 42), theme.SMALL, theme.QUIET, "right")
    _scale(canvas, axes, now.zero)
    _time(canvas, axes, whole.bottom)
    _cue(canvas, axes, whole.bottom, now)
    names = [_bound(canvas, axes, bound) for bound in now.bounds]
    for picture in before:
        canvas.curve(_points(axes, picture.time, picture.deviation), theme.EARLIER, 2)
    _throttle(canvas, axes, whole.bottom, now)
    _clutch(canvas, axes, whole.bottom, now)
    canvas.curve(_points(axes, now.time, now.deviation), theme.BRAKE, 7)
    names += _cut_off(canvas, axes, now)
    _beside(canvas, whole, names)


def _scale(canvas: Canvas, axes: Axes, zero: str) -> None:
    left, middle = axes.frame.left, axes.down(0.0)
    canvas.line((left, middle), (axes.frame.right, middle), theme.QUIET, 2)
    step = max((tick for tick in TICKS if tick <= TICK_AT_MOST * axes.high), default=axes.high)
    for points, label in ((step, f"+{step:g}"), (0.0, zero), (-step, f"-{step:g}")):
        at = axes.down(points)
        canvas.line((left - 10, at), (left, at), theme.FAINT, 2)
        canvas.text(label, (left - 20, at - 16), theme.SMALL, theme.QUIET, "right")


def _time(canvas: Canvas, axes: Axes, floor: float) -> None:
    """Draw the time scale: a mark every 0.2 s if there is room, and as many labels as fit."""
    second = axes.frame.width / (axes.last - axes.first)
    step = next((mark for mark in MARKS if second * mark >= MARK_LEAST), MARKS[-1])
    if second * MARKS[0] >= FINE_LEAST:
        for x in _every(axes, MARKS[0]).values():
            canvas.line((x, floor), (x, floor + 6), theme.FAINT, 2)
    for number, x in _every(axes, step).items():
        canvas.line((x, floor), (x, floor + 10), theme.FAINT, 2)
        label = f"{number * step:g}" + (" s" if number == 0 else "")
        canvas.text(label, (x, floor + 16), theme.SMALL, theme.QUIET, "centre")


def _every(axes: Axes, step: float) -> dict[int, float]:
    """Horizontal positions of the multiples of `step` (s) on the time scale, by their number."""
    first, last = math.ceil(axes.first / step - NEARLY), math.floor(axes.last / step + NEARLY)
    return {number: axes.across(number * step) for number in range(first, last + 1)}


def _cue_reaches(canvas: Canvas, axes: Axes, now: Deviation, left: float) -> bool:
    """Whether the label of the first visible cue extends right of `left`, in canvas units."""
    visible = [cue for cue in now.cues if axes.first <= cue <= axes.last]
    return bool(visible) and axes.across(visible[0]) + canvas.measure("cue", theme.SMALL) > left


def _cue(canvas: Canvas, axes: Axes, floor: float, now: Deviation) -> None:
    visible = [cue for cue in now.cues if axes.first <= cue <= axes.last]
    for number, cue in enumerate(visible):
        x = axes.across(cue)
        canvas.line((x, axes.frame.top - 8), (x, floor), theme.THROTTLE, 3)
        if number == 0:
            canvas.text("cue", (x, axes.frame.top - 42), theme.SMALL, theme.THROTTLE, "centre")


def _bound(canvas: Canvas, axes: Axes, bound: Bound) -> tuple[float, str]:
    """Draw the limit of a measure as lines with caps; returns height and text of its label."""
    first, last = axes.across(bound.during[0]), axes.across(bound.during[1])
    edges = [edge for edge in (bound.high, bound.low) if edge is not None]
    for edge in edges:
        at = axes.down(edge)
        canvas.line((first, at), (last, at), theme.TEXT, 3)
        inward = 14 if edge > 0 else -14
        for x in (first, last):
            canvas.line((x, at), (x, at + inward), theme.TEXT, 3)
    return axes.down(edges[-1] if bound.high is None else edges[0]), bound.label


def _throttle(canvas: Canvas, axes: Axes, floor: float, now: Deviation) -> None:
    if now.throttle is None:
        return
    strip = floor - axes.frame.bottom
    raised = floor - (strip - 8) * np.clip(now.throttle, 0.0, 100.0) / 100
    pressed = now.throttle >= 1.0
    starts = np.flatnonzero(np.diff(pressed.astype(np.int8), prepend=0) == 1)
    stops = np.flatnonzero(np.diff(pressed.astype(np.int8), append=0) == -1) + 1
    for first, after in zip(starts.tolist(), stops.tolist(), strict=True):
        thinned = _thinned(np.arange(first, after, dtype=np.int64))
        line = [(axes.across(float(now.time[k])), float(raised[k])) for k in thinned]
        if len(line) > 1:
            ends = [(line[-1][0], floor), (line[0][0], floor)]
            canvas.shape([*line, *ends], theme.THROTTLE)


def _clutch(canvas: Canvas, axes: Axes, floor: float, now: Deviation) -> None:
    """Draw the clutch as a line over the strip of the throttle, with a label beside it."""
    if now.clutch is None:
        return
    strip = floor - axes.frame.bottom
    percent = np.clip(now.clutch, 0.0, 100.0)
    thinned = _thinned(np.arange(now.time.size, dtype=np.int64))
    line = [
        (axes.across(float(now.time[k])), floor - (strip - 8) * percent[k] / 100) for k in thinned
    ]
    canvas.curve(line, theme.CLUTCH, 4)
    corner = (axes.frame.left - 20, floor - strip + 16)
    canvas.text("clutch", corner, theme.SMALL, theme.CLUTCH, "right")


def _cut_off(canvas: Canvas, axes: Axes, now: Deviation) -> list[tuple[float, str]]:
    """Draw an arrow where the deviation leaves the scale; returns height and text of its labels."""
    labels = []
    for edge, way in ((now.deviation.max(initial=0.0), 1), (-now.deviation.min(initial=0.0), -1)):
        if edge <= axes.high:
            continue
        k = int(np.argmax(way * now.deviation))
        x, y = axes.across(float(now.time[k])), axes.down(way * axes.high)
        canvas.shape([(x - 16, y + 22 * way), (x + 16, y + 22 * way), (x, y)], theme.TEXT)
        labels.append((y, f"{edge:.0f} {'up' if way > 0 else 'down'}"))
    return labels


def _beside(canvas: Canvas, whole: Area, names: Sequence[tuple[float, str]]) -> None:
    """Write labels right of the deviation plot, each as near to its height as the others allow."""
    at = whole.top - LINE
    placed = []
    for height, name in sorted((height, name) for height, name in names if name):
        at = max(height - 16, at + LINE)
        placed.append((at, name))
    too_low = max(at - (whole.bottom - LINE), 0.0)
    for height, name in placed:
        corner = (whole.right + 20, height - too_low)
        canvas.text(name, corner, theme.SMALL, theme.TEXT)


def _points(axes: Axes, time: Values, deviation: Values) -> list[Point]:
    inside = np.flatnonzero((time >= axes.first) & (time <= axes.last))
    return [(axes.across(float(time[k])), axes.down(float(deviation[k]))) for k in _thinned(inside)]


def _thinned(indices: np.ndarray[tuple[int], np.dtype[np.int64]]) -> list[int]:
    """About POINTS of the indices of a curve's samples, evenly spread, plus the last one."""
    chosen = indices[:: max(len(indices) // POINTS, 1)].tolist()
    return chosen if not len(indices) else [*chosen, int(indices[-1])]
