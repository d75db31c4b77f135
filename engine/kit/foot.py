"""The foot on its pedals, from behind the heel and from above, as far as they are pressed."""

from __future__ import annotations

from engine.kit import theme
from engine.kit.canvas import Canvas, Point
from engine.kit.foot_pose import Pressed, Way

REACH = 0.12
"""Distance that a drawn pedal sinks when fully pressed, as a share of the picture's height."""
SOLE = {Way.ROLL: 0.3, Way.HEEL: 0.25}
"""Middle of the sole, as a share of the picture's width."""


def draw_foot(canvas: Canvas, corner: Point, size: Point, pressed: Pressed, way: Way) -> None:
    """Draw the foot and its pedals in an area: from behind on its left, from above right."""
    (x, y), (width, height) = corner, size
    for part, percent, colour in (
        (0.25, pressed.brake, theme.BRAKE),
        (0.6, pressed.throttle, theme.THROTTLE),
    ):
        at = y + height * (0.6 + REACH * percent / 100)
        canvas.box((x + width * (part - 0.12), at), (width * 0.24, height * 0.05), colour, 8)
    sunk = height * (0.5 + REACH * pressed.brake / 100)
    canvas.box((x + width * (SOLE[way] - 0.15), y + sunk), (width * 0.4, height * 0.1), theme.TEXT)
