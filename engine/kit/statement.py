"""`statement`: one thing said large in the middle of a screen, with quiet lines below it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from engine.kit import theme
from engine.kit.canvas import Canvas, Colour, wrapped
from engine.kit.typeface import Weight

LARGEST = 132.0
"""Largest height of what is said, in canvas units."""
_STEPS = (
    (LARGEST, theme.BODY + 6, 28.0),
    (LARGEST, theme.BODY, 28.0),
    (LARGEST, theme.SMALL, 20.0),
    (theme.LARGE, theme.SMALL, 8.0),
)
"""Heights of what is said and of the lines below it, and the gap, each for more text, in units."""


@dataclass(frozen=True)
class Paragraph:
    """Text of a statement that has one size, as lines."""

    lines: list[str]
    """Lines of the text."""
    size: float
    """Height of a line, in canvas units."""
    gap: float
    """Gap below the last line, in canvas units."""
    colour: Colour
    """Colour of the text."""
    weight: Weight = Weight.REGULAR
    """Weight of the text."""

    @property
    def height(self) -> float:
        """Height of all lines with the gap below them, in canvas units."""
        return len(self.lines) * self.size + self.gap


def fitting_size(
    canvas: Canvas,
    text: str,
    largest: float,
    weight: Weight = Weight.BOLD,
    wide: float = theme.ACROSS,
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
    room = bottom - top
    parts: list[Paragraph] = []
    for largest, body, gap in _STEPS:
        parts = _parts(canvas, said, [text for text in lines if text], note, (largest, body, gap))
        if sum(part.height for part in parts) <= room:
            break
    y = top + max(room - sum(part.height for part in parts), 0.0) / 2
    for part in parts:
        for line in part.lines:
            at = (theme.WIDTH / 2, y)
            canvas.text(line, at, part.size, part.colour, "centre", weight=part.weight)
            y += part.size
        y += part.gap


def _parts(
    canvas: Canvas, said: str, lines: Sequence[str], note: str, sizes: tuple[float, float, float]
) -> list[Paragraph]:
    """Parts of a statement in some sizes: the largest of what is said, of lines, and the gap."""
    largest, body, gap = sizes
    size = max(fitting_size(canvas, said, largest), float(theme.LARGE))
    heading = even_lines(canvas, said, size, Weight.BOLD)
    parts = [Paragraph(heading, size, gap, theme.TEXT, Weight.BOLD)]
    parts += [Paragraph(even_lines(canvas, text, body), body, gap, theme.TEXT) for text in lines]
    if note:
        small = float(theme.SMALL)
        parts.append(Paragraph(even_lines(canvas, note, small), small, gap, theme.QUIET))
    return parts


def even_lines(
    canvas: Canvas, text: str, size: float, weight: Weight = Weight.REGULAR
) -> list[str]:
    """Text broken into as few lines as fit, about equally long."""

    def measure(line: str) -> float:
        return canvas.measure(line, size, weight)

    lines = wrapped(text, theme.ACROSS, measure)
    if len(lines) == 1:
        return lines
    # A word that fits a line, such as a path, stays whole.
    width = max(measure(text) / len(lines), *(measure(word) for word in text.split()))
    while width < theme.ACROSS:
        even = wrapped(text, width, measure)
        if len(even) <= len(lines):
            return even
        width += 20
    return lines
