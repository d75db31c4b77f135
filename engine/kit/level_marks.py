"""Marks of a level that is open, passed or retained, and how one becomes the next."""

from __future__ import annotations

import math

from engine.kit import theme
from engine.kit.canvas import Colour, Point
from engine.kit.charts import Paper

RADIUS = 12
"""Radius of the mark of a level that is open or passed, in canvas units."""
RING = 3
"""Line width of a ring round the disc of a retained level, in canvas units."""
OUTLINE = 3.5
"""Line width of the circle of a level that is open, in canvas units."""
RETAINED: tuple[tuple[float, ...], ...] = ((RADIUS,), (8, 14.5), (5.5, 11, 17))
"""Radii of the disc and of the rings round it, in canvas units, by the number of rings."""
WHOLE = 48
"""Number of straight pieces that a whole ring is made of while it closes."""


def draw_open(
    canvas: Paper, centre: Point, colour: Colour = theme.TEXT, scale: float = 1.0
) -> None:
    """Draw the mark of a level that can be played: a circle."""
    canvas.disc(centre, RADIUS * scale, colour, OUTLINE * scale)


def draw_passed(
    canvas: Paper,
    centre: Point,
    colour: Colour = theme.TEXT,
    scale: float = 1.0,
    share: float = 1.0,
) -> None:
    """Draw the mark of a passed level, a disc; `share` (0 to 1) of it fills the circle it was."""
    if share < 1:
        draw_open(canvas, centre, colour, scale)
    if share > 0:
        canvas.disc(centre, RADIUS * scale * share, colour)


def draw_retained(
    canvas: Paper, centre: Point, rings: int, colour: Colour = theme.TEXT, scale: float = 1.0
) -> None:
    """Draw the mark of a retained level: a disc with 1 or 2 rings."""
    disc, *closed = RETAINED[rings]
    canvas.disc(centre, disc * scale, colour)
    for radius in closed:
        canvas.disc(centre, radius * scale, colour, RING * scale)


def draw_closing(
    canvas: Paper,
    centre: Point,
    rings: tuple[int, int],
    share: float,
    colour: Colour = theme.TEXT,
    scale: float = 1.0,
) -> None:
    """Draw the mark of a retained level, of whose outer ring a `share` (0 to 1) is closed.

    `rings` are the numbers of rings before and after. Where there is one more, the disc and the
    other ring become smaller meanwhile, so that there is room for it.
    """
    *inner, outer = RETAINED[rings[1]]
    disc, *closed = (
        (start + (end - start) * share) * scale
        for start, end in zip(RETAINED[rings[0]], inner, strict=False)
    )
    canvas.disc(centre, disc, colour)
    for radius in closed:
        canvas.disc(centre, radius, colour, RING * scale)
    if share >= 1:
        canvas.disc(centre, outer * scale, colour, RING * scale)
    elif share > 0:
        canvas.curve(_arc(centre, (outer - RING / 2) * scale, share), colour, RING * scale)


def _arc(centre: Point, radius: float, share: float) -> list[Point]:
    """Points of a share of a circle, clockwise from its top."""
    pieces = max(math.ceil(WHOLE * share), 1)
    turns = (2 * math.pi * share * piece / pieces for piece in range(pieces + 1))
    x, y = centre
    return [(x + radius * math.sin(turn), y - radius * math.cos(turn)) for turn in turns]
