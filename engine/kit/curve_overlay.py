"""The curves of several repetitions on top of each other, about their middle."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from drills.deviation import Deviation, median_of
from engine.kit import deviation_plot, theme
from engine.kit.canvas import Canvas, Point

LEAST = 280
"""units, least height of a picture in which a curve and its limits can be told."""


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


def middle_of(shown: Sequence[Deviation]) -> Deviation:
    """Their middle on a scale that has room for each, with the limits that all of them have."""
    labels = [{bound.label for bound in one.bounds} for one in shown]
    middle = median_of(shown)
    common = set.intersection(*labels)
    bounds = tuple(bound for bound in middle.bounds if bound.label in common)
    return replace(middle, bounds=bounds, reach=max(one.reach for one in shown))


def together(
    canvas: Canvas,
    corner: Point,
    size: Point,
    pictures: Sequence[Deviation],
    named: str = "",
    *,
    judged: bool = True,
) -> None:
    """Draw those that are alike into a rectangle; nothing where there are none, or no room.

    `named` is what they are of, where nothing else says so; `judged`: their limits are drawn.
    """
    shown = alike(pictures)
    if not shown or size[1] < LEAST:
        return
    several = len(shown) > 1
    said = f"{len(shown)} repetitions, their middle bold" if several else "one repetition"
    said = canvas.fitted(f"{named}: {said}" if named else said, size[0] / 2, theme.SMALL)
    canvas.text(said, (corner[0], corner[1] + 2), theme.SMALL, theme.QUIET)
    middle = middle_of(shown)
    deviation_plot.deviation(
        canvas, corner, size, middle if judged else replace(middle, bounds=()), shown
    )
