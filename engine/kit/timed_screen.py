"""Base class of screens that end by themselves, and the line that shows the time left."""

from __future__ import annotations

import math
from collections.abc import Hashable
from enum import Enum

from drills.trace import SECOND, Sample, nanoseconds
from engine.kit import theme, widgets
from engine.kit.base import Place, Screen, T
from engine.kit.canvas import Canvas
from engine.stage.actions import Action

TOP = 12
"""Position of the line that shows the time left, in canvas units from the top of the screen."""
THICK = 4
"""Thickness of the line that shows the time left, in canvas units."""
READING = 25.0
"""Throttle from which on a timed screen stays, so that the player can read on, in %."""
TOO_SOON = nanoseconds(1.0)
"""Time after a timed screen opens in which a click is ignored, in ns: it may be a late blip."""


def left_words(share: float, lasts: float) -> str:
    """Time left in words, such as "3 min left": a share of `lasts` minutes, rounded up."""
    minutes = math.ceil(share * lasts)
    if minutes < 1:
        return "time is up"
    return f"{minutes} min left" if minutes > 1 else "the last minute"


def time_left(canvas: Canvas, place: Place | None) -> None:
    """Draw the time left of a session along the upper edge, unless it does not end by time."""
    if place is None or place.left is None:
        return
    share = min(max(place.left, 0.0), 1.0)
    right = float(theme.WIDTH - theme.MARGIN)
    across = (right - theme.MARGIN) * share
    canvas.line((theme.MARGIN, TOP), (right, TOP), theme.BAND, THICK)
    canvas.line((theme.MARGIN, TOP), (theme.MARGIN + across, TOP), theme.QUIET, THICK)
    words = left_words(share, place.lasts)
    canvas.text(words, (right, TOP + 10), theme.SMALL, theme.QUIET, "right")


class TimedOutcome(Enum):
    """How a timed screen ends: with the next repetition, or with the menu."""

    ON = "on"
    MENU = "menu"


class TimedScreen(Screen[T]):
    """Screen that goes on by itself after a while, sooner on request, or leads to the menu."""

    feet_choose = True

    def __init__(self, on: T, menu: T, stay: float, place: Place | None = None) -> None:
        """`on` is the outcome after `stay` seconds or on request, `menu` that of leaving early.

        If `place` has a time, the time left of the session is shown.
        """
        super().__init__()
        self._on = on
        self._menu = menu
        self._stay = stay
        self._place = place
        self._opened: int | None = None
        self._time = 0
        self._reading = False
        self._focused = True

    @property
    def left(self) -> int:
        """Seconds until the screen goes on by itself, rounded up."""
        passed = 0 if self._opened is None else self._time - self._opened
        return max(math.ceil(self._stay - passed / SECOND), 0)

    def on_action(self, action: Action) -> None:
        """Go on at once, or leave for the menu, as the player asks."""
        if action is Action.GO:
            self.outcome = self._on
        elif action in (Action.BACK, Action.MENU):
            self.outcome = self._menu

    def on_pointer(self, at: tuple[int, int], *, pressed: bool) -> None:
        """Go on at once on a click, unless it comes TOO_SOON after opening."""
        if pressed and self._opened is not None and self._time - self._opened >= TOO_SOON:
            self.outcome = self._on

    def on_focus(self, focused: bool, now: int) -> None:
        """Restart the countdown when the window gets the focus back, as nobody reads without it."""
        self._focused = focused
        if not focused:
            self._opened = None

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Advance the countdown; the screen stays while the throttle is held."""
        if not self._focused:
            return
        if self._opened is None:
            self._opened = now
        self._time = now
        self._reading = sample is not None and sample.throttle >= READING
        if not self._reading and now - self._opened >= self._stay * SECOND:
            self.outcome = self._on

    def appearance(self) -> Hashable:
        """State that the drawn screen depends on: countdown, throttle, focus and input methods."""
        return self.left, self._reading, self._focused, self.means

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the picture, the time left of the session, and the hint."""
        self.picture(canvas)
        time_left(canvas, self._place)
        widgets.foot(canvas, self.hint)

    def picture(self, canvas: Canvas) -> None:
        """Draw everything above the hint of the screen; subclasses override it."""

    @property
    def hint(self) -> str:
        """Line at the foot of the screen: what happens next, and how to change that."""
        if not self._focused:
            return "Click here to go on"
        if self._reading:
            return "Reading on: let the throttle go when you are done"
        hold = "hold the throttle to read on    brake and throttle: menu" if self.means.feet else ""
        keys = "Enter: at once    Esc: menu"
        parts = (f"{self.note}Next in {self.left} s", hold, keys)
        return "    ".join(part for part in parts if part)

    @property
    def note(self) -> str:
        """Text to put before the hint at the foot of the screen; empty for none."""
        return ""
