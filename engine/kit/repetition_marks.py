"""Marks of repetitions: clean, not clean or void, told apart by shape."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum

from engine.kit import theme
from engine.kit.canvas import Canvas


class Mark(StrEnum):
    """How a repetition went, as its mark shows it: clean, missed or void."""

    CLEAN = "clean"
    MISSED = "missed"
    VOID = "void"


LARGE_STEP = 88.0
"""Largest distance from one large mark to the next, in canvas units."""
LARGE_MIDDLE = 446.0
"""Height of the middle of the row of large marks, in canvas units."""


def draw_large_marks(canvas: Canvas, marks: Sequence[Mark], width: float) -> None:
    """Draw a row of large marks from the left margin on, smaller where they would be too wide."""
    step = min(LARGE_STEP, width / max(len(marks), 1))
    radius = step * 0.36
    for number, mark in enumerate(marks):
        draw_mark(canvas, (theme.MARGIN + radius + number * step, LARGE_MIDDLE), radius, mark)


def draw_mark(canvas: Canvas, centre: tuple[float, float], radius: float, mark: Mark) -> None:
    """Draw the mark of a repetition: full dot for clean, ring for not clean, dash for void."""
    x, y = centre
    match mark:
        case Mark.CLEAN:
            canvas.disc(centre, radius, theme.TEXT)
        case Mark.MISSED:
            canvas.disc(centre, radius, theme.TEXT, max(radius / 4, 4.0))
        case Mark.VOID:
            canvas.line((x - radius, y), (x + radius, y), theme.QUIET, max(radius / 4, 5.0))
