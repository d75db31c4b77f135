"""Detection of feet off all pedals, and the noise of each axis while they are off.

An axis that never stops, such as a wheel held in the hands or an unconnected axis, is named on the
screen after a while and then left out, so that the player need not wait for it.
"""

from __future__ import annotations

from collections.abc import Mapping

from drills.calibration import Range
from drills.trace import nanoseconds
from engine.pedals.identity import Axis
from engine.pedals.travel import NEAR

QUIET = 0.1
"""Largest movement of an axis that counts as rest, in raw units; lifting a foot moves it more."""
RESTED = nanoseconds(1.0)
"""Time that all axes must rest until the feet count as off the pedals, in ns; noise is measured
meanwhile."""
NAMED = nanoseconds(3.0)
"""Time until an axis that does not rest, or rests pressed, is named on the screen, in ns: the
player first reads, then moves."""
LEFT_OUT = nanoseconds(6.0)
"""Time until an axis that does not rest is no longer waited for, in ns: enough to read and act."""
CONTRADICTED = nanoseconds(6.0)
"""Time until a pedal that rests pressed counts as set up with rest and full swapped, in ns."""


class AtRest:
    """Detector of feet off all pedals, from raw axis values; bound pedals must read as released."""

    def __init__(self, bound: Mapping[Axis, Range]) -> None:
        """`bound` are the axes that are bound to pedals already, with their ranges."""
        self._bound = dict(bound)
        self._rests: dict[Axis, _Rest] = {}

    @property
    def rested(self) -> bool:
        """Whether the feet are off: every axis waited for rests, every bound pedal is released."""
        waited_for = self._rests.keys() - self.left_out
        return (
            bool(self._rests)
            and all(self._rests[axis].rests for axis in waited_for)
            and not any(self._is_pressed(axis) for axis in self._bound)
        )

    @property
    def pressed(self) -> Axis | None:
        """Bound pedal that reads as pressed although it does not move; None if there is none."""
        return self._pressed_for(NAMED)

    @property
    def contradicts(self) -> bool:
        """Whether a bound pedal rests pressed for so long that its ends must be swapped."""
        return self._pressed_for(CONTRADICTED) is not None

    @property
    def moving(self) -> Axis | None:
        """Axis that keeps moving although the feet should be off; None if there is none."""
        return next((axis for axis, rest in self._rests.items() if rest.moves_for(NAMED)), None)

    @property
    def left_out(self) -> frozenset[Axis]:
        """Axes that keep moving for so long that the detection of rest ignores them."""
        return frozenset(axis for axis, rest in self._rests.items() if rest.moves_for(LEFT_OUT))

    @property
    def noise(self) -> Mapping[Axis, float]:
        """Noise of each axis that rests: its greatest value less its least, in raw units."""
        return {axis: rest.high - rest.low for axis, rest in self._rests.items() if rest.rests}

    def feed(self, time: int, values: Mapping[Axis, float]) -> None:
        """Watch the raw value of every axis at `time` (ns) for rest; starts over if axes change."""
        if self._rests.keys() != values.keys():
            self._rests = {axis: _Rest(time, value) for axis, value in values.items()}
        for axis, value in values.items():
            self._rests[axis].take(time, value)

    def _is_pressed(self, axis: Axis) -> bool:
        rest = self._rests.get(axis)
        if rest is None or not rest.has_reported:
            return False
        return self._bound[axis].percent(rest.value) >= 100 * NEAR

    def _pressed_for(self, least: int) -> Axis | None:
        pressed = (axis for axis in self._bound if self._is_pressed(axis))
        return next((axis for axis in pressed if self._rests[axis].still >= least), None)


class _Rest:
    """How long one axis has rested, and how long ago it last did."""

    def __init__(self, time: int, value: float) -> None:
        self.value = self.low = self.high = value
        self.has_reported = False
        self.still = 0
        self._since = time
        self._now = time
        self._rested = time

    @property
    def rests(self) -> bool:
        """Whether the axis has stayed within QUIET for RESTED."""
        return self.still >= RESTED

    def moves_for(self, least: int) -> bool:
        """Whether the axis has not rested for at least `least` ns."""
        return not self.rests and self._now - self._rested >= least

    def take(self, time: int, value: float) -> None:
        """Take the next raw value of the axis; a device may read 0.0 until it first reports."""
        self.has_reported = self.has_reported or value != 0.0
        if self.rests:
            self._rested = self._now
        low, high = min(self.low, value), max(self.high, value)
        if high - low > QUIET:
            low, high, self._since = value, value, time
        self.low, self.high, self.value = low, high, value
        self._now, self.still = time, time - self._since
