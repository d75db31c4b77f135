"""Frame of a deviation plot: its scales, the line of no deviation, cues, throttle and clutch."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from drills.deviation import Deviation, Span
from drills.trace import Values
from engine.kit import theme
from engine.kit.area import Area
from engine.kit.canvas import Point
from engine.kit.charts import Axes, Paper
from engine.kit.widgets import CAPITALS

POINTS = 900
"""Largest number of points that a curve of the deviation plot is drawn with."""
HANGING = 124
"""Space left of a deviation plot for the words beside it, in canvas units. They hang in the margin
of the screen where the plot begins at it."""
BELOW = 62
"""Space below the deviation plot for the time scale, in canvas units."""
STRIP = 92
"""Height of the strip for throttle and clutch at the foot of a deviation plot, in canvas units."""
PULSE = 72
"""Height of a full throttle in that strip, in canvas units."""
STEPS = (0.5, 1.0, 2.0, 5.0, 10.0)
"""Steps that the labels of the time scale may have, in s; the first with room is used."""
STEP_LEAST = 300
"""Smallest distance between two labels of the time scale, in canvas units."""
GAP = 28
"""Smallest gap between two words under or in a deviation plot, in canvas units."""
UNDER = 24
"""Distance from the axis of time to the top of the words under it, in canvas units."""
ON = 1.0
"""Throttle from which on it is drawn, in %."""
PRESS = (11, 14)
"""Half the width and the height of the mark of a shift, in canvas units."""
ASKED = 5
"""Thickness of the brake line that was asked, in canvas units."""
ALONG = 0.02
"""Time between two points of a line beside the brake that was asked, in s."""
BESIDE = 16
"""Gap between the words at the left of a plot and the plot, in canvas units."""


@dataclass(frozen=True)
class Frame:
    """Frame of a deviation plot: where its curves, its strip and its time scale are."""

    axes: Axes
    """Scales of the curves: time in s across, deviation in points up."""
    floor: float
    """Bottom of the strip for throttle and clutch, in canvas units: the axis of time."""
    shows_throttle: bool
    """Whether there is a strip for throttle and clutch."""

    @property
    def strip(self) -> Area:
        """Rectangle of the strip for throttle and clutch."""
        area = self.axes.frame
        return Area(area.left, area.bottom, area.width, self.floor - area.bottom)

    def curve(self, picture: Deviation) -> list[Point]:
        """Points of the curve of a deviation, cut off at the edges of the frame."""
        time, axes = picture.time, self.axes
        inside = np.flatnonzero((time >= axes.first) & (time <= axes.last))
        drawn = picture.drawn
        return [axes.place(float(time[k]), float(drawn[k])) for k in _thinned(inside)]

    def asked(self, picture: Deviation) -> list[Point]:
        """Points of the brake line that was asked; none where what was held is one value."""
        return [self.axes.place(at, brake) for at, brake in picture.asked]

    def time(self, x: float) -> float:
        """Time in s at a position in canvas units from the left."""
        area, axes = self.axes.frame, self.axes
        return axes.first + (axes.last - axes.first) * (x - area.left) / area.width

    def place(self, now: Deviation, at: float, deviation: float) -> Point:
        """Point of a deviation at a time in s on the axis of a picture."""
        return self.axes.place(at, now.level(at) + deviation)

    def beside(self, now: Deviation, span: Span, first: float, last: float) -> list[Point]:
        """Line at a deviation that goes evenly from `first` to `last` over a span, in points.

        It is straight, or follows the brake that the deviation is counted from.
        """
        begins, ends = span
        steps = 1 if now.meant is None else max(round((ends - begins) / ALONG), 1)
        shares = [step / steps for step in range(steps + 1)]
        return [
            self.place(now, begins + share * (ends - begins), first + share * (last - first))
            for share in shares
        ]


def frame_of(corner: Point, size: Point, now: Deviation, right: float = 0.0) -> Frame:
    """Frame of a deviation plot in a rectangle, with `right` units left free at its right."""
    left = 0.0 if corner[0] == theme.MARGIN else float(HANGING)
    shows = now.throttle is not None or now.clutch is not None
    whole = Area(*corner, *size).within(left, 0.0, right, BELOW)
    area = whole.within(0.0, 0.0, 0.0, STRIP if shows else 0.0)
    return Frame(Axes(area, *now.span, *now.scale), whole.bottom, shows)


def draw_frame(canvas: Paper, frame: Frame, now: Deviation) -> None:
    """Draw all that stands around the curves of a deviation plot, and the throttle and clutch."""
    axes, floor = frame.axes, frame.floor
    left, right = axes.frame.left, axes.frame.right
    if now.meant is None:
        middle = axes.down(0.0)
        canvas.line((left, middle), (right, middle), theme.FAINT, 3)
    else:
        middle = axes.down(max(brake for _, brake in now.asked))
        _asked(canvas, frame, now)
    _word(canvas, frame, now.zero, middle, theme.QUIET)
    canvas.line((left, floor), (right, floor), theme.BAND, 3)
    words = [*_parts(canvas, frame, now), *_cues(canvas, frame, now)]
    _time(canvas, frame, words)
    if frame.shows_throttle:
        _throttle(canvas, frame, now)
        _clutch(canvas, frame, now)
        _shifts(canvas, frame, now)


def _thinned(indices: np.ndarray[tuple[int], np.dtype[np.int64]]) -> list[int]:
    """About POINTS of the indices of a curve's samples, evenly spread, plus the last one."""
    chosen = indices[:: max(len(indices) // POINTS, 1)].tolist()
    return chosen if not len(indices) else [*chosen, int(indices[-1])]


def _word(
    canvas: Paper, frame: Frame, word: str, middle: float, colour: tuple[int, int, int]
) -> None:
    """Write a word left of the plot, its middle at a height."""
    at = frame.axes.frame.left - BESIDE, middle - theme.SMALL * CAPITALS
    canvas.text(word, at, theme.SMALL, colour, "right")


def _asked(canvas: Paper, frame: Frame, now: Deviation) -> None:
    """Draw the brake line that was asked, and the line of no brake at the foot of the plot."""
    area = frame.axes.frame
    canvas.line((area.left, area.bottom), (area.right, area.bottom), theme.BAND, 3)
    canvas.curve(frame.asked(now), theme.FAINT, ASKED)


def _parts(canvas: Paper, frame: Frame, now: Deviation) -> list[Area]:
    """Draw a line and a word where each part begins or ends; returns what the words cover."""
    axes, words = frame.axes, []
    for at, word in now.parts:
        x = axes.across(at)
        canvas.line((x, axes.frame.top), (x, frame.floor + 10), theme.BAND, 3)
        words.append(_under(canvas, frame, word, x))
    return words


def _cues(canvas: Paper, frame: Frame, now: Deviation) -> list[Area]:
    """Draw a tick at each visible cue, and a word under the first where no part has one.

    Returns what the word covers.
    """
    axes, floor, words = frame.axes, frame.floor, []
    for number, cue in enumerate(cue for cue in now.cues if axes.first <= cue <= axes.last):
        x = axes.across(cue)
        canvas.line((x, floor - 10), (x, floor + 10), theme.QUIET, 3)
        if number == 0 and not now.parts:
            words.append(_under(canvas, frame, "cue", x))
    return words


def _time(canvas: Paper, frame: Frame, taken: list[Area]) -> None:
    """Write a few times under the plot, none on another or on the words that are there."""
    axes = frame.axes
    second = axes.frame.width / (axes.last - axes.first)
    step = next((step for step in STEPS if second * step >= STEP_LEAST), STEPS[-1])
    covered = [(word.left - GAP, word.right + GAP) for word in taken]
    for number in range(1, math.floor(axes.last / step + 1e-6) + 1):
        label, x = f"{number * step:g} s", axes.across(number * step)
        half = canvas.measure(label, theme.SMALL) / 2
        if x + half > axes.frame.right + GAP or x < axes.frame.left:
            continue
        if any(x - half < right and left < x + half for left, right in covered):
            continue
        _under(canvas, frame, label, x)


def _under(canvas: Paper, frame: Frame, word: str, x: float) -> Area:
    """Write a word under the plot, its middle as near to `x` as the frame allows."""
    area, wide = frame.axes.frame, canvas.measure(word, theme.SMALL)
    middle = min(max(x, area.left + wide / 2), area.right - wide / 2)
    canvas.text(word, (middle, frame.floor + UNDER), theme.SMALL, theme.QUIET, "centre")
    return Area(middle - wide / 2, frame.floor + UNDER, wide, theme.SMALL)


def _throttle(canvas: Paper, frame: Frame, now: Deviation) -> None:
    """Draw each pulse of the throttle, and the word "blip" once where there is room for it."""
    if now.throttle is None:
        return
    axes, floor = frame.axes, frame.floor
    pulses = []
    for first, after in _pressed(now.throttle):
        seen = np.arange(first, after, dtype=np.int64)
        inside = (now.time[seen] >= axes.first) & (now.time[seen] <= axes.last)
        line = [
            (axes.across(float(now.time[k])), _raised(frame, float(now.throttle[k])))
            for k in _thinned(seen[inside])
        ]
        if len(line) > 1:
            canvas.shape([*line, (line[-1][0], floor), (line[0][0], floor)], theme.THROTTLE)
            pulses.append((line[0][0], line[-1][0]))
    if pulses:
        _blip_word(canvas, frame, pulses, now.clutch is not None)


def _pressed(throttle: Values) -> list[tuple[int, int]]:
    """First index of each stretch of pressed throttle, and the index after it."""
    pressed = (throttle >= ON).astype(np.int8)
    starts = np.flatnonzero(np.diff(pressed, prepend=0) == 1)
    stops = np.flatnonzero(np.diff(pressed, append=0) == -1) + 1
    return list(zip(starts.tolist(), stops.tolist(), strict=True))


def _raised(frame: Frame, percent: float) -> float:
    """Height of a pedal's value (%) in the strip, in canvas units from the top."""
    return frame.floor - PULSE * min(max(percent, 0.0), 100.0) / 100


def _blip_word(
    canvas: Paper, frame: Frame, pulses: list[tuple[float, float]], crowded: bool
) -> None:
    """Write "blip" right of the first pulse with room for it, or else left of the plot."""
    wide = canvas.measure("blip", theme.SMALL) + 2 * GAP
    top = frame.floor - theme.SMALL
    edges = [*pulses, (frame.axes.frame.right + GAP, 0.0)]
    for (_, end), (following, _) in pairwise(edges):
        if following - end >= wide and not crowded:
            canvas.text("blip", (end + GAP, top), theme.SMALL, theme.THROTTLE)
            return
    _word(canvas, frame, "blip", frame.floor - theme.SMALL * 0.5, theme.THROTTLE)


def _clutch(canvas: Paper, frame: Frame, now: Deviation) -> None:
    """Draw the clutch as a line in the strip of the throttle, with its name left of it."""
    if now.clutch is None:
        return
    axes = frame.axes
    inside = np.flatnonzero((now.time >= axes.first) & (now.time <= axes.last))
    line = [
        (axes.across(float(now.time[k])), _raised(frame, float(now.clutch[k])))
        for k in _thinned(inside)
    ]
    canvas.curve(line, theme.CLUTCH, 5)
    _word(canvas, frame, "clutch", frame.floor - theme.SMALL * 1.5, theme.CLUTCH)


def _shifts(canvas: Paper, frame: Frame, now: Deviation) -> None:
    """Draw an arrow at each press of the shift button, under the strip, its name left of it."""
    axes, top, (half, high) = frame.axes, frame.floor + 4, PRESS
    presses = [axes.across(at) for at in now.shifts if axes.first <= at <= axes.last]
    for x in presses:
        canvas.shape([(x, top), (x + half, top + high), (x - half, top + high)], theme.TEXT)
    if presses:
        _word(canvas, frame, "shift", top + high / 2 + theme.SMALL * 0.5, theme.TEXT)
