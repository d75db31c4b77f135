"""Steadiness on screens: its number with an interval, and its chart over the last 30 days."""

from __future__ import annotations

import math
from dataclasses import dataclass

from engine.kit import theme
from engine.kit.canvas import Canvas, Point

DAYS = 30
"""Number of days in the steadiness chart, up to and including today."""
NUMBER = 150
"""Text size of the steadiness where it is the main number, in canvas units."""
LABELS = 76
"""Space left of the steadiness chart for its scale, in canvas units."""
ABOVE = 50
"""Space above the steadiness chart for its title, in canvas units."""
BELOW = 50
"""Space below the steadiness chart for the days, in canvas units."""
TOPS = (5.0, 10.0, 15.0, 20.0, 30.0, 40.0, 60.0, 80.0, 100.0)
"""Upper ends that the scale of the steadiness chart may have, in points."""
CAP = 9
"""Half the width of the caps at both ends of the steadiness interval, in canvas units."""


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


def steadiness_chart(canvas: Canvas, corner: Point, size: Point, view: SteadinessView) -> None:
    """Draw the steadiness of each day as a dot, joined by a line, and the newest one's interval."""
    left, top = corner[0] + LABELS, corner[1] + ABOVE
    width, height = size[0] - LABELS, size[1] - ABOVE - BELOW
    most = max([view.high, *(value for _, value in view.days)])
    reach = next((top for top in TOPS if top >= most), math.ceil(most / 100) * 100.0)
    floor, inner = top + height, width - 2 * CAP - 12

    def place(ago: int, points: float) -> Point:
        x = left + CAP + 6 + inner * (1 - ago / (DAYS - 1))
        return x, floor - height * min(max(points, 0.0), reach) / reach

    canvas.box((left, top), (width, height), theme.RAISED, 6)
    canvas.text("points, the last 30 days", (left, corner[1]), theme.SMALL, theme.QUIET)
    for points in (0.0, reach / 2, reach):
        at = place(0, points)[1]
        canvas.line((left - 10, at), (left, at), theme.FAINT, 2)
        if points != reach / 2:
            label = f"{points:g}"
            canvas.text(label, (left - 18, at - 20), theme.SMALL, theme.QUIET, "right")
    canvas.text(f"{DAYS - 1} days ago", (left, floor + 8), theme.SMALL, theme.QUIET)
    canvas.text("today", (left + width, floor + 8), theme.SMALL, theme.QUIET, "right")
    dots = [place(ago, points) for ago, points in view.days if 0 <= ago < DAYS]
    if not dots:
        return
    x = dots[-1][0]
    ends = [place(0, points)[1] for points in (view.low, view.high)]
    canvas.line((x, ends[0]), (x, ends[1]), theme.QUIET, 3)
    for y in ends:
        canvas.line((x - CAP, y), (x + CAP, y), theme.QUIET, 3)
    canvas.curve(dots, theme.EARLIER, 3)
    for dot in dots:
        canvas.disc(dot, 6, theme.BRAKE)
