"""Row of figures side by side: numbers with their names, those outside their limit flagged."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from engine.kit import theme
from engine.kit.canvas import Canvas, Point
from engine.kit.typeface import Weight

APART = 30
"""Smallest gap between two figures that stand side by side, in canvas units."""
CLOSE = 60
"""Gap between two figures under which they read as one number, in canvas units."""
FLAG = 34
"""Width of the flag at a figure that missed its limit, in canvas units."""


@dataclass(frozen=True)
class Figure:
    """Number with its name, as screens draw it."""

    name: str
    """Name of the number, in a word or two."""
    value: str
    """Number with its unit, as text."""
    note: str = ""
    """A few words in grey below the number; empty for none."""
    failed: bool = False
    """Whether a flag marks it as outside its limit."""


def draw_figures(canvas: Canvas, corner: Point, width: float, row: Sequence[Figure]) -> None:
    """Draw numbers with their names side by side, over a width in canvas units.

    Their columns are alike, or as wide as what is in them where numbers would come too close.
    """
    step = width / max(len(row), 1)
    steps = [step] * len(row)
    wide = [_width(figure, canvas) for figure in row]
    if wide and max(wide) + CLOSE > step and sum(wide) + CLOSE * len(row) <= width:
        steps = [each + (width - sum(wide)) / len(row) for each in wide]
    rooms = [
        (figure.value, each - (FLAG + 16) * figure.failed - APART)
        for figure, each in zip(row, steps, strict=True)
    ]
    size = _fitting(rooms, canvas)
    for number, figure in enumerate(row):
        x, y = corner[0] + sum(steps[:number]), corner[1]
        canvas.text(figure.name, (x, y), theme.SMALL, theme.QUIET)
        if figure.failed:
            _flag(canvas, (x, y + 42))
        left = x + (FLAG + 16 if figure.failed else 0)
        top = y + 42 + (theme.LARGE - size) * 0.7
        canvas.text(figure.value, (left, top), size, weight=Weight.BOLD)
        if figure.note:
            canvas.text(figure.note, (x, y + 108), theme.SMALL, theme.QUIET)


def _width(figure: Figure, canvas: Canvas) -> float:
    """Width of a number, its name and its note at their full sizes, in canvas units."""
    value = canvas.measure(figure.value, theme.LARGE, Weight.BOLD) + (FLAG + 16) * figure.failed
    names = (canvas.measure(text, theme.SMALL) for text in (figure.name, figure.note))
    return max(value, *names)


def _fitting(values: Sequence[tuple[str, float]], canvas: Canvas) -> float:
    """Largest text size, up to LARGE, at which each value fits the width given with it."""
    wide = [
        canvas.measure(value, theme.LARGE, Weight.BOLD) / room for value, room in values if room > 0
    ]
    return max(theme.LARGE / max([1.0, *wide]), float(theme.SMALL))


def _flag(canvas: Canvas, corner: Point) -> None:
    """Draw a small flag on a pole, the mark of a figure outside its limit."""
    x, y = corner
    canvas.line((x + 4, y), (x + 4, y + 56), theme.TEXT, 5)
    canvas.shape([(x + 4, y), (x + FLAG, y + 16), (x + 4, y + 32)], theme.TEXT)
