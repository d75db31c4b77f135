"""Row of small marks at the foot of a screen: the set so far, the repetition now, those to come."""

from __future__ import annotations

from collections.abc import Sequence

from engine.kit import theme
from engine.kit.canvas import Canvas
from engine.kit.repetition_marks import Mark, draw_mark

MOST_DONE = 10
"""Most repetitions of a set whose marks are shown, the newest ones, as a count."""
MOST_TO_COME = 10
"""Most dots for repetitions to come, as a count."""
STEP = 34
"""Distance from one mark to the next, in canvas units."""
RADIUS = 10
"""Radius of a mark, in canvas units."""
DOT = 4
"""Radius of the dot of a repetition to come, in canvas units."""
MIDDLE = 1038
"""Height of the middle of the marks, in canvas units."""
UNDER = 17
"""Distance from the middle of a mark to the line under it, in canvas units."""


def draw_set_marks(canvas: Canvas, marks: Sequence[Mark], now: int, to_come: int = 0) -> float:
    """Draw the marks of a set at the lower left, with a line under repetition `now`, from 0.

    `to_come` repetitions follow those with a mark; only the newest marks and the next dots are
    drawn. Returns the right edge of what was drawn, in canvas units.
    """
    first = max(len(marks) - MOST_DONE, 0)
    for number, mark in enumerate(marks[first:]):
        draw_mark(canvas, (_across(number), MIDDLE), RADIUS, mark)
    done = len(marks) - first
    last = done + min(max(to_come, 0), MOST_TO_COME)
    for number in range(done, last):
        canvas.disc((_across(number), MIDDLE), DOT, theme.FAINT)
    under = _across(now - first)
    canvas.box((under - RADIUS, MIDDLE + UNDER), (2 * RADIUS, 4), theme.BRAKE, 2)
    return _across(max(last - 1, now - first, 0)) + RADIUS


def _across(number: int) -> float:
    """Middle of a mark by its number in the row, from 0; in canvas units from the left."""
    return theme.MARGIN + RADIUS + number * STEP
