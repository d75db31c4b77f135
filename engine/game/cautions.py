"""Screen with the cautions about health and safety, shown at the first start."""

from __future__ import annotations

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas

CAUTIONS = (
    "Stop at pain or numbness, and rest the foot.",
    "Keep sessions short: five minutes a day.",
    "A load cell rewards steadiness, not force. Press no harder than you brake.",
    "Practise in a stationary rig, never in a car on the road.",
    "The cue is a flash. If flashes trouble you, turn it off under More.",
    "Technique on a track belongs to a qualified instructor.",
)
"""Cautions about health and safety; the README has the same."""
SIZE = theme.BODY + 4
"""Height of a caution, in canvas units: the longest fills a line."""
PITCH = 108
"""Distance from one caution to the next, in canvas units."""


class Cautions(Menu[bool]):
    """Screen with the cautions, shown at every start until the player has confirmed them once."""

    name = "cautions"
    hint = "Any pedal pressed and let go, Enter, or a click: go on"
    in_a_bar = True

    def __init__(self) -> None:
        super().__init__([Choice("I have read this", True)], back=False)

    def picture(self, canvas: Canvas) -> None:
        """Draw the cautions about health and safety as a list."""
        y = title(canvas, "Before you start") + 50
        for caution in CAUTIONS:
            canvas.disc((theme.MARGIN + 12, y + 0.33 * SIZE), 9, theme.BRAKE)
            canvas.text(caution, (theme.MARGIN + 56, y), SIZE)
            y += PITCH
