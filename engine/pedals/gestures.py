"""Choosing with the feet: brake past half goes on, throttle and clutch tap along the choices."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum

from drills.trace import Sample, nanoseconds
from engine.pedals.identity import Axis
from engine.pedals.travel import FOUND, Travel

PAST_HALF = 50.0
"""%, brake that means yes while it stays there."""
LET_GO = 25.0
"""%, under this a pedal counts as let go; a pedal pressed when a screen opens says nothing."""
KEPT = nanoseconds(0.8)
"""ns the brake must stay past half: longer than a stab, shorter than a wait."""
TAPPED = 40.0
"""%, throttle that a tap reaches."""
TAP_LONGEST = nanoseconds(0.7)
"""ns from tapping the throttle to letting it go."""
TWICE = nanoseconds(0.45)
"""ns from the end of one tap to that of the next, if the two are to be one gesture."""
FREE_FOR = nanoseconds(0.4)
"""ns that all pedals must be let go before feet are heard: longer than a foot hangs in the air."""
BOTH_KEPT = nanoseconds(1.0)
"""ns brake and throttle must stay past half together: no blip lasts as long."""


class Gesture(StrEnum):
    """What the feet said."""

    GO = "go"
    NEXT = "next"
    PREVIOUS = "previous"
    TWICE = "twice"
    """Previous, by a second tap: the first was heard as next already."""
    MENU = "menu"


class AnyPedal:
    """For before the pedals are set up: any axis pressed and let go goes on."""

    def __init__(self) -> None:
        self._travels: dict[Axis, Travel] = {}
        self._pressed: Axis | None = None

    def feed(self, values: Mapping[Axis, float]) -> Gesture | None:
        """Take what every axis reads."""
        self._travels = {axis: seen for axis, seen in self._travels.items() if axis in values}
        if self._pressed not in values:
            self._pressed = None
        for axis, value in values.items():
            travel = self._travels.setdefault(axis, Travel(value))
            travel.take(value)
            if self._pressed is None and travel.length >= FOUND:
                self._pressed = axis
            elif axis == self._pressed and travel.is_let_go(value):
                self._travels, self._pressed = {}, None
                return Gesture.GO
        return None


class Gestures:
    """Turns samples into gestures; one for each screen, so that old pressure means nothing.

    Feet choose only once all pedals were let go for a while: a late blip is no choice.
    """

    def __init__(self) -> None:
        self._brake = _Yes()
        self._throttle, self._clutch = _Tap(), _Tap()
        self._both = _Both()
        self._free_since: int | None = None
        self._heard = False
        self._tapped_at: int | None = None

    @property
    def progress(self) -> float:
        """0 to 1, how long the brake has been kept past half, as a share of what is needed."""
        return self._brake.progress

    def feed(self, sample: Sample) -> Gesture | None:
        """Take the next sample."""
        if self._both.take(sample):
            self._heard, self._free_since = False, None
            self._brake = _Yes()
            return Gesture.MENU
        if not self._hears(sample):
            return None
        if sample.throttle >= LET_GO and sample.brake >= LET_GO:
            # Two pedals at once are on the way to the menu, and choose nothing by themselves.
            self._brake, self._throttle = _Yes(), _Tap()
            return None
        if self._brake.take(sample.time, sample.brake):
            return Gesture.GO
        if self._throttle.take(sample.time, sample.throttle):
            return self._tap(sample.time)
        if sample.clutch is not None and self._clutch.take(sample.time, sample.clutch):
            return Gesture.PREVIOUS
        return None

    def _hears(self, sample: Sample) -> bool:
        """Whether all pedals have been let go for long enough since the screen was opened."""
        free = self._free_since is not None and sample.time - self._free_since >= FREE_FOR
        if free and not self._heard:
            self._heard = True
            self._brake = _Yes(ready=True)
            self._throttle, self._clutch = _Tap(ready=True), _Tap(ready=True)
        if not _is_free(sample):
            self._free_since = None
        elif self._free_since is None:
            self._free_since = sample.time
        return self._heard

    def _tap(self, time: int) -> Gesture:
        """A tap is heard at once; a second one right after it takes it back and goes one back."""
        before, self._tapped_at = self._tapped_at, time
        if before is not None and time - before <= TWICE:
            self._tapped_at = None
            return Gesture.TWICE
        return Gesture.NEXT


def _is_free(sample: Sample) -> bool:
    return max(sample.brake, sample.throttle, sample.clutch or 0.0) < LET_GO


class _Yes:
    """A pedal kept past half."""

    def __init__(self, *, ready: bool = False) -> None:
        """`ready`: it has been let go before."""
        self._ready = ready
        self._since: int | None = None
        self.progress = 0.0

    def take(self, time: int, value: float) -> bool:
        """Whether it has now been kept there for long enough."""
        if value < PAST_HALF:
            self._since, self.progress = None, 0.0
            self._ready = self._ready or value < LET_GO
            return False
        if not self._ready:
            return False
        if self._since is None:
            self._since = time
        self.progress = min((time - self._since) / KEPT, 1.0)
        if self.progress < 1.0:
            return False
        self._ready, self._since, self.progress = False, None, 0.0
        return True


class _Tap:
    """A pedal pressed and let go again soon."""

    def __init__(self, *, ready: bool = False) -> None:
        """`ready`: it has been let go before."""
        self._ready = ready
        self._since: int | None = None

    def take(self, time: int, value: float) -> bool:
        """Whether a tap has just ended."""
        if value < LET_GO:
            since, self._since = self._since, None
            self._ready = True
            return since is not None and time - since <= TAP_LONGEST
        if value >= TAPPED and self._ready:
            self._since, self._ready = time, False
        return False


class _Both:
    """Brake and throttle kept past half together, once both had been let go together."""

    def __init__(self) -> None:
        self._ready = False
        self._since: int | None = None

    def take(self, sample: Sample) -> bool:
        """Whether they have now been kept there for long enough."""
        self._ready = self._ready or _is_free(sample)
        if min(sample.brake, sample.throttle) < PAST_HALF or not self._ready:
            self._since = None
            return False
        if self._since is None:
            self._since = sample.time
        if sample.time - self._since < BOTH_KEPT:
            return False
        self._ready, self._since = False, None
        return True
