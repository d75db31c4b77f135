"""The foot on its pedals, from behind the heel and from above, as far as they are pressed."""

from __future__ import annotations

from itertools import pairwise

from engine.kit import theme
from engine.kit.canvas import Canvas, Colour, Point
from engine.kit.foot_above import draw_above
from engine.kit.foot_behind import draw_behind
from engine.kit.foot_pose import BRAKE_FACE, CLUTCH_FACE, THROTTLE_FACE, Pressed, Way, pose_of
from engine.kit.foot_view import View

BEHIND = (-9.2, 10.6, 22.0)
"""Left end, right end and height of the view from behind, in cm."""
ABOVE = (-8.6, 10.2, 30.0)
"""Left end, right end and height of the view from above, in cm."""
TOE = 10.6
"""Top of the view from above: cm forward of the ball."""
CLUTCH_LEFT = -23.0
"""Left end of the view from behind with a clutch, in cm."""
BESIDE = 1.3
"""Width to height of an area from which on both views are drawn, not only that from behind."""
GAP = 0.05
"""Gap between the views, as a share of the area's width."""
LETTERS = 12.0
"""Smallest gap between two words under pedals, in canvas units."""
NAMES = (
    ("clutch", CLUTCH_FACE, theme.CLUTCH),
    ("brake", BRAKE_FACE, theme.BRAKE),
    ("throttle", THROTTLE_FACE, theme.THROTTLE),
)
"""Word, face and colour of each pedal, from left to right."""


def draw_foot(
    canvas: Canvas,
    corner: Point,
    size: Point,
    pressed: Pressed,
    way: Way,
    *,
    with_words: bool = True,
) -> None:
    """Draw the foot and its pedals in an area: from behind on its left, from above right.

    An area that is not wide shows the view from behind alone. The names of the pedals stand under
    them where `with_words` asks for them and the pedals are far enough apart.
    """
    (x, y), (width, height) = corner, size
    pose = pose_of(pressed, way)
    has_above = width >= BESIDE * height
    left = BEHIND[0] if pressed.clutch is None else CLUTCH_LEFT
    words = theme.SMALL * 1.25 if with_words else 0.0
    free = width * (1 - GAP) if has_above else width
    across = BEHIND[1] - left
    above_scale = min(height / ABOVE[2], free * 0.45 / (ABOVE[1] - ABOVE[0])) if has_above else 0.0
    above_wide = above_scale * (ABOVE[1] - ABOVE[0])
    scale = min((height - words) / BEHIND[2], (free - above_wide) / across)
    used = scale * across + above_wide + (width * GAP if has_above else 0.0)
    start = x + (width - used) / 2
    low = y + (height + BEHIND[2] * scale - words) / 2
    view = View(canvas, (start - left * scale, low - 0.3 * scale), scale)
    draw_behind(view, pose, pressed, way)
    if with_words:
        _names(view, pressed.clutch is not None, low + theme.SMALL * 0.2)
    if has_above:
        origin = start + used - ABOVE[1] * above_scale, y + height / 2 + (TOE - 15.0) * above_scale
        draw_above(View(canvas, origin, above_scale), pose, pressed, way)


def _names(view: View, has_clutch: bool, top: float) -> None:
    """Write the names of the pedals under them, if none comes too near to the next."""
    words: list[tuple[str, float, Colour]] = [
        (name, view.at((sum(face) / 2, 0.0))[0], colour)
        for name, face, colour in NAMES
        if has_clutch or name != "clutch"
    ]
    ends = [(x, view.canvas.measure(name, theme.SMALL) / 2) for name, x, _ in words]
    if all(x + half + LETTERS <= x2 - half2 for (x, half), (x2, half2) in pairwise(ends)):
        for name, x, colour in words:
            view.canvas.text(name, (x, top), theme.SMALL, colour, "centre")
