"""The time that is left of what ends by time: a thin line that grows shorter, and its words."""

from __future__ import annotations

import math

from engine.kit import theme
from engine.kit.base import Place
from engine.kit.canvas import Canvas

TOP = 12
"""units from the top, where the line is."""
THICK = 4
"""units, of the line."""


def left_words(share: float, lasts: float) -> str:
    """Such as "3 min left", of `lasts` min: minutes begun, so that none is said too early."""
    minutes = math.ceil(share * lasts)
    if minutes < 1:
        return "time is up"
    return f"{minutes} min left" if minutes > 1 else "the last minute"


def time_left(canvas: Canvas, place: Place | None) -> None:
    """Draw it along the upper edge; nothing where the place does not know it."""
    if place is None or place.left is None:
        return
    share = min(max(place.left, 0.0), 1.0)
    right = float(theme.WIDTH - theme.MARGIN)
    across = (right - theme.MARGIN) * share
    canvas.line((theme.MARGIN, TOP), (right, TOP), theme.BAND, THICK)
    canvas.line((theme.MARGIN, TOP), (theme.MARGIN + across, TOP), theme.QUIET, THICK)
    said = left_words(share, place.lasts)
    canvas.text(said, (right, TOP + 10), theme.SMALL, theme.QUIET, "right")
