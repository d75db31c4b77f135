"""The steadiness band: the one number to watch, its interval, and how it went on."""

from __future__ import annotations

import math
from dataclasses import dataclass

from engine.kit import theme
from engine.kit.canvas import Canvas, Point

FIRST_AFTER = 54
"""count of blips after which the steadiness band is there for most feet."""
DAYS = 30
"""days in the picture, today the last of them."""
NUMBER = 150
"""units, size of the number."""
LABELS = 76
"""units kept left of the frame, for the scale."""
ABOVE = 50
"""units kept above it, for what it shows."""
BELOW = 50
"""units kept under it, for the days."""
TOPS = (5.0, 10.0, 15.0, 20.0, 30.0, 40.0, 60.0, 80.0, 100.0)
"""points, what the scale may reach."""
CAP = 9
"""units, half of the ends of the interval."""


@dataclass(frozen=True)
class SteadinessView:
    """The steadiness band as it stands."""

    value: float
    """points, what three blips in four stay inside, up and down."""
    low: float
    """points, lower end of its interval."""
    high: float
    """points, upper end of its interval."""
    days: tuple[tuple[int, float], ...] = ()
    """How many days ago, 29 to 0, and the band in points on that day; the oldest first."""


def steadiness_figure(canvas: Canvas, corner: Point, width: float, shown: SteadinessView) -> float:
    """The number, what it means and its interval; where the next thing may begin."""
    x, y = corner
    number = f"±{shown.value:.1f}"
    canvas.text(number, (x, y), NUMBER, theme.BRAKE)
    after = x + canvas.measure(number, NUMBER) + 20
    canvas.text("points", (after, y + (NUMBER - theme.BODY) * 0.7), theme.BODY)
    y += NUMBER * 0.86
    y = canvas.text("Steadiness: three blips in four stay inside", (x, y), theme.SMALL, width=width)
    interval = f"likely between {shown.low:.1f} and {shown.high:.1f}"
    return canvas.text(interval, (x, y + 4), theme.SMALL, theme.QUIET, width=width)


def steadiness_chart(canvas: Canvas, corner: Point, size: Point, shown: SteadinessView) -> None:
    """A dot a day, joined by a line, and the interval of the newest."""
    left, top = corner[0] + LABELS, corner[1] + ABOVE
    width, height = size[0] - LABELS, size[1] - ABOVE - BELOW
    most = max([shown.high, *(value for _, value in shown.days)])
    reach = next((one for one in TOPS if one >= most), math.ceil(most / 100) * 100.0)
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
    dots = [place(ago, points) for ago, points in shown.days if 0 <= ago < DAYS]
    if not dots:
        return
    x = dots[-1][0]
    ends = [place(0, points)[1] for points in (shown.low, shown.high)]
    canvas.line((x, ends[0]), (x, ends[1]), theme.QUIET, 3)
    for y in ends:
        canvas.line((x - CAP, y), (x + CAP, y), theme.QUIET, 3)
    canvas.curve(dots, theme.EARLIER, 3)
    for dot in dots:
        canvas.disc(dot, 6, theme.BRAKE)
