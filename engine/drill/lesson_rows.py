"""Rows below the foot of a lesson: the course of each pedal that is asked, and a playhead."""

from __future__ import annotations

from collections.abc import Sequence

from drills.trace import Pedal
from engine.drill.lesson_moves import BLIP, LASTS, Moves
from engine.drill.lesson_words import SLOWED
from engine.kit import theme
from engine.kit.canvas import Canvas, Colour, Point
from engine.kit.foot_pose import SETTLED

LEFT = 340.0
"""Left end of the courses, in canvas units."""
RIGHT = float(theme.WIDTH - theme.MARGIN)
"""Right end of the courses, in canvas units."""
TOP = 806.0
"""Top of the first row, in canvas units."""
BOTTOM = 952.0
"""Bottom of the last row, in canvas units."""
BETWEEN = 12.0
"""Gap between two rows, in canvas units."""
SIGNS = 962.0
"""Top of the words for what is seen and heard, in canvas units."""
STEPS = 240
"""Number of straight pieces that a course is drawn with."""
LINE = 6.0
"""Thickness of a course, in canvas units."""
HEAD = 5.0
"""Thickness of the playhead, in canvas units."""
COLOURS: dict[Pedal, Colour] = {
    Pedal.BRAKE: theme.BRAKE,
    Pedal.THROTTLE: theme.THROTTLE,
    Pedal.CLUTCH: theme.CLUTCH,
}
"""Colour of each pedal."""
AREA: tuple[Point, Point] = (
    (LEFT - HEAD, TOP - HEAD),
    (RIGHT - LEFT + 2 * HEAD, BOTTOM - TOP + 2 * HEAD),
)
"""Corner and size of the area in which the playhead moves, in canvas units."""


def draw_rows(canvas: Canvas, moves: Moves, signs: Sequence[str], *, is_moving: bool) -> None:
    """Draw the course of each pedal with its name, and `signs` at their times below.

    Where the foot moves it is said that its blips are slowed.
    """
    pedals = [pedal for pedal in Pedal if _is_drawn(pedal, moves)]
    height = (BOTTOM - TOP - BETWEEN * (len(pedals) - 1)) / len(pedals)
    for number, pedal in enumerate(pedals):
        base = TOP + height + number * (height + BETWEEN)
        canvas.line((LEFT, base), (RIGHT, base), theme.BAND)
        courses = [_percent(pedal, moves, LASTS * step / STEPS) for step in range(STEPS + 1)]
        points = [
            (_across(LASTS * step / STEPS), base - height * percent / 100)
            for step, percent in enumerate(courses)
        ]
        if pedal is Pedal.THROTTLE:
            _fill(canvas, points, base)
        else:
            canvas.curve(points, COLOURS[pedal], LINE)
        middle = base - height / 2 - 0.3 * theme.SMALL
        canvas.text(pedal.value, (theme.MARGIN, middle), theme.SMALL, COLOURS[pedal])
    for at_time, sign in zip(moves.signs, signs, strict=True):
        across = _across(at_time)
        canvas.line((across, TOP), (across, BOTTOM + 8), theme.FAINT)
        canvas.text(sign, (across, SIGNS), theme.SMALL, theme.QUIET, "centre")
    if is_moving and moves.blips:
        at = (_across(moves.blips[-1] + BLIP), SIGNS)
        canvas.text(SLOWED, at, theme.SMALL, theme.THROTTLE)


def draw_playhead(canvas: Canvas, seconds: float) -> None:
    """Draw the line that shows where in the movement the foot is, at a time in s."""
    across = _across(seconds % LASTS)
    canvas.line((across, TOP), (across, BOTTOM), theme.TEXT, HEAD)


def _fill(canvas: Canvas, points: Sequence[Point], base: float) -> None:
    """Draw the throttle filled from its base line, each blip by itself."""
    shape: list[Point] = []
    for point in points:
        if point[1] < base:
            shape.append(point)
        elif shape:
            canvas.shape([(shape[0][0], base), *shape, (shape[-1][0], base)], theme.THROTTLE)
            shape = []


def _is_drawn(pedal: Pedal, moves: Moves) -> bool:
    match pedal:
        case Pedal.BRAKE:
            return True
        case Pedal.THROTTLE:
            return bool(moves.blips)
        case Pedal.CLUTCH:
            return moves.clutch is not None


def _percent(pedal: Pedal, moves: Moves, seconds: float) -> float:
    """How far a pedal is pressed at a time in s, in %; the end of the movement is no new one.

    A foot that only comes to the throttle, or leaves it, does not press it.
    """
    pressed = moves.at(min(seconds, LASTS - 1e-9))
    match pedal:
        case Pedal.BRAKE:
            return pressed.brake
        case Pedal.THROTTLE:
            return pressed.throttle if pressed.throttle > SETTLED else 0.0
        case Pedal.CLUTCH:
            return pressed.clutch or 0.0


def _across(seconds: float) -> float:
    """Place of a time in s along a row, in canvas units."""
    return LEFT + (RIGHT - LEFT) * seconds / LASTS
