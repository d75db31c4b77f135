"""Search for the axis of a pedal: the first one that is pressed far, or a little and held there.

A movement counts if it exceeds the noise of the axis with the feet off. An axis without a measured
noise, because it kept moving or was plugged in later, takes part once it has rested.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from drills.calibration import SPAN_LEAST, Range
from drills.trace import nanoseconds
from engine.pedals.at_rest import AtRest
from engine.pedals.identity import Axis
from engine.pedals.travel import FOUND, NEAR, STILL_FOR, Still, Travel
from engine.pedals.trouble import Trouble

NOISES = 4.0
"""Smallest movement that counts as deliberate, as a multiple of the noise of the axis."""
MOVED = 0.03
"""Smallest movement of an axis that is reported, in raw units; SDL may hold back and jump by
0.0125."""
SIDE = 0.15
"""Movement of an axis to the other side of its start that shows a wheel, in raw units: 27 degrees
of one that turns 360."""
SOFT_FOR = nanoseconds(1.0)
"""Time that a pedal with little travel must be held down to be found, in ns."""
MIDDLE = 0.3
"""Distance from 0 within which an axis at rest may be that of a wheel, in raw units."""
PATIENT = nanoseconds(4.0)
"""Time until a waiting player is told why no pedal is found, in ns: within 5 s, reading
included."""
INSISTED = nanoseconds(3.0)
"""Time that another pedal must be held down to be taken instead, in ns: enough to read about it."""
PRESSED = 0.75
"""Share of its farthest movement beyond which an axis counts as held down."""
LASTING = frozenset({Trouble.SHARED, Trouble.TAKEN, Trouble.REFUSED})
"""Troubles whose text stays on the screen until something else moves."""


def shows(noise: float) -> float:
    """Smallest movement that is reported of an axis with this noise, both in raw units."""
    return max(MOVED, NOISES * noise)


class Seeker:
    """Searches all axes for the one that the player presses as a pedal."""

    def __init__(
        self, noise: Mapping[Axis, float], taken: Mapping[Axis, Range], refused: Collection[Axis]
    ) -> None:
        """`noise` is the noise of each axis at rest, in raw units.

        `taken` axes are bound to other pedals already; `refused` axes are ignored.
        """
        self.noise = dict(noise)
        """Noise of each axis that is searched, in raw units."""
        self.found: Axis | None = None
        """Axis that was pressed far enough or held down; it may be a taken one."""
        self.trouble: Trouble | None = None
        """Reason why no axis is found after a while; None before."""
        self.about: Axis | None = None
        """Axis that the trouble is about; None if it is about no single axis."""
        self._taken = taken
        self._refused = refused
        self._travels: dict[Axis, Travel] = {}
        self._straight: dict[Axis, Still] = {}
        self._joining: dict[Axis, AtRest] = {}
        self._since: int | None = None
        self._most: Axis | None = None
        self._still = Still()

    def travel(self, axis: Axis) -> Travel:
        """Movement of an axis since the search began."""
        return self._travels[axis]

    @property
    def most(self) -> Axis | None:
        """Axis that has moved most beyond its noise; None if none has."""
        return self._most

    def feed(self, time: int, values: Mapping[Axis, float]) -> None:
        """Continue to search for the pedal with the raw value of every axis at `time` (ns)."""
        if self._since is None:
            self._since = time
        self._take(time, values)
        held = self._find_most(time, values)
        if self._most is None or not self._is_pressed(self._most, held):
            self._explain(time - self._since)
        else:
            self.found = self._most

    def _take(self, time: int, values: Mapping[Axis, float]) -> None:
        for unplugged in [axis for axis in self._travels if axis not in values]:
            del self._travels[unplugged]
        for axis, value in values.items():
            if axis not in self.noise:
                rest = self._joining.setdefault(axis, AtRest({}))
                rest.feed(time, {axis: value})
                if axis not in rest.noise:
                    continue
                self.noise[axis] = rest.noise[axis]
            if axis not in self._refused:
                self._travels.setdefault(axis, Travel(value)).take(value)
                self._straighten(time, axis, value)

    def _straighten(self, time: int, axis: Axis, value: float) -> None:
        """Take the rest of an axis again where it comes to rest in the middle as a wheel does."""
        if not self._was_turned(axis) or not self._travels[axis].is_straight(value):
            self._straight.pop(axis, None)
        elif self._straight.setdefault(axis, Still()).take(time, value) >= STILL_FOR:
            self._travels[axis] = Travel(value)

    def _was_turned(self, axis: Axis) -> bool:
        """Whether an axis may be a wheel that was held to one side, and no pedal found before."""
        return axis not in self._taken and self._travels[axis].was_turned

    def _reach(self, axis: Axis) -> float:
        """Movement of an axis that may be a press, in raw units.

        Of one that may be a wheel let go, only what goes beyond the middle, or away from it.
        """
        travel = self._travels[axis]
        if not self._was_turned(axis):
            return travel.reach
        if travel.start > 0:
            return max(travel.high - travel.start, -travel.low)
        return max(travel.start - travel.low, travel.high)

    def _find_most(self, time: int, values: Mapping[Axis, float]) -> int:
        """Update which axis has moved most; returns how long it has been held down, in ns."""
        beyond = {axis: past.reach - self.noise[axis] for axis, past in self._travels.items()}
        most = max(beyond, key=lambda axis: beyond[axis], default=None)
        if most is not None and self._travels[most].reach < shows(self.noise[most]):
            most = None
        if most != self._most:
            self._most, self._still = most, Still()
        if most is None:
            return 0
        value, travel = values[most], self._travels[most]
        still = self._still.take(time, value, max(NEAR * travel.reach, self.noise[most]))
        return still if travel.away(value) >= PRESSED else 0

    def _is_pressed(self, axis: Axis, held: int) -> bool:
        """Whether an axis moved as far as a pedal, or less far but was held there for `held` ns.

        The latter does not count for a taken axis, which may have been brushed, or for a wheel.
        """
        reach = self._reach(axis)
        if reach >= FOUND:
            return True
        enough = max(SPAN_LEAST, NOISES * self.noise[axis])
        may_be_wheel = abs(self._travels[axis].start) < MIDDLE
        soft = axis not in self._taken and not may_be_wheel
        return soft and reach >= enough and held >= SOFT_FOR

    def _explain(self, waited: int) -> None:
        most = self._most
        if most is not None and self._travels[most].other_side >= max(
            SIDE, shows(self.noise[most])
        ):
            self.trouble, self.about = Trouble.TURNS, most
        elif waited >= PATIENT and most is not None and most not in self._taken:
            self.trouble, self.about = Trouble.TINY, most
        elif waited >= PATIENT and self.trouble not in LASTING:
            self.trouble, self.about = Trouble.NOTHING, None


class Insistence:
    """Detector of a pedal that the player holds down until it is taken in place of another."""

    def __init__(self) -> None:
        self.about: Axis | None = None
        """Axis that the player holds down; None if there is none."""
        self.meant: Axis | None = None
        """Axis held down long enough (INSISTED) to be taken instead; None until one is."""
        self._travels: dict[Axis, Travel] = {}
        self._since: int | None = None

    def travel(self, axis: Axis) -> Travel:
        """Movement of an axis since it was first watched."""
        return self._travels[axis]

    def feed(self, time: int, values: Mapping[Axis, float]) -> None:
        """Take the raw values, at `time` (ns), of the axes that may be held down instead."""
        self._travels = {axis: past for axis, past in self._travels.items() if axis in values}
        for axis, value in values.items():
            self._travels.setdefault(axis, Travel(value)).take(value)
        down = [axis for axis, value in values.items() if self._is_down(axis, value)]
        if self.about not in down:
            self.about, self._since = (down[0] if down else None), time
        elif self._since is not None and time - self._since >= INSISTED:
            self.meant = self.about

    def _is_down(self, axis: Axis, value: float) -> bool:
        travel = self._travels[axis]
        let_go = travel.was_turned and travel.is_straight(value)
        return travel.reach >= FOUND and travel.away(value) >= PRESSED and not let_go
