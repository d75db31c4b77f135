"""Asking and choosing with pedals that are not set up yet: two at once, a tap, a press that stays.

How far a pedal is pressed is told by what it has shown so far; no scale is known yet.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from drills.calibration import Range
from drills.trace import nanoseconds
from engine.pedals.gestures import KEPT, TAP_LONGEST, Gesture
from engine.pedals.identity import Axis
from engine.pedals.travel import FOUND, Travel

HALF = 0.5
"""1, share of what it has shown past which a pedal is pressed."""
LET_GO = 0.25
"""1, share under which it is let go."""
TOGETHER = nanoseconds(1.0)
"""ns that two must stay pressed: no stab and no slip of a foot lasts so long."""
ONE_FOOT = nanoseconds(0.012)
"""ns within which two axes of one device pass half where one pedal moves both, as some do."""
ALL_OFF = nanoseconds(0.4)
"""ns that all must be let go before a menu hears them."""
STUCK = nanoseconds(3.0)
"""ns after which an axis is waited for no more until it is let go: a wheel may stay turned."""


class Presses:
    """How far each axis is pressed, as a share of the farthest it has been.

    One that is 0.0 from the first may not have been told yet, and is not pressed.
    """

    def __init__(self, known: Mapping[Axis, Range] | None = None) -> None:
        """`known` are the axes whose ends are known already."""
        self._known = dict(known or {})
        self._travels: dict[Axis, Travel] = {}
        self._reach: dict[Axis, float] = {}

    def know(self, known: Mapping[Axis, Range]) -> None:
        """These ends are known by now."""
        self._known = dict(known)

    def rest(self, values: Mapping[Axis, float], axes: Collection[Axis]) -> None:
        """The feet are off and these axes rest: from here on they are followed."""
        self._travels = {axis: Travel(values[axis]) for axis in axes if axis in values}

    def shares(self, values: Mapping[Axis, float]) -> Mapping[Axis, float]:
        """Take what every axis reads; how far each that is followed is pressed."""
        shares = {}
        for axis, travel in self._travels.items():
            if axis in values:
                shares[axis] = self._share(axis, travel, values[axis])
        return shares

    def _share(self, axis: Axis, travel: Travel, value: float) -> float:
        travel.take(value)
        if axis in self._known:
            told = travel.moved or value != 0.0
            return self._known[axis].percent(value) / 100 if told else 0.0
        farthest = max(FOUND, travel.reach, self._reach.get(axis, 0.0))
        self._reach[axis] = farthest
        return travel.farther * (value - travel.start) / farthest if travel.moved else 0.0


class Together:
    """Two pedals pressed together and kept so ask for the menu."""

    def __init__(self) -> None:
        self._past: dict[Axis, int] = {}

    def feed(self, time: int, shares: Mapping[Axis, float]) -> bool:
        """Take how far all are pressed; whether two have been for long enough."""
        self._past = {
            axis: self._past.get(axis, time) for axis, share in shares.items() if share >= HALF
        }
        long = [axis for axis, since in self._past.items() if time - since >= TOGETHER]
        return any(self._are_two(one, other) for one in long for other in long)

    def _are_two(self, one: Axis, other: Axis) -> bool:
        """Two axes, and not both moved by one pedal."""
        apart = abs(self._past[one] - self._past[other])
        return one != other and (one.device != other.device or apart > ONE_FOOT)


class TapOrStay:
    """Choosing in a menu with any pedal: a tap is the next choice, one that stays says yes."""

    def __init__(self) -> None:
        self._waits_since: int | None = None
        self._off_since: int | None = None
        self._stuck: set[Axis] = set()
        self._heard = False
        self._pressed: tuple[Axis, int] | None = None
        self._progress = 0.0

    @property
    def progress(self) -> float:
        """0 to 1, how long a pedal has stayed pressed, as a share of what is needed."""
        return self._progress

    def feed(self, time: int, shares: Mapping[Axis, float]) -> Gesture | None:
        """Take how far all are pressed."""
        self._stuck = {axis for axis in self._stuck if shares.get(axis, 0.0) >= LET_GO}
        shares = {axis: share for axis, share in shares.items() if axis not in self._stuck}
        if not self._heard:
            self._wait(time, shares)
            return None
        if self._pressed is None:
            down = [axis for axis, share in shares.items() if share >= HALF]
            self._pressed = (down[0], time) if down else None
            return None
        axis, since = self._pressed
        share = shares.get(axis, 0.0)
        self._progress = min((time - since) / KEPT, 1.0) if share >= HALF else 0.0
        if self._progress == 1.0:
            self._waits_since = self._off_since = self._pressed = None
            self._heard, self._progress = False, 0.0
            return Gesture.GO
        if share >= LET_GO:
            return None
        self._pressed = None
        return Gesture.NEXT if time - since <= TAP_LONGEST else None

    def _wait(self, time: int, shares: Mapping[Axis, float]) -> None:
        """Nothing is heard until all have been let go for a moment."""
        self._waits_since = self._waits_since or time
        down = {axis for axis, share in shares.items() if share >= LET_GO}
        if down and time - self._waits_since < STUCK:
            self._off_since = None
            return
        self._stuck |= down
        self._off_since = self._off_since or time
        self._heard = time - self._off_since >= ALL_OFF
