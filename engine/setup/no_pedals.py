"""No pedals to play with: plug them in, try the mouse, or watch the demo."""

from __future__ import annotations

from enum import Enum

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas


class Instead(Enum):
    """What to do about it."""

    PLUGGED = "plugged"
    BIND = "bind"
    MOUSE = "mouse"
    DEMO = "demo"
    QUIT = "quit"


class NoPedals(Menu[Instead]):
    """Ends by itself when a device is plugged in."""

    name = "no pedals"
    back_word = "leave"

    def __init__(self, *, saved: bool, plugged: int) -> None:
        """`saved`: pedals are set up but not there; `plugged`: count of other devices there."""
        choices = [
            Choice("Try with the mouse", Instead.MOUSE, "height is the brake, button the throttle"),
            Choice("Watch the demo", Instead.DEMO, "a simulated foot plays a set"),
            Choice("Leave", Instead.QUIT),
        ]
        if plugged:
            choices.insert(0, Choice("Set up what is plugged in", Instead.BIND))
        super().__init__(choices, back=Instead.QUIT)
        self._saved = saved

    def on_devices(self, *, cut: bool) -> None:
        """Whatever was plugged in, look again."""
        self.outcome = Instead.PLUGGED

    def picture(self, canvas: Canvas) -> None:
        """What is missing."""
        found = "Your pedals are not plugged in" if self._saved else "No pedals found"
        y = title(canvas, found) + 20
        canvas.text(
            "Plug them in now: the game notices. Or try it without.",
            (theme.MARGIN, y),
            theme.BODY + 6,
            width=theme.WIDTH - 2 * theme.MARGIN,
        )


class NothingPlugged(Menu[bool]):
    """Pedals are to be set up and there is no device; ends by itself when one is plugged in."""

    name = "nothing plugged"

    def __init__(self) -> None:
        super().__init__([Choice("Back", False)], back=False)

    def on_devices(self, *, cut: bool) -> None:
        """Whatever was plugged in, look again."""
        self.outcome = True

    def picture(self, canvas: Canvas) -> None:
        """What is missing."""
        y = title(canvas, "Nothing is plugged in") + 20
        canvas.text(
            "Plug the pedals in now: the game notices, and goes on to set them up.",
            (theme.MARGIN, y),
            theme.BODY + 6,
            width=theme.WIDTH - 2 * theme.MARGIN,
        )
