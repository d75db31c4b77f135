"""Steadiness on screens: its value over the last 30 days, and its number with an interval."""

from __future__ import annotations

from dataclasses import dataclass

from engine.kit import theme
from engine.kit.canvas import Canvas, Point

DAYS = 30
"""Number of days that are told of steadiness, up to and including today."""
NUMBER = 150
"""Text size of the steadiness where it is the main number, in canvas units."""


@dataclass(frozen=True)
class SteadinessView:
    """Steadiness of a player as screens draw it: number, interval and earlier days."""

    value: float
    """Steadiness: the deviation that three blips in four stay within, up and down, in points."""
    low: float
    """Lower end of the interval of the steadiness, in points."""
    high: float
    """Upper end of the interval of the steadiness, in points."""
    span: int
    """Days on which the blips of the steadiness were played, as a count."""
    days: tuple[tuple[int, float], ...] = ()
    """Steadiness in points on earlier days, as pairs with the number of days ago (29 to 0); oldest
    first."""


def steadiness_figure(canvas: Canvas, corner: Point, width: float, view: SteadinessView) -> float:
    """Write the steadiness, its meaning, interval and days; returns the top of what comes below."""
    x, y = corner
    number = f"±{view.value:.1f}"
    canvas.text(number, (x, y), NUMBER, theme.BRAKE)
    after = x + canvas.measure(number, NUMBER) + 20
    canvas.text("points", (after, y + (NUMBER - theme.BODY) * 0.7), theme.BODY)
    y += NUMBER * 0.86
    y = canvas.text("Steadiness: three blips in four stay inside", (x, y), theme.SMALL, width=width)
    interval = f"likely {view.low:.1f} to {view.high:.1f}, your last {view.span} days"
    return canvas.text(interval, (x, y + 4), theme.SMALL, theme.QUIET, width=width)
