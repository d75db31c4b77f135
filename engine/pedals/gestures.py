"""Foot gestures in menus: holding the brake chooses, taps of throttle and clutch select."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum

from drills.trace import Sample, nanoseconds
from engine.pedals.identity import Axis
from engine.pedals.travel import FOUND, Travel

PAST_HALF = 50.0
"""Brake that chooses in a menu while it is held there, in %."""
LET_GO = 25.0
"""Position under which a pedal counts as released, in %."""
HOLD_TIME = nanoseconds(0.8)
"""Time that the brake must be held to choose in a menu, in ns: longer than a stab, but no long
wait."""
TAPPED = 40.0
"""Position that a pedal must reach for a tap, in %."""
TAP_LONGEST = nanoseconds(0.7)
"""Longest time from the press of a pedal to its release that makes a tap, in ns."""
TWICE = nanoseconds(0.45)
"""Longest time between the ends of two taps that make one double tap, in ns."""
FREE_FOR = nanoseconds(0.4)
"""Time that all pedals must be released before gestures count, in ns: longer than a foot stays in
the air between two blips."""
BOTH_HOLD_TIME = nanoseconds(1.0)
"""Time that brake and throttle must be held past half to open the menu, in ns; no blip is as
long."""


class Gesture(StrEnum):
    """Gesture of the feet on the pedals, by what it asks for."""

    GO = "go"
    NEXT = "next"
    PREVIOUS = "previous"
    TWICE = "twice"
    """Second tap of a double tap, which means previous; the first one has counted as next."""
    MENU = "menu"


class AnyPedal:
    """Gesture detector for unbound pedals: pressing and releasing any axis confirms in a menu."""

    def __init__(self) -> None:
        self._travels: dict[Axis, Travel] = {}
        self._pressed: Axis | None = None

    def feed(self, values: Mapping[Axis, float]) -> Gesture | None:
        """Take the raw value of every axis; returns Gesture.GO when a pressed axis is released."""
        self._travels = {axis: past for axis, past in self._travels.items() if axis in values}
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
    """Detector of foot gestures on calibrated pedals; each screen has a new one.

    Gestures count only after all pedals were released for a while, so that neither a late blip
    nor a pedal that was pressed as the screen opened chooses anything.
    """

    def __init__(self, *, double_taps: bool = True) -> None:
        """`double_taps` is whether two quick taps are one double tap, or count as two."""
        self._double_taps = double_taps
        self._brake = _Hold()
        self._throttle, self._clutch = _Tap(), _Tap()
        self._both = _Both()
        self._free_since: int | None = None
        self._listens = False
        self._tapped_at: int | None = None

    @property
    def progress(self) -> float:
        """Share of the time needed to choose that the brake has been held past half, 0 to 1."""
        return self._brake.progress

    def feed(self, sample: Sample) -> Gesture | None:
        """Take the next sample of the pedals; returns the gesture that ends with it, if any."""
        if self._both.take(sample):
            self._listens, self._free_since = False, None
            self._brake = _Hold()
            return Gesture.MENU
        if not self._counts(sample):
            return None
        if sample.throttle >= LET_GO and sample.brake >= LET_GO:
            # Two pedals at once may open the menu; neither chooses anything by itself.
            self._brake, self._throttle = _Hold(), _Tap()
            return None
        if self._brake.take(sample.time, sample.brake):
            return Gesture.GO
        if self._throttle.take(sample.time, sample.throttle):
            return self._tap(sample.time)
        if sample.clutch is not None and self._clutch.take(sample.time, sample.clutch):
            return Gesture.PREVIOUS
        return None

    def _counts(self, sample: Sample) -> bool:
        """Whether gestures count: all pedals were released for FREE_FOR since the screen opened."""
        free = self._free_since is not None and sample.time - self._free_since >= FREE_FOR
        if free and not self._listens:
            self._listens = True
            self._brake = _Hold(ready=True)
            self._throttle, self._clutch = _Tap(ready=True), _Tap(ready=True)
        if not _is_free(sample):
            self._free_since = None
        elif self._free_since is None:
            self._free_since = sample.time
        return self._listens

    def _tap(self, time: int) -> Gesture:
        """Gesture of a tap that ends at `time` (ns): NEXT, or TWICE for the second of two."""
        before, self._tapped_at = self._tapped_at, time
        if self._double_taps and before is not None and time - before <= TWICE:
            self._tapped_at = None
            return Gesture.TWICE
        return Gesture.NEXT


def _is_free(sample: Sample) -> bool:
    return max(sample.brake, sample.throttle, sample.clutch or 0.0) < LET_GO


class _Hold:
    """Detector of one pedal that is held past half."""

    def __init__(self, *, ready: bool = False) -> None:
        """`ready` is whether the pedal has been released before, so that a hold may begin."""
        self._ready = ready
        self._since: int | None = None
        self.progress = 0.0

    def take(self, time: int, value: float) -> bool:
        """Whether the pedal, now at `value` %, has been held past half for HOLD_TIME."""
        if value < PAST_HALF:
            self._since, self.progress = None, 0.0
            self._ready = self._ready or value < LET_GO
            return False
        if not self._ready:
            return False
        if self._since is None:
            self._since = time
        self.progress = min((time - self._since) / HOLD_TIME, 1.0)
        if self.progress < 1.0:
            return False
        self._ready, self._since, self.progress = False, None, 0.0
        return True


class _Tap:
    """Detector of taps of one pedal, pressed and soon released."""

    def __init__(self, *, ready: bool = False) -> None:
        """`ready` is whether the pedal has been released before, so that a tap may begin."""
        self._ready = ready
        self._since: int | None = None

    def take(self, time: int, value: float) -> bool:
        """Whether a tap of the pedal, now at `value` %, ends at `time` (ns)."""
        if value < LET_GO:
            since, self._since = self._since, None
            self._ready = True
            return since is not None and time - since <= TAP_LONGEST
        if value >= TAPPED and self._ready:
            self._since, self._ready = time, False
        return False


class _Both:
    """Detector of brake and throttle that are held past half together, once both were released."""

    def __init__(self) -> None:
        self._ready = False
        self._since: int | None = None

    def take(self, sample: Sample) -> bool:
        """Whether brake and throttle have both been held past half for BOTH_HOLD_TIME."""
        self._ready = self._ready or _is_free(sample)
        if min(sample.brake, sample.throttle) < PAST_HALF or not self._ready:
            self._since = None
            return False
        if self._since is None:
            self._since = sample.time
        if sample.time - self._since < BOTH_HOLD_TIME:
            return False
        self._ready, self._since = False, None
        return True
