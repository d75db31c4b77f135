"""The curves of several repetitions on top of each other, about their middle."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from drills.deviation import Deviation, median_of
from engine.screens import plot
from engine.screens.canvas import Canvas, Point

LEAST = 200
"""units, least height of a picture in which a curve can be told."""


def alike(pictures: Sequence[Deviation]) -> list[Deviation]:
    """Those that were measured over the time and from the zero that most of them have.

    Where as many have another, the later one counts.
    """
    measured = [one for one in pictures if one.is_measured]
    if not measured:
        return []
    scales = [(one.span, one.zero) for one in measured]
    times = Counter(scales)
    most = max(reversed(scales), key=lambda scale: times[scale])
    return [one for one, scale in zip(measured, scales, strict=True) if scale == most]


def together(canvas: Canvas, corner: Point, size: Point, pictures: Sequence[Deviation]) -> None:
    """Draw those that are alike into a rectangle; nothing where there are none, or no room."""
    shown = alike(pictures)
    if shown and size[1] >= LEAST:
        plot.deviation(canvas, corner, size, median_of(shown), shown)
