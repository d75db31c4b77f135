"""The foot on its pedals, from behind the heel and from above, as far as they are pressed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from engine.kit import theme
from engine.kit.canvas import Canvas, Colour, Point
from engine.kit.foot_above import draw_above
from engine.kit.foot_behind import draw_behind
from engine.kit.foot_pose import BRAKE_FACE, CLUTCH_FACE, THROTTLE_FACE, Pressed, Way, pose_of
from engine.kit.foot_view import View

BEHIND = {False: (-9.4, 11.6, 20.7), True: (-22.6, 11.6, 20.7)}
"""Left end, right end and height of the view from behind in cm, without and with a clutch."""
ABOVE = {False: (-9.9, 10.5, 31.1), True: (-22.6, 10.5, 31.1)}
"""Left end, right end and height of the view from above in cm, without and with a clutch."""
TOE = 10.2
"""Top of the view from above: cm forward of the ball."""
FLOOR = 0.3
"""Height of the floor above the lower end of the view from behind, in cm."""
FROM_ABOVE = 0.3
"""Largest share of an area's width that the view from above takes."""
WORDS = theme.SMALL * 1.25
"""Height below the view from behind for the names of the pedals, in canvas units."""
BESIDE = {False: 1.3, True: 2.0}
"""Width to height of an area from which on both views are drawn, not only that from behind, without
and with a clutch."""
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


@dataclass(frozen=True)
class _Word:
    """Name of a pedal below it."""

    name: str
    """The name."""
    middle: float
    """Middle of the word, in canvas units."""
    half: float
    """Half of the word's width, in canvas units."""
    colour: Colour
    """Colour of the pedal."""


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
    pose, has_clutch = pose_of(pressed, way), pressed.clutch is not None
    ends = BEHIND[has_clutch]
    left2, right2, tall2 = ABOVE[has_clutch]
    gap, scale2 = 0.0, 0.0
    if width >= BESIDE[has_clutch] * height:
        gap = width * GAP
        scale2 = min((height - WORDS) / tall2, width * FROM_ABOVE / (right2 - left2))
    free = width - gap - scale2 * (right2 - left2)
    area = (x, y), (free, height)
    view = _view(canvas, area, ends, WORDS)
    words = _words(view, has_clutch)
    if not (with_words and _fit(words, x, x + width)):
        view, words = _view(canvas, area, ends, 0.0), []
    draw_behind(view, pose, pressed, way)
    top = view.at((0.0, -FLOOR))[1] + WORDS - theme.SMALL
    for word in words:
        canvas.text(word.name, (word.middle, top), theme.SMALL, word.colour, "centre")
    if scale2:
        end = view.at((ends[1], 0.0))[0] + gap + scale2 * (right2 - left2)
        low = view.at((0.0, 0.0))[1]
        forward = max(low + (TOE - tall2) * scale2, y + TOE * scale2)
        origin = end - right2 * scale2, forward
        draw_above(View(canvas, origin, scale2), pose, pressed, way)


def _view(
    canvas: Canvas,
    area: tuple[Point, Point],
    ends: tuple[float, float, float],
    below: float,
) -> View:
    """View from behind in the middle of an area, with a height left free below it."""
    (x, y), (width, height) = area
    left, right, tall = ends
    scale = min((height - below) / tall, width / (right - left))
    start = x + (width - scale * (right - left)) / 2
    low = y + (height + tall * scale - below) / 2
    return View(canvas, (start - left * scale, low - FLOOR * scale), scale)


def _words(view: View, has_clutch: bool) -> list[_Word]:
    """Name of each pedal under the middle of its face."""
    return [
        _Word(
            name,
            view.at((sum(face) / 2, 0.0))[0],
            view.canvas.measure(name, theme.SMALL) / 2,
            colour,
        )
        for name, face, colour in NAMES[not has_clutch :]
    ]


def _fit(words: Sequence[_Word], left: float, right: float) -> bool:
    """Whether words lie between two ends and none comes too near to the next."""
    return (
        left <= words[0].middle - words[0].half
        and words[-1].middle + words[-1].half <= right
        and all(
            word.middle + word.half + LETTERS <= after.middle - after.half
            for word, after in pairwise(words)
        )
    )
