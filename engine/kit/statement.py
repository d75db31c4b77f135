"""`statement`: one thing said large in the middle of a screen, with quiet lines below it."""

from __future__ import annotations

from dataclasses import dataclass

from engine.kit import theme
from engine.kit.canvas import Canvas, Colour, wrapped
from engine.kit.typeface import Weight

LARGEST = 132.0
"""Largest height of what is said, in canvas units."""
GAP = 28.0
"""Gap between what is said and the lines below it, in canvas units."""
WIDE = float(theme.WIDTH - 2 * theme.MARGIN)
"""Widest line of a statement, in canvas units."""


@dataclass(frozen=True)
class Part:
    """Text of a statement that has one size, as lines."""

    lines: list[str]
    """Lines of the text."""
    size: float
    """Height of a line, in canvas units."""
    colour: Colour
    """Colour of the text."""
    weight: Weight = Weight.REGULAR
    """Weight of the text."""

    @property
    def height(self) -> float:
        """Height of all lines with the gap below them, in canvas units."""
        return len(self.lines) * self.size + GAP if self.lines else 0.0


def fitting_size(
    canvas: Canvas, text: str, largest: float, weight: Weight = Weight.BOLD, wide: float = WIDE
) -> float:
    """Largest height, up to `largest`, at which a line of text is at most `wide` units wide."""
    across = canvas.measure(text, largest, weight)
    return largest if across <= wide else max(largest * wide / across, float(theme.SMALL))


def statement(
    canvas: Canvas,
    said: str,
    *lines: str,
    note: str = "",
    top: float = theme.TITLE,
    bottom: float = theme.BAR,
) -> None:
    """Say one thing in the middle between `top` and `bottom`, in canvas units.

    Each of `lines` is a paragraph below it, and `note` a smaller one in grey. Letters of the
    paragraphs shrink where they would not fit.
    """
    size = fitting_size(canvas, said, LARGEST)
    if size < theme.LARGE:
        size = float(theme.LARGE)
    heading = Part(even_lines(canvas, said, size, Weight.BOLD), size, theme.TEXT, Weight.BOLD)
    room = bottom - top
    parts = [heading]
    for body in (theme.BODY + 6, theme.BODY, theme.SMALL):
        rest = [_part(canvas, text, body, theme.TEXT) for text in lines if text]
        rest += [_part(canvas, note, theme.SMALL, theme.QUIET)] if note else []
        parts = [heading, *rest]
        if sum(part.height for part in parts) <= room:
            break
    y = top + max(room - sum(part.height for part in parts), 0.0) / 2
    for part in parts:
        for line in part.lines:
            at = (theme.WIDTH / 2, y)
            canvas.text(line, at, part.size, part.colour, "centre", weight=part.weight)
            y += part.size
        y += GAP


def _part(canvas: Canvas, text: str, size: float, colour: Colour) -> Part:
    return Part(even_lines(canvas, text, size), size, colour)


def even_lines(
    canvas: Canvas, text: str, size: float, weight: Weight = Weight.REGULAR
) -> list[str]:
    """Text broken into as few lines as fit, about equally long."""

    def measure(line: str) -> float:
        return canvas.measure(line, size, weight)

    lines = wrapped(text, WIDE, measure)
    if len(lines) == 1:
        return lines
    width = measure(text) / len(lines)
    while width < WIDE:
        even = wrapped(text, width, measure)
        if len(even) <= len(lines):
            return even
        width += 20
    return lines
