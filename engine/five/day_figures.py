"""All figures of a day: its parts with the marks of their repetitions, and what stands beside."""

from __future__ import annotations

import math
from collections.abc import Sequence

from engine.five.day import Part
from engine.five.day_words import Line
from engine.kit import theme
from engine.kit.canvas import Canvas, Point
from engine.kit.repetition_marks import Mark, draw_mark
from engine.kit.typeface import Weight

NAMES = 580
"""Width of the column with the names of the session's parts, in canvas units."""
STEP = 46
"""Largest distance from the mark of one repetition to that of the next, in canvas units."""
MARKS_WIDE = 460
"""Width of the marks beside the name of a part, in canvas units."""
A_ROW = 16
"""Most marks of repetitions side by side in one line, as a count."""
LINE = 32
"""Distance from one line of marks to the next, in canvas units."""
PITCH = 76
"""Largest distance from one part to the next, in canvas units."""
PAIR = 156
"""Largest distance from one thing said beside the parts to the next, in canvas units."""


def draw_lines(canvas: Canvas, corner: Point, height: float, lines: Sequence[Line]) -> None:
    """Draw what is said beside the parts: a few words each, with a quiet line below."""
    x, y = corner
    width = theme.WIDTH - theme.MARGIN - x
    pitch = min(height / max(len(lines), 1), PAIR)
    for line in lines:
        below = canvas.text(line.words, (x, y), theme.BODY, width=width, weight=Weight.BOLD)
        canvas.text(line.note, (x, below + 4), theme.SMALL, theme.QUIET)
        y += pitch


def draw_parts(canvas: Canvas, corner: Point, height: float, parts: Sequence[Part]) -> None:
    """Draw the session's parts, each with its marks or, of a staircase, how many were inside."""
    x, y = corner
    rows = [math.ceil(len(part.marks) / A_ROW) if not part.is_staircase else 1 for part in parts]
    extra = LINE * sum(max(count - 1, 0) for count in rows)
    pitch = min((height - extra) / max(len(parts), 1), PITCH)
    longest = max((len(part.marks) for part in parts if not part.is_staircase), default=1)
    step = min(MARKS_WIDE / min(max(longest, 1), A_ROW), STEP)
    for part, count in zip(parts, rows, strict=True):
        fits = canvas.measure(part.label, theme.SMALL) <= NAMES - 20
        canvas.text(part.label if fits else part.name, (x, y), theme.SMALL, theme.QUIET)
        if part.is_staircase:
            canvas.text(part.inside, (x + NAMES, y), theme.SMALL)
        else:
            _draw_marks(canvas, (x + NAMES, y + 0.38 * theme.SMALL), part.marks, step)
        y += pitch + LINE * max(count - 1, 0)


def _draw_marks(canvas: Canvas, start: Point, marks: Sequence[Mark], step: float) -> None:
    """Draw the marks of a part in lines of at most A_ROW, `step` canvas units apart."""
    for number, mark in enumerate(marks):
        line, column = divmod(number, A_ROW)
        centre = (start[0] + (column + 0.5) * step, start[1] + line * LINE)
        draw_mark(canvas, centre, min(step * 0.32, LINE * 0.4), mark)
