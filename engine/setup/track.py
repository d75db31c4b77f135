"""A pedal while it is set up: a bubble on a plain line, and two lines it should come between."""

from __future__ import annotations

from engine.kit import theme
from engine.kit.canvas import Canvas, Colour, Point

RADIUS = 18
"""units, of the bubble."""
PAST = 0.08
"""1, how far beyond an end of the line the bubble is still seen."""
STEPS = 400
"""steps from one end of the line to the other: finer ones cannot be seen."""


def stepped(place: float) -> int:
    """A place on the line in steps, for telling whether the picture has changed."""
    return round(min(max(place, -PAST), 1 + PAST) * STEPS)


def track(
    canvas: Canvas,
    start: Point,
    width: float,
    place: float,
    colour: Colour,
    wanted: tuple[float, float] | None = None,
) -> None:
    """A line with a bubble at a place from 0 (let go) to 1; `wanted` is where it should come."""
    x, y = start
    canvas.line((x, y), (x + width, y), theme.FAINT, 4)
    for end in (x, x + width):
        canvas.line((end, y - 10), (end, y + 10), theme.FAINT, 4)
    if wanted is not None:
        low, high = wanted
        for mark in (x + low * width - RADIUS - 8, x + high * width + RADIUS + 8):
            canvas.line((mark, y - RADIUS * 1.8), (mark, y + RADIUS * 1.8), theme.TEXT, 4)
    bubble = x + min(max(place, -PAST), 1 + PAST) * width
    canvas.disc((bubble, y), RADIUS, colour)
    canvas.disc((bubble - RADIUS * 0.3, y - RADIUS * 0.3), RADIUS * 0.25, theme.TEXT)
