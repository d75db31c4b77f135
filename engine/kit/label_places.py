"""`LabelPlaces`: writes labels of a plot where they cover no other and, if possible, no curve."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from engine.kit import theme
from engine.kit.area import Area
from engine.kit.canvas import Colour, Point
from engine.kit.charts import Paper
from engine.kit.typeface import Weight

INK = (-0.14, 0.74)
"""Part of a line of text that its letters may cover, from its top, as shares of its height; its
middle is that of the capitals."""
FINE = 8
"""Number of points between two neighbours of a curve at which labels are kept off it."""
GRID = 40.0
"""Distance between the places that are tried where none of those asked for is free, in canvas
units."""


class LabelPlaces:
    """Labels that are written inside a frame, and what they have to keep off."""

    def __init__(self, canvas: Paper, frame: Area) -> None:
        self._canvas = canvas
        self._frame = frame
        self._taken: list[Area] = []
        self._points = np.empty((0, 2))

    def keep_off(self, area: Area) -> None:
        """Write no label on this rectangle."""
        self._taken.append(area)

    def spare_curve(self, points: Sequence[Point], width: float) -> None:
        """Write labels on this curve, of a width in canvas units, only where nothing else is free.

        Its width counts to both sides, so that a gap stays between curve and label.
        """
        if len(points) < 2:
            return
        corners = np.array(points)
        between = np.linspace(0.0, len(corners) - 1, (len(corners) - 1) * FINE + 1)
        number = np.arange(len(corners), dtype=np.int64)
        fine = np.column_stack([np.interp(between, number, corners[:, axis]) for axis in (0, 1)])
        around = [
            fine + offset for offset in ((0.0, width), (0.0, -width), (width, 0), (-width, 0))
        ]
        self._points = np.concatenate([self._points, *around])

    def half(self, text: str, size: float, weight: Weight = Weight.REGULAR) -> Point:
        """Half the width and half the height that a line of text covers, in canvas units."""
        wide = self._canvas.measure(text, size, weight)
        return wide / 2, size * (INK[1] - INK[0]) / 2

    def write(
        self,
        text: str,
        size: float,
        colour: Colour,
        wanted: Iterable[Point],
        weight: Weight = Weight.REGULAR,
    ) -> bool:
        """Write a line of text with its middle at the best of the places `wanted`, or else near.

        The first of them that is free is the best; then the one of all places in the frame that
        covers least of the curves and is nearest to the first. Returns whether it was written:
        where every place covers another label, it is not.
        """
        half = self.half(text, size, weight)
        places = [*wanted]
        best: tuple[int, Area] | None = None
        for place in [*places, *self._grid(places[0], half)]:
            area = Area(place[0] - half[0], place[1] - half[1], 2 * half[0], 2 * half[1])
            if self._is_taken(area):
                continue
            covered = self._covered(area)
            if best is None or covered < best[0]:
                best = covered, area
            if covered == 0:
                break
        if best is None:
            return False
        area = best[1]
        if best[0]:
            self._canvas.box((area.left, area.top), (area.width, area.height), theme.GROUND)
        at = area.left, area.top - INK[0] * size
        self._canvas.text(text, at, size, colour, weight=weight)
        self._taken.append(area)
        return True

    def _grid(self, near: Point, half: Point) -> list[Point]:
        """Places all over the frame for a label of half this size, the nearest to a point first."""
        frame = self._frame
        across = np.arange(frame.left + half[0], frame.right - half[0], GRID, dtype=np.float64)
        down = np.arange(frame.top + half[1], frame.bottom - half[1], GRID, dtype=np.float64)
        places = [(float(x), float(y)) for x in across for y in down]
        return sorted(places, key=lambda at: np.hypot(at[0] - near[0], at[1] - near[1]))

    def _is_taken(self, area: Area) -> bool:
        frame = self._frame
        if area.left < frame.left or area.right > frame.right:
            return True
        if area.top < frame.top or area.bottom > frame.bottom:
            return True
        return any(_overlap(area, other) for other in self._taken)

    def _covered(self, area: Area) -> int:
        """Number of points of curves that a rectangle covers."""
        x, y = self._points[:, 0], self._points[:, 1]
        inside = (x >= area.left) & (x <= area.right) & (y >= area.top) & (y <= area.bottom)
        return int(inside.sum())


def _overlap(one: Area, other: Area) -> bool:
    """Whether two rectangles have more than an edge in common."""
    across = one.left < other.right and other.left < one.right
    return across and one.top < other.bottom and other.top < one.bottom
