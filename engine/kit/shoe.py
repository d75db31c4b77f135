"""The shoe that marks the player's stage on the climb: a driving shoe from its side."""

from __future__ import annotations

from collections.abc import Sequence

from engine.kit import theme
from engine.kit.canvas import Canvas, Point

LENGTH = 98
"""Length of the shoe from heel to toe, in canvas units."""
TALL = 80
"""Height of the shoe from its sole to its collar, in canvas units."""
UPPER_TURNS = (
    *((3, 8), (44, 8), (80, 8), (94, 10), (98, 15), (94, 22), (84, 27), (70, 32), (58, 40)),
    *((51, 52), (48, 66), (49, 78), (45, 81), (30, 79), (14, 77), (10, 73), (10, 60), (8, 45)),
    *((4, 30), (1, 17)),
)
"""Points that the outline of the upper goes through, in canvas units right of the heel and up."""
SOLE_TURNS = (
    *((4, 0), (40, 0), (74, 0), (88, 2), (97, 9), (96, 11), (80, 8), (44, 8), (4, 8), (0, 7)),
    (1, 2),
)
"""Points that the outline of the sole goes through, in canvas units right of the heel and up."""
STRAP_TURNS = ((27, 47), (40, 51), (53, 51))
"""Points of the strap across the ankle, in canvas units right of the heel and up."""
STRAP_WIDTH = 6
"""Width of the strap, in canvas units."""
FINE = 5
"""Number of straight pieces between two points of a smooth curve."""


def _smooth_through(points: Sequence[Point], *, is_closed: bool) -> tuple[Point, ...]:
    """Points of a smooth curve through some points (Catmull & Rom 1974), closed or open."""
    if is_closed:
        ring = [points[-1], *points, points[0], points[1]]
    else:
        ring = [points[0], *points, points[-1]]
    fours = zip(ring, ring[1:], ring[2:], ring[3:], strict=False)
    curve = [_between(*four, part / FINE) for four in fours for part in range(FINE)]
    return tuple(curve) if is_closed else (*curve, points[-1])


def _between(before: Point, start: Point, end: Point, after: Point, share: float) -> Point:
    """Point of the smooth curve at a share of the way from `start` to `end`."""

    def along(a: float, b: float, c: float, d: float) -> float:
        bend = (2 * a - 5 * b + 4 * c - d) * share**2 + (3 * b - a - 3 * c + d) * share**3
        return b + ((c - a) * share + bend) / 2

    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = before, start, end, after
    return along(x0, x1, x2, x3), along(y0, y1, y2, y3)


UPPER = _smooth_through(UPPER_TURNS, is_closed=True)
"""Outline of the upper: points in canvas units right of the heel and above it."""
SOLE = _smooth_through(SOLE_TURNS, is_closed=True)
"""Outline of the sole: points in canvas units right of the heel and above it."""
STRAP = _smooth_through(STRAP_TURNS, is_closed=False)
"""Line of the strap: points in canvas units right of the heel and above it."""


def draw_shoe(canvas: Canvas, heel: Point, scale: float = 1.0) -> None:
    """Draw the shoe; `heel` is the back end of its sole, on the ground.

    It is `scale` times as large as on the climb.
    """
    upper, sole, strap = (
        [(heel[0] + right * scale, heel[1] - up * scale) for right, up in part]
        for part in (UPPER, SOLE, STRAP)
    )
    canvas.shape(upper, theme.TEXT)
    canvas.shape(sole, theme.FAINT)
    canvas.curve(strap, theme.GROUND, STRAP_WIDTH * scale)
