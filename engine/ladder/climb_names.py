"""Places for the names of stages above their steps: no name is cut or lies on anything."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from engine.kit import theme
from engine.kit.canvas import Canvas, Point
from engine.kit.typeface import Weight

ABOVE = 50
"""Distance from the top of a name to its step, in canvas units."""
INSET = 4
"""Distance of a name from the end of its step, in canvas units."""


@dataclass(frozen=True)
class Box:
    """Rectangle on a screen, in canvas units."""

    left: float
    """Left edge, in canvas units."""
    top: float
    """Upper edge, in canvas units."""
    right: float
    """Right edge, in canvas units."""
    bottom: float
    """Lower edge, in canvas units."""

    def overlaps(self, other: Box) -> bool:
        """Whether the two have any part in common."""
        beside = self.right <= other.left or other.right <= self.left
        return not (beside or self.bottom <= other.top or other.bottom <= self.top)

    def contains(self, other: Box) -> bool:
        """Whether all of another is inside this one."""
        inside = self.left <= other.left and other.right <= self.right
        return inside and self.top <= other.top and other.bottom <= self.bottom


@dataclass(frozen=True)
class PlacedName:
    """Name of a stage with its place above a step."""

    lines: tuple[str, ...]
    """Name of the stage, in one line or broken into two between its words."""
    area: Box
    """Box that the lines cover."""

    @property
    def corner(self) -> Point:
        """Left end of the top of the first line, in canvas units."""
        return self.area.left, self.area.top


def name_height(canvas: Canvas, name: str, width: float) -> float:
    """Room in canvas units that a name needs above a step of a width in canvas units.

    A name that is wider than its step takes two lines, where it has two words.
    """
    wide = INSET + canvas.measure(name, theme.SMALL, Weight.BOLD) > width
    return ABOVE + theme.SMALL * (wide and len(name.split()) > 1)


def place_name(
    canvas: Canvas,
    name: str,
    step: Box,
    weight: Weight,
    room: Box,
    taken: Sequence[Box],
    raised: float = 0.0,
) -> PlacedName | None:
    """Place for a name above its step inside `room`; None if there is none clear of `taken`.

    On the step stands something `raised` canvas units tall, which the name may have to clear. A
    place no wider than the step comes first: beside it are the names of others.
    """
    places = [
        placed
        for lift in dict.fromkeys((0.0, raised))
        for placed in _places(canvas, name, step, weight, step.top - ABOVE - lift)
        if room.contains(placed.area) and not any(map(placed.area.overlaps, taken))
    ]
    return min(places, key=lambda placed: _is_beside(placed.area, step), default=None)


def _is_beside(area: Box, step: Box) -> bool:
    """Whether an area reaches beyond either end of a step."""
    return area.left < step.left or area.right > step.right


def _places(
    canvas: Canvas, name: str, step: Box, weight: Weight, low: float
) -> Iterator[PlacedName]:
    """Places for a name whose last line has its top at `low`, the best first."""

    def measured(line: str) -> float:
        return canvas.measure(line, theme.SMALL, weight)

    left, right = step.left + INSET, step.right - INSET
    whole = measured(name)
    yield PlacedName((name,), Box(left, low, left + whole, low + theme.SMALL))
    words = name.split()
    halves = [(" ".join(words[:count]), " ".join(words[count:])) for count in range(1, len(words))]
    if halves:
        wide, lines = min((max(map(measured, lines)), lines) for lines in halves)
        yield PlacedName(lines, Box(left, low - theme.SMALL, left + wide, low + theme.SMALL))
    yield PlacedName((name,), Box(right - whole, low, right, low + theme.SMALL))
