"""The picture at the reveal: deviation from what was held, this repetition bold, others faint.

Every label stands outside the frame, so that none touches a curve.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from drills.deviation import Bound, Deviation
from drills.trace import Values
from engine.kit import theme
from engine.kit.canvas import Canvas, Point

POINTS = 900
"""count of points a curve is drawn with at most."""
LEFT = 170
"""units kept left of the frame, for the scale."""
RIGHT = 290
"""units kept right of it, for the names of the limits."""
ABOVE = 44
"""units kept above it, for the cue."""
BELOW = 54
"""units kept under it, for the time."""
THROTTLE = 76
"""units at the foot of the frame that a full throttle takes."""
MARKS = (0.2, 0.4, 1.0, 2.0, 5.0)
"""s from one labelled time mark to the next: the closest that leaves room for the labels."""
MARK_LEAST = 120
"""units from one labelled time mark to the next."""
NEARLY = 1e-6
"""1, a mark this close to an end of the scale is on it."""
FINE_LEAST = 30
"""units from one mark without a label to the next."""
ZERO = {
    "held": "what was held",
    "target": "the target",
    "chord": "its chord",
    "way": "its way down",
}
"""What a deviation of 0 is, in full."""
TICKS = (1.0, 2.0, 5.0, 10.0, 15.0, 20.0, 30.0, 40.0, 50.0, 60.0, 80.0)
"""points, round ones that the scale may name."""
TICK_AT_MOST = 0.8
"""1, share of the scale up to which one is named."""
LINE = 46
"""units from one label beside the frame to the next."""


@dataclass(frozen=True)
class Frame:
    """Where a picture is drawn, and its scales."""

    left: float
    """units."""
    top: float
    """units."""
    width: float
    """units."""
    height: float
    """units."""
    start: float
    """s, at the left edge."""
    stop: float
    """s, at the right edge."""
    reach: float
    """points, at the upper edge; the same down."""
    pulse: float
    """units at its foot that a full throttle takes; 0 where none is shown."""

    @classmethod
    def of(cls, corner: Point, size: Point, shown: Deviation) -> Frame:
        """The frame within a rectangle that leaves room for the labels around it."""
        left, top = corner[0] + LEFT, corner[1] + ABOVE
        width, height = size[0] - LEFT - RIGHT, size[1] - ABOVE - BELOW
        pulse = 0.0 if shown.throttle is None else THROTTLE
        return cls(left, top, width, height, *shown.span, shown.reach, pulse)

    @property
    def middle(self) -> float:
        """units from the top of the picture, where the deviation is 0."""
        return self.top + (self.height - self.pulse) / 2

    @property
    def floor(self) -> float:
        """units from the top of the picture, where the throttle is 0."""
        return self.top + self.height

    def across(self, seconds: float) -> float:
        """units from the left of the picture."""
        inside = min(max(seconds, self.start), self.stop)
        return self.left + self.width * (inside - self.start) / (self.stop - self.start)

    def down(self, points: float) -> float:
        """units from the top of the picture; what is outside the scale is at its edge."""
        half = (self.height - self.pulse) / 2
        return self.middle - half * min(max(points / self.reach, -1.0), 1.0)


def deviation(
    canvas: Canvas,
    corner: Point,
    size: Point,
    now: Deviation,
    before: Sequence[Deviation],
) -> None:
    """Draw the picture into a rectangle: this one bold, those before faint, each limit in place."""
    frame = Frame.of(corner, size, now)
    canvas.box((frame.left, frame.top), (frame.width, frame.height), theme.RAISED, 8)
    heading = f"brake against {ZERO[now.zero]}, in points"
    right = frame.left + frame.width
    if _cue_reaches(canvas, frame, now, right - canvas.measure(heading, theme.SMALL)):
        canvas.text(heading, (frame.left, frame.top - 42), theme.SMALL, theme.QUIET)
    else:
        canvas.text(heading, (right, frame.top - 42), theme.SMALL, theme.QUIET, "right")
    _scale(canvas, frame, now.zero)
    _time(canvas, frame)
    _cue(canvas, frame, now)
    names = [_bound(canvas, frame, bound) for bound in now.bounds]
    for picture in before:
        canvas.curve(_points(frame, picture.time, picture.deviation), theme.EARLIER, 2)
    _throttle(canvas, frame, now)
    _clutch(canvas, frame, now)
    canvas.curve(_points(frame, now.time, now.deviation), theme.BRAKE, 7)
    names += _cut_off(canvas, frame, now)
    _beside(canvas, frame, names)


def _scale(canvas: Canvas, frame: Frame, zero: str) -> None:
    canvas.line(
        (frame.left, frame.middle), (frame.left + frame.width, frame.middle), theme.QUIET, 2
    )
    step = max((one for one in TICKS if one <= TICK_AT_MOST * frame.reach), default=frame.reach)
    for points, label in ((step, f"+{step:g}"), (0.0, zero), (-step, f"-{step:g}")):
        at = frame.down(points)
        canvas.line((frame.left - 10, at), (frame.left, at), theme.FAINT, 2)
        canvas.text(label, (frame.left - 20, at - 16), theme.SMALL, theme.QUIET, "right")


def _time(canvas: Canvas, frame: Frame) -> None:
    """A mark every 0.2 s where there is room, and a label at as many of them as fit."""
    second = frame.width / (frame.stop - frame.start)
    step = next((one for one in MARKS if second * one >= MARK_LEAST), MARKS[-1])
    if second * MARKS[0] >= FINE_LEAST:
        for x in _every(frame, MARKS[0]).values():
            canvas.line((x, frame.floor), (x, frame.floor + 6), theme.FAINT, 2)
    for number, x in _every(frame, step).items():
        canvas.line((x, frame.floor), (x, frame.floor + 10), theme.FAINT, 2)
        label = f"{number * step:g}" + (" s" if number == 0 else "")
        canvas.text(label, (x, frame.floor + 16), theme.SMALL, theme.QUIET, "centre")


def _every(frame: Frame, step: float) -> dict[int, float]:
    """Where the multiples of a step in s are, by their numbers."""
    first, last = math.ceil(frame.start / step - NEARLY), math.floor(frame.stop / step + NEARLY)
    return {number: frame.across(number * step) for number in range(first, last + 1)}


def _cue_reaches(canvas: Canvas, frame: Frame, now: Deviation, left: float) -> bool:
    """Whether the name of the first cue in sight reaches as far right as this."""
    seen = [cue for cue in now.cues if frame.start <= cue <= frame.stop]
    return bool(seen) and frame.across(seen[0]) + canvas.measure("cue", theme.SMALL) > left


def _cue(canvas: Canvas, frame: Frame, now: Deviation) -> None:
    seen = [cue for cue in now.cues if frame.start <= cue <= frame.stop]
    for number, cue in enumerate(seen):
        x = frame.across(cue)
        canvas.line((x, frame.top - 8), (x, frame.floor), theme.THROTTLE, 3)
        if number == 0:
            canvas.text("cue", (x, frame.top - 42), theme.SMALL, theme.THROTTLE, "centre")


def _bound(canvas: Canvas, frame: Frame, bound: Bound) -> tuple[float, str]:
    """Draw a limit as lines with ends; where its name belongs, and what that is."""
    first, last = frame.across(bound.during[0]), frame.across(bound.during[1])
    edges = [edge for edge in (bound.high, bound.low) if edge is not None]
    for edge in edges:
        at = frame.down(edge)
        canvas.line((first, at), (last, at), theme.TEXT, 3)
        inward = 14 if edge > 0 else -14
        for x in (first, last):
            canvas.line((x, at), (x, at + inward), theme.TEXT, 3)
    return frame.down(edges[-1] if bound.high is None else edges[0]), bound.label


def _throttle(canvas: Canvas, frame: Frame, now: Deviation) -> None:
    if now.throttle is None:
        return
    raised = frame.floor - (frame.pulse - 8) * np.clip(now.throttle, 0.0, 100.0) / 100
    pressed = now.throttle >= 1.0
    starts = np.flatnonzero(np.diff(pressed.astype(np.int8), prepend=0) == 1)
    stops = np.flatnonzero(np.diff(pressed.astype(np.int8), append=0) == -1) + 1
    for first, after in zip(starts.tolist(), stops.tolist(), strict=True):
        thinned = _thinned(np.arange(first, after))
        line = [(frame.across(float(now.time[k])), float(raised[k])) for k in thinned]
        if len(line) > 1:
            ends = [(line[-1][0], frame.floor), (line[0][0], frame.floor)]
            canvas.shape([*line, *ends], theme.THROTTLE)


def _clutch(canvas: Canvas, frame: Frame, now: Deviation) -> None:
    """A line over the same strip as the throttle, named beside it."""
    if now.clutch is None:
        return
    percent = np.clip(now.clutch, 0.0, 100.0)
    shown = _thinned(np.arange(now.time.size))
    line = [
        (frame.across(float(now.time[k])), frame.floor - (frame.pulse - 8) * percent[k] / 100)
        for k in shown
    ]
    canvas.curve(line, theme.CLUTCH, 4)
    corner = (frame.left - 20, frame.floor - frame.pulse + 16)
    canvas.text("clutch", corner, theme.SMALL, theme.CLUTCH, "right")


def _cut_off(canvas: Canvas, frame: Frame, now: Deviation) -> list[tuple[float, str]]:
    """An arrow where the curve leaves the scale, and by how much it does, to be said beside."""
    said = []
    for edge, way in ((now.deviation.max(initial=0.0), 1), (-now.deviation.min(initial=0.0), -1)):
        if edge <= frame.reach:
            continue
        k = int(np.argmax(way * now.deviation))
        x, y = frame.across(float(now.time[k])), frame.down(way * frame.reach)
        canvas.shape([(x - 16, y + 22 * way), (x + 16, y + 22 * way), (x, y)], theme.TEXT)
        said.append((y, f"{edge:.0f} {'up' if way > 0 else 'down'}"))
    return said


def _beside(canvas: Canvas, frame: Frame, names: Sequence[tuple[float, str]]) -> None:
    """Names right of the frame, each as near to its height as the others let it."""
    at = frame.top - LINE
    placed = []
    for height, name in sorted(one for one in names if one[1]):
        at = max(height - 16, at + LINE)
        placed.append((at, name))
    too_low = max(at - (frame.floor - LINE), 0.0)
    for height, name in placed:
        corner = (frame.left + frame.width + 20, height - too_low)
        canvas.text(name, corner, theme.SMALL, theme.TEXT)


def _points(frame: Frame, time: Values, deviation: Values) -> list[Point]:
    shown = np.flatnonzero((time >= frame.start) & (time <= frame.stop))
    return [
        (frame.across(float(time[k])), frame.down(float(deviation[k]))) for k in _thinned(shown)
    ]


def _thinned(shown: np.ndarray[tuple[int], np.dtype[np.int64]]) -> list[int]:
    """Enough of some points to draw, the last among them."""
    chosen = shown[:: max(len(shown) // POINTS, 1)].tolist()
    return chosen if not len(shown) else [*chosen, int(shown[-1])]
