"""Foot gestures with pedals that are not calibrated yet: two at once, a tap, and a held press.

As there is no calibration, a press is measured as a share of the farthest press so far.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from drills.calibration import Range
from drills.trace import nanoseconds
from engine.pedals.gestures import HOLD_TIME, TAP_LONGEST, Gesture
from engine.pedals.identity import Axis
from engine.pedals.travel import FOUND, Travel

HALF = 0.5
"""Share of its farthest press past which a pedal without calibration counts as pressed."""
LET_GO = 0.25
"""Share of its farthest press under which a pedal without calibration counts as released."""
TOGETHER = nanoseconds(1.0)
"""Time that two pedals must stay pressed to open the menu, in ns: longer than a stab or a slip."""
ONE_FOOT = nanoseconds(0.012)
"""Longest time between two axes of a device passing half that a single pedal explains, in ns."""
ALL_OFF = nanoseconds(0.4)
"""Time that all pedals must be released before a tap or a hold counts, in ns."""
STUCK = nanoseconds(3.0)
"""Time until an axis that stays pressed is ignored until its release, in ns: a wheel may stay
turned."""


class Presses:
    """Measures how far each axis is pressed, as a share of its farthest press.

    An axis that has read 0.0 from the first may not have reported yet, and counts as released.
    """

    def __init__(self, calibrated: Mapping[Axis, Range] | None = None) -> None:
        """`calibrated` are the axes whose ends are known already, with their ranges."""
        self._calibrated = dict(calibrated or {})
        self._travels: dict[Axis, Travel] = {}
        self._reach: dict[Axis, float] = {}

    def calibrate(self, calibrated: Mapping[Axis, Range]) -> None:
        """Replace the axes whose ends are known, and their ranges."""
        self._calibrated = dict(calibrated)

    def rest(self, values: Mapping[Axis, float], axes: Collection[Axis]) -> None:
        """Measure these axes from now on; the feet are off and `values` are their rest."""
        self._travels = {axis: Travel(values[axis]) for axis in axes if axis in values}

    def shares(self, values: Mapping[Axis, float]) -> Mapping[Axis, float]:
        """Take the raw value of every axis; returns how far each measured axis is pressed."""
        shares = {}
        for axis, travel in self._travels.items():
            if axis in values:
                shares[axis] = self._share(axis, travel, values[axis])
        return shares

    def _share(self, axis: Axis, travel: Travel, value: float) -> float:
        travel.take(value)
        if axis in self._calibrated:
            has_reported = travel.moved or value != 0.0
            return self._calibrated[axis].percent(value) / 100 if has_reported else 0.0
        farthest = max(FOUND, travel.reach, self._reach.get(axis, 0.0))
        self._reach[axis] = farthest
        return travel.farther * (value - travel.start) / farthest if travel.moved else 0.0


class Together:
    """Detector of two pedals held down together, which opens the menu."""

    def __init__(self) -> None:
        self._past: dict[Axis, int] = {}

    def feed(self, time: int, shares: Mapping[Axis, float]) -> bool:
        """Take how far each axis is pressed; returns whether two have been for TOGETHER."""
        self._past = {
            axis: self._past.get(axis, time) for axis, share in shares.items() if share >= HALF
        }
        long = [axis for axis, since in self._past.items() if time - since >= TOGETHER]
        return any(self._are_two(one, other) for one in long for other in long)

    def _are_two(self, one: Axis, other: Axis) -> bool:
        """Whether two axes are moved by two pedals, not both by a single one."""
        apart = abs(self._past[one] - self._past[other])
        return one != other and (one.device != other.device or apart > ONE_FOOT)


class TapOrStay:
    """Gesture detector for a menu with any pedal: a tap selects the next choice, a hold chooses."""

    def __init__(self) -> None:
        self._waits_since: int | None = None
        self._off_since: int | None = None
        self._stuck: set[Axis] = set()
        self._listens = False
        self._pressed: tuple[Axis, int] | None = None
        self._progress = 0.0

    @property
    def progress(self) -> float:
        """Share of the time needed to choose that a pedal has been held down, from 0 to 1."""
        return self._progress

    def feed(self, time: int, shares: Mapping[Axis, float]) -> Gesture | None:
        """Take how far each axis is pressed; returns the gesture that ends now, if any."""
        self._stuck = {axis for axis in self._stuck if shares.get(axis, 0.0) >= LET_GO}
        shares = {axis: share for axis, share in shares.items() if axis not in self._stuck}
        if not self._listens:
            self._wait(time, shares)
            return None
        if self._pressed is None:
            down = [axis for axis, share in shares.items() if share >= HALF]
            self._pressed = (down[0], time) if down else None
            return None
        axis, since = self._pressed
        share = shares.get(axis, 0.0)
        self._progress = min((time - since) / HOLD_TIME, 1.0) if share >= HALF else 0.0
        if self._progress == 1.0:
            self._waits_since = self._off_since = self._pressed = None
            self._listens, self._progress = False, 0.0
            return Gesture.GO
        if share >= LET_GO:
            return None
        self._pressed = None
        return Gesture.NEXT if time - since <= TAP_LONGEST else None

    def _wait(self, time: int, shares: Mapping[Axis, float]) -> None:
        """Let gestures count once all pedals have been released for ALL_OFF."""
        self._waits_since = self._waits_since or time
        down = {axis for axis, share in shares.items() if share >= LET_GO}
        if down and time - self._waits_since < STUCK:
            self._off_since = None
            return
        self._stuck |= down
        self._off_since = self._off_since or time
        self._listens = time - self._off_since >= ALL_OFF
