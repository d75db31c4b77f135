"""Overlay of the curves of several repetitions, with their median in bold."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from drills.deviation import Deviation
from drills.typical import median_of, on_line_of
from engine.kit import deviation_plot, theme
from engine.kit.canvas import Canvas, Point

LEAST = 280
"""Smallest height of an overlay at which curves and limits can be told apart, in canvas units."""


def comparable(pictures: Sequence[Deviation]) -> list[Deviation]:
    """Deviations that can be drawn together: those with the time span and zero that most have.

    If several spans or zeros are equally common, the latest one counts. Brakes that come down are
    drawn about the line asked of the latest.
    """
    measured = [picture for picture in pictures if picture.is_measured]
    if not measured:
        return []
    scales = [(picture.span, picture.zero) for picture in measured]
    times = Counter(scales)
    most = max(reversed(scales), key=lambda scale: times[scale])
    alike = [picture for picture, scale in zip(measured, scales, strict=True) if scale == most]
    return [on_line_of(picture, alike[-1]) for picture in alike]


def median_curve(pictures: Sequence[Deviation]) -> Deviation:
    """Median of several deviations without limits, on a scale with room for each."""
    reach = max(picture.reach for picture in pictures)
    return replace(median_of(pictures), bounds=(), reach=reach)


def typical_words(count: int) -> str:
    """What the bold curve of so many repetitions is, such as "typical of 10"."""
    return f"typical of {count}" if count > 1 else "one repetition"


def draw_overlay(
    canvas: Canvas,
    corner: Point,
    size: Point,
    pictures: Sequence[Deviation],
) -> None:
    """Draw the deviations that are comparable over one another, with their median in bold.

    Nothing is drawn if there are none, or if the rectangle is too low.
    """
    drawn = comparable(pictures)
    if not drawn or size[1] < LEAST:
        return
    right = (corner[0] + size[0], corner[1] + 2)
    canvas.text(typical_words(len(drawn)), right, theme.SMALL, theme.QUIET, "right")
    deviation_plot.deviation(canvas, corner, size, median_curve(drawn), drawn)
