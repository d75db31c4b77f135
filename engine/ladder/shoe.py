"""The shoe that marks the player's stage on the climb: a driving shoe from its side."""

from __future__ import annotations

from collections.abc import Sequence

from engine.kit import theme
from engine.kit.canvas import Canvas, Point

LENGTH = 98
"""Length of the shoe from heel to toe, in canvas units."""
TALL = 80
"""Height of the shoe from its sole to its collar, in canvas units."""
TURNS = (
    *((9, 0), (44, 1), (74, 0), (86, 2), (95, 7), (98, 14), (94, 21), (84, 26), (70, 32)),
    *((58, 40), (51, 52), (48, 66), (48, 77), (45, 80), (30, 79), (14, 77), (10, 74), (10, 61)),
    *((8, 46), (4, 30), (1, 16), (2, 6)),
)
"""Points that the outline of the shoe goes through, in canvas units right of its heel and up."""
SOLE = ((4, 13), (21, 10), (52, 10), (79, 10), (96, 14))
"""Points of the seam between sole and upper, in canvas units right of the heel and up."""
STRAP = ((30, 47), (42, 50), (52, 50))
"""Points of the strap across the ankle, in canvas units right of the heel and up."""
FINE = 5
"""Number of straight pieces between two points of a smooth curve."""


def smooth_through(points: Sequence[Point], *, is_closed: bool) -> list[Point]:
    """Points of a smooth curve through some points (Catmull & Rom 1974), closed or open."""
    if is_closed:
        ring = [points[-1], *points, points[0], points[1]]
    else:
        ring = [points[0], *points, points[-1]]
    fours = zip(ring, ring[1:], ring[2:], ring[3:], strict=False)
    curve = [_between(*four, part / FINE) for four in fours for part in range(FINE)]
    return curve if is_closed else [*curve, points[-1]]


def _between(before: Point, start: Point, end: Point, after: Point, share: float) -> Point:
    """Point of the smooth curve at a share of the way from `start` to `end`."""

    def along(a: float, b: float, c: float, d: float) -> float:
        bend = (2 * a - 5 * b + 4 * c - d) * share**2 + (3 * b - a - 3 * c + d) * share**3
        return b + ((c - a) * share + bend) / 2

    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = before, start, end, after
    return along(x0, x1, x2, x3), along(y0, y1, y2, y3)


OUTLINE = tuple(smooth_through(TURNS, is_closed=True))
"""Outline of the shoe: points in canvas units right of its heel and above it."""
SEAMS = tuple(tuple(smooth_through(seam, is_closed=False)) for seam in (SOLE, STRAP))
"""Lines on the shoe: the seam of the sole and the strap, as points like those of the outline."""


def draw_shoe(canvas: Canvas, heel: Point) -> None:
    """Draw the shoe; `heel` is the back end of its sole, on the ground."""
    x, y = heel
    canvas.shape([(x + right, y - up) for right, up in OUTLINE], theme.TEXT)
    for seam, line in zip(SEAMS, (3.5, 6.0), strict=True):
        canvas.curve([(x + right, y - up) for right, up in seam], theme.GROUND, line)
