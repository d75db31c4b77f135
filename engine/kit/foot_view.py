"""View of the foot: a piece of a canvas that is drawn on in cm, and the tones of a shoe."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

from engine.kit import theme
from engine.kit.canvas import Canvas, Colour, Point
from engine.kit.outline import ribbon, smooth_through


def mixed(colour: Colour, other: Colour, share: float) -> Colour:
    """Colour on the way from one to another, by a share of 0 to 1."""
    red, green, blue = (
        round(one + (two - one) * share) for one, two in zip(colour, other, strict=True)
    )
    return red, green, blue


UPPER = theme.TEXT
"""Colour of the shoe's upper where it is nearest."""
SHADE = mixed(theme.TEXT, theme.GROUND, 0.1)
"""Colour of the upper where it turns away."""
FAR = mixed(theme.TEXT, theme.GROUND, 0.2)
"""Colour of the part of the upper that is farther away."""
SOLE = mixed(theme.TEXT, theme.GROUND, 0.45)
"""Colour of the sole's edge."""
LEG_COLOUR = mixed(theme.TEXT, theme.GROUND, 0.6)
"""Colour of the sock and the leg."""
SEAM = mixed(theme.TEXT, theme.GROUND, 0.34)
"""Colour of seams and laces on the upper."""
CREASE = mixed(theme.TEXT, theme.GROUND, 0.75)
"""Colour of lines on the sock and the leg."""
STEM = theme.BAND
"""Colour of the stems of pedals and of the floor."""
PIECES = 4
"""Number of straight pieces between two points of an outline: more cannot be seen, and cost."""
SEAM_PIECES = 3
"""The same of a seam, which is shorter."""
DIM = 0.5
"""Share by which the face of a pedal that is not pressed is darker."""
FULL = 12.0
"""Travel at which the face of a pressed pedal has its full colour, in %."""
GLOW = 1.0
"""Strength of the glow at a contact of a fully pressed pedal."""
FAINTEST = 0.4
"""Strength of the glow at a contact as it begins."""


def closed(*points: Point) -> tuple[Point, ...]:
    """Smooth outline through points."""
    return smooth_through(points, is_closed=True, pieces=PIECES)


def seam(width: float, *points: Point) -> tuple[Point, ...]:
    """Outline of a smooth line through points, `width` cm wide."""
    return ribbon(smooth_through(points, is_closed=False, pieces=SEAM_PIECES), width)


def face_colour(colour: Colour, percent: float) -> Colour:
    """Colour of the face of a pedal pressed so far: dim at rest."""
    return mixed(theme.GROUND, colour, 1 - DIM * (1 - min(max(percent, 0.0) / FULL, 1.0)))


def glow_strength(percent: float, gap: float) -> float:
    """Strength of the glow at a contact, 0 to 1; none where the foot does not touch the pedal."""
    if gap > 0 or percent <= 0:
        return 0.0
    return FAINTEST + (GLOW - FAINTEST) * min(percent, 100.0) / 100


@dataclass(frozen=True)
class View:
    """Piece of a canvas, drawn on in cm right of an origin and up from it."""

    canvas: Canvas
    """Canvas that is drawn on."""
    origin: Point
    """Place of the origin, in canvas units."""
    scale: float
    """Size of a cm, in canvas units."""

    def at(self, point: Point) -> Point:
        """Place of a point on the canvas."""
        return self.origin[0] + point[0] * self.scale, self.origin[1] - point[1] * self.scale

    def fill(self, points: Sequence[Point], colour: Colour) -> None:
        """Draw a filled polygon."""
        (left, low), scale = self.origin, self.scale
        self.canvas.moving_shape([(left + x * scale, low - y * scale) for x, y in points], colour)

    @contextmanager
    def above(self, height: float) -> Iterator[None]:
        """Draw only above a height in cm, as long as this lasts."""
        low = self.at((0.0, height))[1]
        with self.canvas.clipped(self.canvas.pixels((0.0, 0.0), (theme.WIDTH, low))):
            yield

    def box(self, low: Point, high: Point, colour: Colour, radius: float = 0.0) -> None:
        """Draw a rectangle between its lower left and its upper right corner."""
        corner, end = self.at((low[0], high[1])), self.at((high[0], low[1]))
        size = end[0] - corner[0], end[1] - corner[1]
        self.canvas.box(corner, size, colour, radius * self.scale)

    def veil(self, low: Point, high: Point, colour: Colour, radius: float, strength: float) -> None:
        """Tint a rectangle between its lower left and its upper right corner."""
        corner, end = self.at((low[0], high[1])), self.at((high[0], low[1]))
        size = end[0] - corner[0], end[1] - corner[1]
        self.canvas.veil(corner, size, colour, radius * self.scale, strength)

    def glow(self, centre: Point, radius: float, colour: Colour, strength: float) -> None:
        """Draw light around a point."""
        self.canvas.glow(self.at(centre), radius * self.scale, colour, strength)
