"""The picture at the reveal: deviation from what was held, this repetition bold, others faint."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from drills.deviation import Deviation
from engine.screens import theme
from engine.screens.canvas import Canvas, Point

LEAST_REACH = 10.0
"""%, least deviation that the picture spans up and down."""
POINTS = 700
"""count of points a curve is drawn with: one for every other pixel of a wide window."""

NEARLY = 0.01
"""s, a picture that begins or ends this close to a whole second is labelled there."""


def deviation(
    canvas: Canvas,
    corner: Point,
    size: Point,
    now: Deviation,
    before: Sequence[Deviation],
    tolerance: float,
) -> None:
    """Draw the picture into a rectangle, with the tolerance as a band about what was held."""
    largest = max(float(np.max(np.abs(picture.deviation))) for picture in (now, *before))
    reach = 5 * math.ceil(max(LEAST_REACH, 1.3 * tolerance, 1.08 * largest) / 5)
    start, stop = float(now.time[0]), float(now.time[-1])
    left, top, width, height = corner[0] + 150, corner[1], size[0] - 150, size[1] - 54
    middle = top + height / 2

    def across(time: float) -> float:
        return left + width * (time - start) / (stop - start)

    def down(percent: float) -> float:
        return middle - height / 2 * min(max(percent / reach, -1.0), 1.0)

    canvas.box((left, top), (width, height), theme.RAISED, 8)
    canvas.box((left, down(tolerance)), (width, down(-tolerance) - down(tolerance)), theme.BAND)
    canvas.line((left, middle), (left + width, middle), theme.QUIET, 2)
    for percent in (tolerance, 0.0, -tolerance):
        label = "held" if percent == 0 else f"{percent:+.0f} %"
        canvas.text(label, (left - 16, down(percent) - 16), theme.SMALL, theme.QUIET, "right")
    if now.blip is not None:
        first, last = across(now.blip[0]), across(min(now.blip[1], stop))
        canvas.box((first, top + height - 14), (last - first, 14), theme.THROTTLE, 4)
        canvas.text("blip", (last + 14, top + height - 36), theme.SMALL, theme.QUIET)
    for second in range(math.ceil(start - NEARLY), math.floor(stop + NEARLY) + 1):
        canvas.line(
            (across(second), top + height), (across(second), top + height + 10), theme.FAINT
        )
        canvas.text(
            f"{second} s", (across(second), top + height + 16), theme.SMALL, theme.QUIET, "centre"
        )

    def curve(picture: Deviation) -> list[Point]:
        shown = np.flatnonzero((picture.time >= start) & (picture.time <= stop))
        chosen = shown[:: max(len(shown) // POINTS, 1)]
        return [(across(float(picture.time[k])), down(float(picture.deviation[k]))) for k in chosen]

    for picture in before:
        canvas.curve(curve(picture), theme.EARLIER, 2)
    canvas.curve(curve(now), theme.BRAKE, 7)
