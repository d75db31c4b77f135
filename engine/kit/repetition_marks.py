"""A mark for each repetition: clean, not clean, or of no account, told by shape."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum

from engine.kit import theme
from engine.kit.canvas import Canvas


class Mark(StrEnum):
    """How one repetition of a set is marked."""

    CLEAN = "clean"
    MISSED = "missed"
    VOID = "void"


MEANING = {Mark.VOID: "did not count", Mark.MISSED: "not clean", Mark.CLEAN: "clean"}
"""What each mark means, from right to left."""


def dots(canvas: Canvas, corner: tuple[float, float], marks: Sequence[Mark]) -> float:
    """A mark for each repetition and what the marks mean; where the next thing may begin."""
    x, y = corner
    step = min(52.0, (theme.WIDTH - 2 * theme.MARGIN - 760) / max(len(marks), 1))
    for number, mark in enumerate(marks):
        one(canvas, (x + 18 + number * step, y + 20), min(18.0, step * 0.4), mark)
    meaning(canvas, (float(theme.WIDTH - theme.MARGIN), y), marks)
    return y + 62


def meaning(canvas: Canvas, corner: tuple[float, float], marks: Sequence[Mark]) -> None:
    """What the marks mean, as far as there are any, ending at the right of a line."""
    at, y = corner
    for mark, word in MEANING.items():
        if mark in marks:
            at -= canvas.measure(word, theme.SMALL)
            canvas.text(word, (at, y + 6), theme.SMALL, theme.QUIET)
            at -= 30
            one(canvas, (at, y + 20), 14, mark)
            at -= 44


def one(canvas: Canvas, centre: tuple[float, float], radius: float, mark: Mark) -> None:
    """Draw one: a full dot for clean, an open ring for not clean, a dash for what did not count."""
    x, y = centre
    match mark:
        case Mark.CLEAN:
            canvas.disc(centre, radius, theme.BRAKE)
        case Mark.MISSED:
            canvas.disc(centre, radius, theme.TEXT, 4)
        case Mark.VOID:
            canvas.line((x - radius, y), (x + radius, y), theme.QUIET, 5)
