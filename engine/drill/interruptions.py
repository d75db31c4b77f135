"""Screens that interrupt a set: the small menu, unplugged pedals, a busy computer."""

from __future__ import annotations

from enum import Enum

from drills.remark import Headline
from drills.trace import Sample
from engine.drill.advice import draw_advice
from engine.drill.lesson_words import SHOW_MOVEMENT
from engine.drill.set_words import SAVED
from engine.kit import theme
from engine.kit.base import Choice, Menu, Place
from engine.kit.canvas import Canvas
from engine.kit.opening import draw_opening
from engine.kit.repetition_marks import draw_large_marks
from engine.kit.timed_screen import time_left

REMEDIES = (
    "Close other programs, and let updates finish.",
    "Plug in the power supply, and turn off power saving.",
    "Give the pedals a USB port of their own, without a hub.",
    "Make the window smaller, or try full screen.",
)
"""Advice to a player whose computer is busy, most likely remedy first."""


BUSY = "The pedals could not be read evenly."
"""What a busy computer does, in a sentence."""
LOST = "Three repetitions in a row were not judged. What helps:"
"""What trouble with the computer or the pedals did, before the advice."""


class Pause(Enum):
    """What the player can choose in the small menu that pauses a set."""

    ON = "on"
    MOVEMENT = "movement"
    LEAVE = "leave"
    HOME = "home"


class SmallMenu(Menu[Pause]):
    """Menu that pauses a set, opened by brake and throttle together or Esc; going back resumes."""

    name = "menu"
    in_a_bar = True
    back_word = "go on"

    def __init__(
        self, done: int, of: int, place: Place | None = None, *, movement: bool = False
    ) -> None:
        """`done` is the number of stored repetitions, `of` the length of the set, 0 if unknown.

        The time left of a session is shown if `place` has one; it does not run in this menu.
        `movement` is whether the movement that is asked can be shown.
        """
        leave = "Leave the set" if of else "Leave for now"
        choices = [
            Choice("Go on", Pause.ON),
            *([Choice(SHOW_MOVEMENT, Pause.MOVEMENT)] if movement else []),
            Choice(leave, Pause.LEAVE),
            Choice("Home", Pause.HOME),
        ]
        super().__init__(choices, back=Pause.ON)
        self._place = place
        self._done = done
        self._of = of

    @property
    def lead(self) -> str:
        """Sentence that matters most: what waits."""
        timed = self._place is not None and self._place.left is not None
        return "The time waits." if timed else "The set waits."

    @property
    def more(self) -> str:
        """Sentence on what was done; empty where nothing of it is kept, as the label says."""
        if not self._done:
            return "Nothing is done yet."
        return "" if self.means.label else SAVED

    def picture(self, canvas: Canvas) -> None:
        """Draw what waits, how many repetitions are done, and the time left."""
        words = f"of {self._of} done" if self._of else "done"
        figure = Headline(f"{self._done}", words) if self._done else None
        draw_opening(canvas, "Pause", self.lead, self.more, figure)
        marks = () if self._place is None else self._place.marks or ()
        draw_large_marks(canvas, marks, theme.ACROSS)
        time_left(canvas, self._place)


class Unplugged(Menu[bool]):
    """Menu shown while the pedals are unplugged; ends by itself when a device is plugged in."""

    name = "unplugged"
    in_a_bar = True
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

    @property
    def hint(self) -> str:
        """Line at the foot: the one choice leaves, and only plugging in goes on."""
        return f"{'Enter, Esc, button 1' if self.means.buttons else 'Enter, Esc'}: {self.back_word}"

    def picture(self, canvas: Canvas) -> None:
        """Draw that the pedals are unplugged, and that nothing is lost."""
        heading, lead, more = "The pedals are unplugged", "Plug them in and it goes on.", ""
        if self._alike:
            heading = "Which device is which?"
            lead = "Two devices are alike, and both were plugged in again."
            more = "Leave the set, then set up the pedals."
        if not self.means.label:
            more = f"{more} {SAVED}".strip()
        draw_opening(canvas, heading, lead, more)


class Busy(Menu[bool]):
    """Menu after gaps have voided several repetitions in a row; its outcome: continue the set."""

    name = "busy"
    in_a_bar = True
    back_word = "leave for now"

    def __init__(self) -> None:
        super().__init__([Choice("Go on", True), Choice("Leave for now", False)], back=False)

    def picture(self, canvas: Canvas) -> None:
        """Draw that the computer is too busy to read the pedals, and what helps."""
        draw_advice(canvas, "The computer is busy", BUSY, LOST, REMEDIES)
