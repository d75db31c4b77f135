"""Page of advice after void repetitions: what happened, and what helps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from engine.kit import theme
from engine.kit.canvas import Canvas
from engine.kit.opening import draw_opening

BULLET = 9
"""Radius of the dot before a piece of advice, in canvas units."""
INDENT = 48
"""Distance from a dot to its piece of advice, in canvas units."""


@dataclass(frozen=True)
class Advice:
    """What goes wrong that makes repetitions void, in words; `{pedal}` stands for the pedal."""

    heading: str
    """Heading of the screen: what goes wrong."""
    meaning: str
    """Sentence on what that does to the repetitions, or on what counts."""
    remedies: tuple[str, ...]
    """What helps, the most likely remedy first."""


def draw_advice(
    canvas: Canvas, heading: str, lead: str, more: str, remedies: Sequence[str]
) -> None:
    """Draw a heading, the sentence that matters most, a quiet one, and what helps, best first."""
    left, y = theme.MARGIN, draw_opening(canvas, heading, lead, more) + 40
    for remedy in remedies:
        canvas.disc((left + BULLET, y + 0.32 * theme.BODY), BULLET, theme.BRAKE)
        y = canvas.text(remedy, (left + INDENT, y), theme.BODY, width=theme.ACROSS - INDENT) + 20
