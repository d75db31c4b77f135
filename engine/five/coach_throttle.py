"""Picture of a fault of the throttle: the typical blip, with what is wrong with it marked."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from drills.deviation import Deviation, Span
from drills.fault import Fault
from drills.trace import Values
from engine.kit import theme
from engine.kit.area import Area
from engine.kit.canvas import Point
from engine.kit.charts import LETTER, Axes, Paper, scale_across
from engine.kit.deciding_lines import CLEAR, NUMBER, SOLID, TICK
from engine.kit.deviation_frame import BELOW, BESIDE, GAP, HANGING, ON
from engine.kit.deviation_plot import RING, THICK, THIN
from engine.kit.label_places import LabelPlaces
from engine.kit.typeface import Weight

FULL = 100.0
"""Throttle at the top of the scale, in %."""
ABOVE = 24.0
"""Space above the line of full throttle for the ring of a blip that reaches it, in canvas units."""
TIMES = ((0.5, "0.5 s"), (1.0, "1 s"))
"""Labels of the scale of time, each with its time in s from the onset of the throttle."""


def draw_throttle(
    paper: Paper, area: Area, typical: Deviation, without: Sequence[Deviation], fault: Fault
) -> None:
    """Draw the throttle of a typical blip over that of blips `without` a fault, thin.

    Its highest place is marked if the blip is too big, its width at half that height if too slow.
    """
    throttle = typical.throttle
    if throttle is None:
        return
    left = 0.0 if area.left == theme.MARGIN else float(HANGING)
    axes = Axes(area.within(left, ABOVE, 0.0, BELOW), *typical.span, 0.0, FULL)
    frame = axes.frame
    hump = _hump(axes, typical.time, throttle)
    paper.shape(hump, theme.BAND)
    paper.line((frame.left, frame.bottom), (frame.right, frame.bottom), theme.BAND, 3)
    paper.line((frame.left, frame.top), (frame.right, frame.top), theme.FAINT, 3)
    at = frame.left - BESIDE, frame.top - LETTER
    paper.text("full", at, theme.SMALL, theme.QUIET, "right")
    scale_across(paper, axes, TIMES)
    labels = LabelPlaces(paper, frame)
    for one in without:
        if one.throttle is not None:
            line = _hump(axes, one.time, one.throttle)
            labels.spare_curve(line, THIN)
            paper.curve(line, theme.EARLIER, THIN)
    labels.spare_curve(hump, THICK)
    paper.curve(hump, theme.THROTTLE, THICK)
    at = hump[-1][0] + GAP, frame.bottom - theme.SMALL
    paper.text("blip", at, theme.SMALL, theme.THROTTLE)
    if fault is Fault.BIG:
        _mark_peak(paper, axes, typical.time, throttle, labels)
    else:
        _mark_width(paper, axes, typical.time, throttle, labels)


def half_width(time: Values, throttle: Values) -> Span:
    """When a blip first and last reaches half of its height, in s."""
    high = np.flatnonzero(throttle >= throttle.max() / 2)
    return float(time[high[0]]), float(time[high[-1]])


def _hump(axes: Axes, time: Values, throttle: Values) -> list[Point]:
    """Line of the blip that has the throttle's highest place, from pressed to released."""
    peak, off = int(np.argmax(throttle)), np.flatnonzero(throttle < ON)
    first = max(off[off < peak], default=-1) + 1
    after = min(off[off > peak], default=throttle.size)
    seen = range(int(first), int(after))
    line = [axes.place(float(time[k]), float(throttle[k])) for k in seen]
    floor = axes.frame.bottom
    return [(line[0][0], floor), *line, (line[-1][0], floor)]


def _mark_peak(
    paper: Paper, axes: Axes, time: Values, throttle: Values, labels: LabelPlaces
) -> None:
    """Draw a ring around the highest place of a blip, and its size beside the blip."""
    high = np.flatnonzero(throttle >= throttle.max() - ON)
    peak = float(throttle.max())
    x, y = axes.place(float(time[high[high.size // 2]]), peak)
    paper.disc((x, y), RING, theme.GROUND)
    paper.disc((x, y), RING, theme.TEXT, 6)
    labels.keep_off(Area(x - RING, y - RING, 2 * RING, 2 * RING))
    _write(axes, f"{peak:.0f} %", (half_width(time, throttle)[1], y), labels)


def _mark_width(
    paper: Paper, axes: Axes, time: Values, throttle: Values, labels: LabelPlaces
) -> None:
    """Draw how wide a blip is at half of its height, and that time beside it."""
    first, last = half_width(time, throttle)
    (left, y), (right, _) = (axes.place(at, float(throttle.max()) / 2) for at in (first, last))
    paper.line((left, y), (right, y), theme.TEXT, SOLID)
    for x in (left, right):
        paper.line((x, y - 2 * TICK), (x, y + 2 * TICK), theme.TEXT, SOLID)
    _write(axes, f"{last - first:.2f} s", (last, y), labels)


def _write(axes: Axes, label: str, beside: Point, labels: LabelPlaces) -> None:
    """Write a number right of a time of a blip, at a height, as near as there is room."""
    half = labels.half(label, NUMBER, Weight.BOLD)
    x = axes.across(beside[0]) + 2 * CLEAR + RING + half[0]
    y = max(beside[1], axes.frame.top + half[1] + CLEAR)
    labels.write(label, NUMBER, theme.TEXT, [(x, y), (x + RING, y)], Weight.BOLD)
