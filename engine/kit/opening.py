"""Opening of a screen: its heading, the lead sentence, a quiet one, and the large figure beside."""

from __future__ import annotations

from drills.remark import Headline
from engine.kit import theme, widgets
from engine.kit.base import title
from engine.kit.canvas import Canvas, Colour
from engine.kit.typeface import Weight

UNDER_LEAD = 12
"""Gap below the lead sentence, in canvas units."""
BESIDE_FIGURE = 60
"""Smallest gap between words and the large figure beside them, in canvas units."""
FIGURE_FOOT = 372
"""Bottom of the large figure with its words, in canvas units."""


def draw_opening(
    canvas: Canvas,
    heading: str,
    lead: str,
    more: str = "",
    figure: Headline | None = None,
    colour: Colour = theme.TEXT,
) -> float:
    """Draw heading, lead, a quiet sentence and the large figure, where all screens have them.

    `colour` is that of the lead. Returns the top of what comes below, in canvas units.
    """
    width = draw_figure(canvas, figure)
    title(canvas, canvas.cut(heading, width, theme.LARGE, Weight.BOLD))
    y = draw_lead(canvas, theme.BELOW, lead, width, colour)
    if not more:
        return y
    return canvas.text(more, (theme.MARGIN, y + 6), theme.BODY, theme.QUIET, width=width)


def draw_figure(canvas: Canvas, figure: Headline | None) -> float:
    """Draw the large figure, if there is one; returns the width for words left of it."""
    if figure is None:
        return theme.ACROSS
    edge = widgets.large_figure(canvas, figure.value, figure.words)
    return edge - BESIDE_FIGURE - theme.MARGIN


def draw_lead(
    canvas: Canvas, y: float, text: str, width: float = theme.ACROSS, colour: Colour = theme.TEXT
) -> float:
    """Write the one sentence that matters most, bold; returns the top of what comes below it."""
    at = (theme.MARGIN, y)
    lines = canvas.text(text, at, theme.LEAD, colour, width=width, weight=Weight.BOLD)
    return lines + UNDER_LEAD
