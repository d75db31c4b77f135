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
MEANING = {Mark.VOID: "did not count", Mark.MISSED: "not clean", Mark.CLEAN: "clean"}
"""Words for each mark in the legend, in the order in which it is drawn from right to left."""


def draw_marks(canvas: Canvas, corner: tuple[float, float], marks: Sequence[Mark]) -> float:
    """Draw a mark for each repetition, and the legend; returns the top of what comes below."""
    x, y = corner
    step = min(52.0, (theme.WIDTH - 2 * theme.MARGIN - 760) / max(len(marks), 1))
    for number, mark in enumerate(marks):
        draw_mark(canvas, (x + 18 + number * step, y + 20), min(18.0, step * 0.4), mark)
    draw_legend(canvas, (float(theme.WIDTH - theme.MARGIN), y), marks)
    return y + 62


def draw_large_marks(
    canvas: Canvas, start: tuple[float, float], width: float, marks: Sequence[Mark]
) -> None:
    """Draw a large mark for each repetition, smaller where there are many, from the left."""
    step = min(LARGE_STEP, width / max(len(marks), 1))
    radius = step * 0.36
    for number, mark in enumerate(marks):
        draw_mark(canvas, (start[0] + radius + number * step, start[1]), radius, mark)


def draw_legend(canvas: Canvas, corner: tuple[float, float], marks: Sequence[Mark]) -> None:
    """Draw the legend of the marks that occur, so that it ends at the corner."""
    at, y = corner
    for mark, word in MEANING.items():
        if mark in marks:
            at -= canvas.measure(word, theme.SMALL)
            canvas.text(word, (at, y + 6), theme.SMALL, theme.QUIET)
            at -= 30
            draw_mark(canvas, (at, y + 20), 14, mark)
            at -= 44


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
