"""Menus shown without pedals: plug them in, play with the mouse, or watch the demo."""

from __future__ import annotations

from enum import Enum

from engine.kit.base import Choice, Menu
from engine.kit.canvas import Canvas
from engine.kit.statement import statement


class NoPedalsChoice(Enum):
    """What a player without pedals can choose."""

    PLUGGED = "plugged"
    BIND = "bind"
    MOUSE = "mouse"
    DEMO = "demo"
    QUIT = "quit"


class NoPedals(Menu[NoPedalsChoice]):
    """Menu shown if no saved pedals are plugged in; ends by itself when a device is."""

    name = "no pedals"
    back_word = "leave"

    def __init__(self, *, saved: bool, plugged: int, unopened: str = "") -> None:
        """`saved`: pedals are set up but not plugged in; `plugged`: number of other devices.

        `unopened` is a note on devices that could not be opened, if there are any.
        """
        choices = [
            Choice(
                "Try with the mouse",
                NoPedalsChoice.MOUSE,
                "height brakes, button blips",
            ),
            Choice("Watch the demo", NoPedalsChoice.DEMO, "a simulated foot plays a set"),
            Choice("Leave", NoPedalsChoice.QUIT),
        ]
        if plugged:
            choices.insert(0, Choice("Set up what is plugged in", NoPedalsChoice.BIND))
        super().__init__(choices, back=NoPedalsChoice.QUIT)
        self._saved = saved
        self._unopened = unopened

    def on_devices(self, *, cut: bool) -> None:
        """End when a device is plugged in, so that the pedals are looked for in it."""
        self.outcome = NoPedalsChoice.PLUGGED

    def picture(self, canvas: Canvas) -> None:
        """Draw that pedals are missing, and what the player can do."""
        heading = "Your pedals are not plugged in" if self._saved else "No pedals found"
        text = "Plug them in: the game notices. Or try it without."
        statement(canvas, heading, text, note=self._unopened, bottom=self.choices_top)


class NothingPlugged(Menu[bool]):
    """Menu shown if pedals are to be set up without a device; ends when one is plugged in."""

    name = "nothing plugged"
    in_a_bar = True

    def __init__(self, unopened: str = "") -> None:
        """`unopened` is a note on devices that could not be opened, if there are any."""
        super().__init__([Choice("Back", False)], back=False)
        self._unopened = unopened

    def on_devices(self, *, cut: bool) -> None:
        """End when a device is plugged in, so that the pedals are looked for in it."""
        self.outcome = True

    def picture(self, canvas: Canvas) -> None:
        """Draw that no device is plugged in, and what the player can do."""
        heading = "No device can be read" if self._unopened else "Nothing is plugged in"
        text = "Plug the pedals in: the game notices and sets them up."
        statement(canvas, heading, text, note=self._unopened)
