"""Screens that interrupt a set: the small menu, unplugged pedals, a busy computer."""

from __future__ import annotations

from enum import Enum

from drills.trace import Sample
from engine.kit import theme
from engine.kit.base import Choice, Menu, Place, notice, title
from engine.kit.canvas import Canvas
from engine.kit.timed_screen import time_left

REMEDIES = (
    "Close other programs, and let updates finish.",
    "Plug in the power supply, and turn off power saving.",
    "Give the pedals a USB port of their own, without a hub.",
    "Make the window smaller, or try full screen.",
)
"""Advice to a player whose computer is busy, most likely remedy first."""


class Pause(Enum):
    """What the player can choose in the small menu that pauses a set."""

    ON = "on"
    LEAVE = "leave"
    HOME = "home"


class SmallMenu(Menu[Pause]):
    """Menu that pauses a set, opened by brake and throttle together or Esc; going back resumes."""

    name = "menu"
    back_word = "go on"

    def __init__(self, done: int, of: int, place: Place | None = None) -> None:
        """`done` is the number of stored repetitions, `of` the length of the set, 0 if unknown.

        The time left of a session is shown if `place` has one; it does not run in this menu.
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
        self._progress = f"{done} of {of} repetitions are done, and kept."
        if not of:
            some = "One repetition is" if done == 1 else f"{done} repetitions are"
            self._progress = f"{some} done, and kept."
        if not done:
            self._progress = "Nothing is done yet."
        if place is not None and place.left is not None:
            self._progress += " The time waits."

    def picture(self, canvas: Canvas) -> None:
        """Draw how many repetitions of the set are done, and the time left."""
        y = title(canvas, "A pause") + 20
        canvas.text(self._progress, (theme.MARGIN, y), theme.BODY + 6)
        time_left(canvas, self._place)


class Unplugged(Menu[bool]):
    """Menu shown while the pedals are unplugged; ends by itself when a device is plugged in."""

    name = "unplugged"
    back_word = "leave the set"

    def __init__(self, alike: bool = False) -> None:
        """`alike`: devices are plugged in, but two of them cannot be told apart."""
        super().__init__([Choice("Leave the set", False)], back=False)
        self._alike = alike

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """End when the pedals can be read again."""
        if sample is not None:
            self.outcome = True

    def on_devices(self, *, cut: bool) -> None:
        """End when a device is plugged in, so that the pedals are looked for in it."""
        self.outcome = True

    def picture(self, canvas: Canvas) -> None:
        """Draw that the pedals are unplugged, and that nothing is lost."""
        heading = "The pedals are unplugged"
        advice = "Plug them in and the set goes on. Everything done so far is kept."
        if self._alike:
            heading = "Which device is which?"
            advice = (
                "Two devices are alike and were both plugged anew. Leave the set and set up the "
                "pedals again. Everything done so far is kept."
            )
        notice(canvas, heading, advice)


class Busy(Menu[bool]):
    """Menu after gaps have voided several repetitions in a row; its outcome: continue the set."""

    name = "busy"
    back_word = "leave for now"

    def __init__(self) -> None:
        super().__init__([Choice("Go on", True), Choice("Leave for now", False)], back=False)

    def picture(self, canvas: Canvas) -> None:
        """Draw that the computer is too busy to read the pedals, and what helps."""
        y = title(canvas, "The computer is busy") + 10
        width = theme.WIDTH - 2 * theme.MARGIN
        reason = (
            "Three repetitions in a row were lost, because the pedals could not be read evenly. "
            "They do not count. What helps:"
        )
        y = canvas.text(reason, (theme.MARGIN, y), theme.BODY + 2, width=width) + 30
        for line in REMEDIES:
            canvas.disc((theme.MARGIN + 12, y + 21), 8, theme.BRAKE)
            y = canvas.text(line, (theme.MARGIN + 48, y), theme.BODY + 2, width=width - 48) + 20
