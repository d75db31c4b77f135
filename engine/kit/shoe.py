"""The shoe that marks the player's stage on the climb: a driving shoe from its side."""

from __future__ import annotations

from engine.kit import theme
from engine.kit.canvas import Canvas, Point
from engine.kit.outline import smooth_through

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
UPPER = smooth_through(UPPER_TURNS, is_closed=True)
"""Outline of the upper: points in canvas units right of the heel and above it."""
SOLE = smooth_through(SOLE_TURNS, is_closed=True)
"""Outline of the sole: points in canvas units right of the heel and above it."""
STRAP = smooth_through(STRAP_TURNS, is_closed=False)
"""Line of the strap: points in canvas units right of the heel and above it."""


def draw_shoe(canvas: Canvas, heel: Point) -> None:
    """Draw the shoe; `heel` is the back end of its sole, on the ground."""
    upper, sole, strap = (
        [(heel[0] + right, heel[1] - up) for right, up in part] for part in (UPPER, SOLE, STRAP)
    )
    canvas.shape(upper, theme.TEXT)
    canvas.shape(sole, theme.FAINT)
    canvas.curve(strap, theme.GROUND, STRAP_WIDTH)
