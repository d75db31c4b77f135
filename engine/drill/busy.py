"""The computer is too busy to read the pedals evenly: what helps."""

from __future__ import annotations

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas

HELPS = (
    "Close other programs, and let updates finish.",
    "Plug in the power supply, and turn off power saving.",
    "Give the pedals a USB port of their own, without a hub.",
    "Make the window smaller, or try full screen.",
)
"""What helps, most likely first."""


class Busy(Menu[bool]):
    """Ends with whether the set goes on."""

    name = "busy"
    back_word = "leave for now"

    def __init__(self) -> None:
        super().__init__([Choice("Go on", True), Choice("Leave for now", False)], back=False)

    def picture(self, canvas: Canvas) -> None:
        """What happened, and what helps."""
        y = title(canvas, "The computer is busy") + 10
        width = theme.WIDTH - 2 * theme.MARGIN
        said = (
            "Three repetitions in a row were lost, because the pedals could not be read evenly. "
            "They do not count. What helps:"
        )
        y = canvas.text(said, (theme.MARGIN, y), theme.BODY + 2, width=width) + 30
        for line in HELPS:
            canvas.disc((theme.MARGIN + 12, y + 21), 8, theme.BRAKE)
            y = canvas.text(line, (theme.MARGIN + 48, y), theme.BODY + 2, width=width - 48) + 20
