"""Screens that interrupt a set: the small menu, unplugged pedals, a busy computer."""

from __future__ import annotations

from enum import Enum

from engine.kit import theme
from engine.kit.base import Choice, Menu, Place, title
from engine.kit.canvas import Canvas
from engine.kit.timed_screen import time_left

HELPS = (
    "Close other programs, and let updates finish.",
    "Plug in the power supply, and turn off power saving.",
    "Give the pedals a USB port of their own, without a hub.",
    "Make the window smaller, or try full screen.",
)
"""What helps, most likely first."""


class Pause(Enum):
    """What to do now."""

    ON = "on"
    LEAVE = "leave"
    HOME = "home"


class SmallMenu(Menu[Pause]):
    """Opened by brake and throttle together, or Esc. Going back goes on."""

    name = "menu"
    back_word = "go on"

    def __init__(self, done: int, of: int, place: Place | None = None) -> None:
        """`done` repetitions of a set `of` so many are kept; `of` is 0 where that is not known.

        The time left is shown where `place` knows it: it stands still.
        """
        leave = "Leave the set" if of else "Leave for now"
        super().__init__(
            [
                Choice("Go on", Pause.ON),
                Choice(leave, Pause.LEAVE, "and see how it went" if done else ""),
                Choice("Home", Pause.HOME),
            ],
            back=Pause.ON,
        )
        self._place = place
        self._said = f"{done} of {of} repetitions are done, and kept."
        if not of:
            some = "One repetition is" if done == 1 else f"{done} repetitions are"
            self._said = f"{some} done, and kept."
        if not done:
            self._said = "Nothing is done yet."
        if place is not None and place.left is not None:
            self._said += " The time waits."

    def picture(self, canvas: Canvas) -> None:
        """Where the set stands, and the time that is left."""
        y = title(canvas, "A pause") + 20
        canvas.text(self._said, (theme.MARGIN, y), theme.BODY + 6)
        time_left(canvas, self._place)


class Unplugged(Menu[bool]):
    """The pedals are not there for a set; ends by itself when a device is plugged in."""

    name = "unplugged"
    back_word = "leave the set"

    def __init__(self, alike: bool = False) -> None:
        """`alike`: devices are there, but it cannot be told which of them is which."""
        super().__init__([Choice("Leave the set", False)], back=False)
        self._alike = alike

    def on_devices(self, *, cut: bool) -> None:
        """Whatever was plugged in, look again."""
        self.outcome = True

    def picture(self, canvas: Canvas) -> None:
        """What happened, and that nothing is lost."""
        said = "The pedals are unplugged"
        todo = "Plug them in and the set goes on. Everything done so far is kept."
        if self._alike:
            said = "Which device is which?"
            todo = (
                "Two devices are alike and were both plugged anew. Leave the set and set up the "
                "pedals again. Everything done so far is kept."
            )
        y = title(canvas, said) + 20
        canvas.text(
            todo,
            (theme.MARGIN, y),
            theme.BODY + 6,
            width=theme.WIDTH - 2 * theme.MARGIN,
        )


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
