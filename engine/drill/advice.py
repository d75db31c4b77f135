"""Page of advice after repetitions that do not count: what happened, and what helps."""

from __future__ import annotations

from collections.abc import Sequence

from engine.kit import theme
from engine.kit.base import draw_lead, title
from engine.kit.canvas import Canvas

BULLET = 9
"""Radius of the dot before a piece of advice, in canvas units."""
INDENT = 48
"""Distance from a dot to its piece of advice, in canvas units."""


def draw_advice(
    canvas: Canvas, heading: str, lead: str, more: str, remedies: Sequence[str]
) -> None:
    """Draw a heading, the sentence that matters most, a quiet one, and what helps, best first."""
    left, width = float(theme.MARGIN), float(theme.WIDTH - 2 * theme.MARGIN)
    y = draw_lead(canvas, (left, title(canvas, heading)), lead, width)
    y = canvas.text(more, (left, y), theme.BODY, theme.QUIET, width=width) + 40
    for remedy in remedies:
        canvas.disc((left + BULLET, y + 0.32 * theme.BODY), BULLET, theme.BRAKE)
        y = canvas.text(remedy, (left + INDENT, y), theme.BODY, width=width - INDENT) + 20
