"""The small menu: out of a set, or on with it."""

from __future__ import annotations

from enum import Enum

from engine.kit import theme
from engine.kit.base import Choice, Menu, Place, title
from engine.kit.canvas import Canvas
from engine.kit.time_left import time_left


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
