"""Recording of a drawn foot: its pieces, the faces of the pedals and the lights, in cm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import pygame

from engine.kit import theme
from engine.kit.canvas import Canvas, Colour, Fonts, Point
from engine.kit.foot_above import draw_above
from engine.kit.foot_behind import draw_behind
from engine.kit.foot_pose import Pressed, Way, pose_of
from engine.kit.foot_view import View

SCALE = 10.0
"""Size of a cm, in canvas units."""
ORIGIN = (900.0, 600.0)
"""Place of the view's origin, in canvas units."""


@dataclass(frozen=True)
class Piece:
    """One polygon of a drawn foot."""

    colour: Colour
    """Colour that fills it."""
    points: list[Point]
    """Corners, in cm right of the origin and up from it."""


@dataclass(frozen=True)
class Light:
    """One glow at a contact."""

    colour: Colour
    """Colour of the pedal."""
    centre: Point
    """Its middle, in cm right of the origin and up from it."""
    strength: float
    """Strength, 0 to 1."""


@dataclass
class Drawn:
    """Everything that one view of a foot draws, in cm."""

    pieces: list[Piece] = field(default_factory=list)
    """Polygons, in the order in which they are drawn."""
    faces: dict[Colour, tuple[Point, Point]] = field(default_factory=dict)
    """Upper left and lower right corner of each box, by its colour."""
    lights: list[Light] = field(default_factory=list)
    """Glows."""


class InCm(Canvas):
    """Canvas that records what a view draws on it."""

    def __init__(self) -> None:
        pygame.font.init()
        super().__init__(pygame.Surface((theme.WIDTH, theme.HEIGHT)), Fonts())
        self.drawn = Drawn()

    def moving_shape(self, points: Sequence[Point], colour: Colour) -> None:
        """Record a polygon."""
        self.drawn.pieces.append(Piece(colour, [_cm(point) for point in points]))

    def box(
        self, corner: Point, size: Point, colour: Colour, radius: float = 0.0, line: float = 0.0
    ) -> pygame.Rect:
        """Record a box."""
        end = corner[0] + size[0], corner[1] + size[1]
        self.drawn.faces[colour] = _cm(corner), _cm(end)
        return pygame.Rect(0, 0, 0, 0)

    def glow(self, centre: Point, radius: float, colour: Colour, strength: float) -> None:
        """Record a glow."""
        self.drawn.lights.append(Light(colour, _cm(centre), strength))


def _cm(point: Point) -> Point:
    return (point[0] - ORIGIN[0]) / SCALE, (ORIGIN[1] - point[1]) / SCALE


def behind(pressed: Pressed, way: Way) -> Drawn:
    """What the view from behind draws."""
    canvas = InCm()
    draw_behind(View(canvas, ORIGIN, SCALE), pose_of(pressed, way), pressed, way)
    return canvas.drawn


def above(pressed: Pressed, way: Way) -> Drawn:
    """What the view from above draws."""
    canvas = InCm()
    draw_above(View(canvas, ORIGIN, SCALE), pose_of(pressed, way), pressed, way)
    return canvas.drawn
