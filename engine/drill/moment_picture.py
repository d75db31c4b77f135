"""Picture of a moment: a climb of steps, the shoe that steps up one, and the mark that changes."""

from __future__ import annotations

from engine.drill.moment_rules import Achievement, AchievementKind
from engine.kit import level_marks, shoe, theme
from engine.kit.canvas import Canvas, Point
from engine.kit.motion import eased

STEPS = 4
"""Number of steps across the screen."""
WIDE = theme.WIDTH / STEPS
"""Width of a step, in canvas units."""
LOWEST = 950.0
"""Top of the first step, in canvas units from the top of the screen."""
RISE = 130.0
"""Height by which a step rises above the previous one, in canvas units."""
EDGE = 10.0
"""Width of the line along the top of a step, in canvas units."""
GAP = 14.0
"""Gap between two steps, in canvas units."""
REACHED = 2
"""Index of the step that the shoe steps up to, from 0."""
SHOE = 3.2
"""Size of the shoe as a multiple of that on the climb."""
HOP = 46.0
"""Height of the shoe above the straight way half way up to the next step, in canvas units."""
SOON_UP = 3.0
"""How many times as fast as forward the shoe moves up at first, so that its toe clears the edge."""
MARK = 8.5
"""Size of the mark of a level as a multiple of that on the climb."""
BEAD = 4.0
"""Size of the marks of a row as a multiple of that on the climb."""
BELOW = 70.0
"""Distance from the top of a step down to the middle of its mark of a row, in canvas units."""
AREA: tuple[Point, Point] = ((WIDE, 360.0), (2 * WIDE, 690.0))
"""Corner and size of the area in which the shoe and the mark move, in canvas units."""


def draw_steps(canvas: Canvas, kind: AchievementKind) -> None:
    """Draw what stays: the steps and, of a row, the marks that were there before."""
    for number in range(STEPS):
        top, left = _top(number), number * WIDE + GAP / 2
        canvas.box((left, top), (WIDE - GAP, theme.HEIGHT - top), theme.RAISED)
        is_below = number <= REACHED
        canvas.box((left, top), (WIDE - GAP, EDGE), theme.TEXT if is_below else theme.FAINT)
    if kind is AchievementKind.ROW:
        for number in range(REACHED):
            level_marks.draw_passed(canvas, _bead(number), scale=BEAD)


def draw_changes(canvas: Canvas, achievement: Achievement, stepped: float, filled: float) -> None:
    """Draw the shoe after a share of its step, and the mark after a share of its change.

    The shares are eased, 0 to 1. Of a level that is retained the shoe stays on its step.
    """
    match achievement.kind:
        case AchievementKind.PASSED:
            level_marks.draw_passed(canvas, _middle(REACHED), scale=MARK, share=filled)
        case AchievementKind.RETAINED:
            rings = achievement.rings - achievement.is_new_ring, achievement.rings
            level_marks.draw_closing(canvas, _middle(REACHED), rings, filled, scale=MARK)
            stepped = 1.0
        case AchievementKind.BEST:
            left, width = REACHED * WIDE + GAP / 2, WIDE - GAP
            canvas.box((left, _top(REACHED)), (width * filled, 2 * EDGE), theme.BRAKE)
        case AchievementKind.ROW:
            level_marks.draw_passed(canvas, _bead(REACHED), scale=BEAD, share=filled)
    shoe.draw_shoe(canvas, _heel(stepped), SHOE)


def _top(number: int) -> float:
    """Top of a step by its index from 0, in canvas units."""
    return LOWEST - number * RISE


def _middle(number: int) -> Point:
    """Middle of the face of a step by its index from 0, where the mark of a level is."""
    return (number + 0.5) * WIDE, (_top(number) + EDGE + theme.HEIGHT) / 2


def _bead(number: int) -> Point:
    """Middle of the mark of a row on a step by its index from 0."""
    return (number + 0.5) * WIDE, _top(number) + BELOW


def _heel(stepped: float) -> Point:
    """Heel of the shoe after a share of its step up, 0 to 1."""
    inside = (WIDE - shoe.LENGTH * SHOE) / 2
    x = (REACHED - 1 + stepped) * WIDE + inside
    up = RISE * eased(min(SOON_UP * stepped, 1.0)) + HOP * 4 * stepped * (1 - stepped)
    return x, _top(REACHED - 1) - up
