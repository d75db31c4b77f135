"""Base class of screens that end by themselves, and the line that shows the time left."""

from __future__ import annotations

import math
from collections.abc import Hashable
from enum import Enum

import pygame

from drills.trace import SECOND, Sample, nanoseconds
from engine.kit import theme, widgets
from engine.kit.base import Place, Screen, T
from engine.kit.canvas import Canvas
from engine.kit.looks import Look, Looks
from engine.kit.timed_words import FOCUS_LOST, READ_ON, asking_hint, held_hint, stepping_hint
from engine.stage.actions import Action

TOP = 20
"""Position of the line that shows the time left, in canvas units from the top of the screen."""
THICK = 4
"""Thickness of the line that shows the time left, in canvas units."""
READING = 25.0
"""Throttle from which on a timed screen stays, so that the player can read on, in %."""
TOO_SOON = nanoseconds(1.0)
"""Time after a timed screen opens in which a click is ignored, in ns: it may be a late blip."""
TAP = nanoseconds(0.3)
"""Time after the throttle was let go in which Action.NEXT is taken for a tap of it, in ns: a tap
asks for nothing here, as a late blip is one."""
HELD = nanoseconds(0.3)
"""Time that the throttle must be held to ask for something, in ns: longer than most blips."""
AFTER_DETAILS = nanoseconds(1.0)
"""Least time that a screen stays after its details were closed, in ns: a look back at the one
thing they are about."""
RING_STEPS = 24
"""Number of steps in which the ring of the time left gets shorter."""
RING = (theme.WIDTH - theme.MARGIN - 24.0, 1037.0)
"""Middle of the ring of the time left, in canvas units."""
HINT_GAP = 24
"""Gap between the hint and the ring, in canvas units."""


def left_words(share: float, lasts: float) -> str:
    """Time left in words, such as "3 min left": a share of `lasts` minutes, rounded up."""
    minutes = math.ceil(share * lasts)
    if minutes < 1:
        return "time is up"
    return f"{minutes} min left" if minutes > 1 else "the last minute"


def time_left(canvas: Canvas, place: Place | None, *, words: bool = True) -> None:
    """Draw the time left of a session along the upper edge, unless it does not end by time.

    `words` is whether it is written too, in whole minutes.
    """
    if place is None or place.left is None:
        return
    share = min(max(place.left, 0.0), 1.0)
    right = float(theme.WIDTH - theme.MARGIN)
    across = (right - theme.MARGIN) * share
    canvas.line((theme.MARGIN, TOP), (right, TOP), theme.BAND, THICK)
    canvas.line((theme.MARGIN, TOP), (theme.MARGIN + across, TOP), theme.QUIET, THICK)
    if words:
        text = left_words(share, place.lasts)
        canvas.text(text, (right, TOP + 14), theme.SMALL, theme.QUIET, "right")


class TimedOutcome(Enum):
    """How a timed screen ends: with the next repetition, or with the menu."""

    ON = "on"
    MENU = "menu"


class TimedScreen(Screen[T]):
    """Screen that goes on by itself after a while, sooner on request, or leads to the menu.

    It stays while the throttle is held. One that has more to show does so meanwhile, or steps
    through it by Action.NEXT or a click on the hint; its time waits.
    """

    feet_choose = True

    def __init__(self, on: T, menu: T, stay: float, place: Place | None = None) -> None:
        """`on` is the outcome after `stay` seconds or on request, `menu` that of leaving early.

        If `place` has a time, the time left of the session is shown.
        """
        super().__init__()
        self._on = on
        self._menu = menu
        self.looks = Looks()
        """What the screen shows on request, and which of it is on now."""
        self.looked_into = 0
        """Time for which something was shown on request, in ns."""
        self._stay = stay
        self._place = place
        self._opened: int | None = None
        self._ends = 0
        self._time = 0
        self._pressed_at: int | None = None
        self._held_since: int | None = None
        self._let_go = False
        self._reading = False
        self._focused = True
        self._hint_at = pygame.Rect(0, 0, 0, 0)

    @property
    def share(self) -> float:
        """Share of its time that is left until the screen goes on by itself, 1 to 0."""
        if self._opened is None:
            return 1.0
        return min(max((self._ends - self._time) / (self._stay * SECOND), 0.0), 1.0)

    @property
    def shows_more(self) -> bool:
        """Whether something is shown on request."""
        return self.looks.now is not Look.MAIN

    def on_action(self, action: Action) -> None:
        """Go on at once, leave for the menu, or show what is next on request."""
        if action is Action.GO:
            self.outcome = self._on
        elif action in (Action.BACK, Action.MENU):
            self.outcome = self._menu
        elif action is Action.NEXT and not self._is_tap:
            self.looks.step()

    def on_pointer(self, at: tuple[int, int], *, pressed: bool) -> None:
        """Go on at once on a click, or show what is next on request where it is on the hint.

        A click that comes TOO_SOON after opening is ignored.
        """
        if not pressed or self._opened is None or self._time - self._opened < TOO_SOON:
            return
        if self.looks and self._hint_at.collidepoint(at):
            self.looks.step()
            # The mouse button may be the throttle: this press of it asks for nothing else.
            self._let_go, self._held_since = False, None
        else:
            self.outcome = self._on

    def on_focus(self, focused: bool, now: int) -> None:
        """Restart the countdown when the window gets the focus back, as nobody reads without it."""
        self._focused = focused
        if not focused:
            self._opened, self._held_since, self._let_go = None, None, False
            self.looks.leave_replay()
            self.looks.let_go()

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Advance the countdown; it waits for the throttle and for what is shown on request.

        The throttle must have been let go since the screen opened, as a late blip asks for nothing.
        """
        if not self._focused:
            return
        if self._opened is None:
            self._opened, self._ends, self._time = now, now + nanoseconds(self._stay), now
        if self.shows_more:
            self.looked_into += now - self._time
            self._ends = max(self._ends + now - self._time, now + AFTER_DETAILS)
        self._time = now
        self._reading = sample is not None and sample.throttle >= READING
        self._hold(now)
        if not self._reading and now >= self._ends:
            self.outcome = self._on

    def _hold(self, now: int) -> None:
        """Follow the throttle: show what a hold asks for, and end that as it is let go."""
        if not self._reading:
            self._let_go, self._held_since = True, None
            self.looks.let_go()
            return
        self._pressed_at = now
        if self._let_go and self._held_since is None:
            self._held_since = now
        if self._held_since is not None and now - self._held_since >= HELD:
            self.looks.hold()

    def appearance(self) -> Hashable:
        """State that the drawn screen depends on: ring, look, hint, focus and input methods."""
        ring = math.ceil(self.share * RING_STEPS)
        return ring, self.looks.now, self.hint, self._focused, self.means

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the picture, the time left of the session, the hint, and the ring of time left."""
        self.picture(canvas)
        time_left(canvas, self._place, words=False)
        self._draw_hint(canvas)
        if self._focused and not self.shows_more:
            widgets.ring(canvas, RING, math.ceil(self.share * RING_STEPS) / RING_STEPS)

    def picture(self, canvas: Canvas) -> None:
        """Draw everything above the hint of the screen; subclasses override it."""

    @property
    def hint(self) -> str:
        """Line at the foot of the screen: how to stop it from going on, or to go on."""
        if not self._focused:
            return FOCUS_LOST
        if not self.looks:
            return held_hint(Look.MAIN) if self._reading else READ_ON if self.means.feet else ""
        if self.looks.is_held:
            return held_hint(self.looks.now)
        if self.shows_more:
            return stepping_hint(self.means, self.looks.after_key)
        if self._reading and not self._let_go:
            return held_hint(Look.MAIN)
        return asking_hint(self.means, self.looks.after_hold, self.looks.after_key)

    @property
    def _is_tap(self) -> bool:
        """Whether an action that comes now may be a tap of the throttle."""
        return self._pressed_at is not None and self._time - self._pressed_at < TAP

    def _draw_hint(self, canvas: Canvas) -> None:
        """Write the hint left of the ring, and note where a click on it would be."""
        right = RING[0] - 24 - HINT_GAP
        wide = canvas.measure(self.hint, theme.SMALL)
        corner, size = (right - wide - 10, theme.FOOT - 14.0), (wide + 20, theme.SMALL + 8.0)
        self._hint_at = canvas.box(corner, size, theme.GROUND)
        canvas.text(self.hint, (right, theme.FOOT), theme.SMALL, theme.QUIET, "right")
