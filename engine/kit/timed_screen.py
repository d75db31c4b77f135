"""Screen that ends by itself after a while, and the line of time that is left."""

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
"""units from the top, where the line is."""
THICK = 4
"""units, of the line."""
READING = 25.0
"""%, throttle at or above this is held to read on."""
TOO_SOON = nanoseconds(1.0)
"""ns after it opened in which a click means nothing: it may be a late blip of the mouse."""


def left_words(share: float, lasts: float) -> str:
    """Such as "3 min left", of `lasts` min: minutes begun, so that none is said too early."""
    minutes = math.ceil(share * lasts)
    if minutes < 1:
        return "time is up"
    return f"{minutes} min left" if minutes > 1 else "the last minute"


def time_left(canvas: Canvas, place: Place | None) -> None:
    """Draw it along the upper edge; nothing where the place does not know it."""
    if place is None or place.left is None:
        return
    share = min(max(place.left, 0.0), 1.0)
    right = float(theme.WIDTH - theme.MARGIN)
    across = (right - theme.MARGIN) * share
    canvas.line((theme.MARGIN, TOP), (right, TOP), theme.BAND, THICK)
    canvas.line((theme.MARGIN, TOP), (theme.MARGIN + across, TOP), theme.QUIET, THICK)
    said = left_words(share, place.lasts)
    canvas.text(said, (right, TOP + 10), theme.SMALL, theme.QUIET, "right")


class TimedOutcome(Enum):
    """What follows a look back."""

    ON = "on"
    MENU = "menu"


class TimedScreen(Screen[T]):
    """Ends with one outcome by itself or at once when asked, and with another by the menu."""

    feet_choose = True

    def __init__(self, on: T, menu: T, stay: float, place: Place | None = None) -> None:
        """`on` is the outcome after `stay` s, `menu` the one of leaving another way.

        The time left is shown where `place` knows it.
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
        """s, whole ones begun, until it ends by itself."""
        passed = 0 if self._opened is None else self._time - self._opened
        return max(math.ceil(self._stay - passed / SECOND), 0)

    def on_action(self, action: Action) -> None:
        """Go on at once, or by the menu."""
        if action is Action.GO:
            self.outcome = self._on
        elif action in (Action.BACK, Action.MENU):
            self.outcome = self._menu

    def on_pointer(self, at: tuple[int, int], *, pressed: bool) -> None:
        """A click goes on, once it cannot be a late blip any more."""
        if pressed and self._opened is not None and self._time - self._opened >= TOO_SOON:
            self.outcome = self._on

    def on_focus(self, focused: bool, now: int) -> None:
        """Without the focus nobody reads it: it waits, and then begins its time anew."""
        self._focused = focused
        if not focused:
            self._opened = None

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Time goes on, but while the throttle is held it does not end."""
        if not self._focused:
            return
        if self._opened is None:
            self._opened = now
        self._time = now
        self._reading = sample is not None and sample.throttle >= READING
        if not self._reading and now - self._opened >= self._stay * SECOND:
            self.outcome = self._on

    def appearance(self) -> Hashable:
        """The seconds left, and whether it is kept."""
        return self.left, self._reading, self._focused, self.means

    def paint(self, canvas: Canvas, press: float) -> None:
        """The picture, over it the time that is left, and at its foot what happens next."""
        self.picture(canvas)
        time_left(canvas, self._place)
        widgets.foot(canvas, self.hint)

    def picture(self, canvas: Canvas) -> None:
        """Everything above the foot."""

    @property
    def hint(self) -> str:
        """What happens next, and what can be done about it."""
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
        """Something to be said first at the foot; empty where there is nothing."""
        return ""
