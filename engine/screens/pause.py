"""The small menu: out of a set, or on with it."""

from __future__ import annotations

from enum import Enum

from engine.screens import theme
from engine.screens.base import Choice, Menu, title
from engine.screens.canvas import Canvas


class Pause(Enum):
    """What to do now."""

    ON = "on"
    LEAVE = "leave"
    HOME = "home"


class SmallMenu(Menu[Pause]):
    """Opened by brake and throttle together, or Esc. Going back goes on."""

    name = "menu"
    back_word = "go on"

    def __init__(self, done: int, of: int) -> None:
        """`done` repetitions of a set `of` so many are kept; `of` is 0 where that is not known."""
        leave = "Leave the set" if of else "Leave for now"
        super().__init__(
            [
                Choice("Go on", Pause.ON),
                Choice(leave, Pause.LEAVE, "and see how it went" if done else ""),
                Choice("Home", Pause.HOME),
            ],
            back=Pause.ON,
        )
        self._said = f"{done} of {of} repetitions are done, and kept."
        if not of:
            some = "One repetition is" if done == 1 else f"{done} repetitions are"
            self._said = f"{some} done, and kept."
        if not done:
            self._said = "Nothing is done yet."

    def picture(self, canvas: Canvas) -> None:
        """Where the set stands."""
        y = title(canvas, "A pause") + 20
        canvas.text(self._said, (theme.MARGIN, y), theme.BODY + 6)
