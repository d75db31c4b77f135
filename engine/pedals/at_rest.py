"""Whether the feet are off all pedals, and how much each axis moves by itself meanwhile.

An axis that never stops, such as a wheel in somebody's hands or one that floats, is named after a
while and then left out, so that it keeps nobody waiting.
"""

from __future__ import annotations

from collections.abc import Mapping

from drills.calibration import Range
from drills.trace import nanoseconds
from engine.pedals.identity import Axis
from engine.pedals.travel import NEAR

QUIET = 0.1
"""raw, movement of any axis that still counts as nothing moving: feet come off by more."""
RESTED = nanoseconds(1.0)
"""ns nothing must move for the feet to be off; noise is what moves meanwhile."""
NAMED = nanoseconds(3.0)
"""ns after which an axis that does not rest, or rests pressed, is named: one reads, then moves."""
LEFT_OUT = nanoseconds(6.0)
"""ns after which an axis that does not rest is left out: time to read what is said, and do it."""
CONTRADICTED = nanoseconds(6.0)
"""ns after which a pedal that reads as pressed is taken to be set up wrongly."""


class AtRest:
    """Whether the feet are off all pedals, and whether the pedals known so far agree."""

    def __init__(self, known: Mapping[Axis, Range]) -> None:
        """`known` are the axes bound to pedals already."""
        self._known = dict(known)
        self._quiet: dict[Axis, _Quiet] = {}

    @property
    def rested(self) -> bool:
        """Nothing moves but what is left out, and every known pedal is let go."""
        waited_for = self._quiet.keys() - self.left_out
        return (
            bool(self._quiet)
            and all(self._quiet[axis].rests for axis in waited_for)
            and not any(self._is_pressed(axis) for axis in self._known)
        )

    @property
    def pressed(self) -> Axis | None:
        """A known pedal that reads as pressed and does not move; None where there is none."""
        return self._pressed_for(NAMED)

    @property
    def contradicts(self) -> bool:
        """One has read so for so long that no foot is on it: its ends are the wrong way round."""
        return self._pressed_for(CONTRADICTED) is not None

    @property
    def moving(self) -> Axis | None:
        """An axis that keeps moving; None where there is none."""
        return next((axis for axis, one in self._quiet.items() if one.moves_for(NAMED)), None)

    @property
    def left_out(self) -> frozenset[Axis]:
        """The axes that move for so long that they are not waited for."""
        return frozenset(axis for axis, one in self._quiet.items() if one.moves_for(LEFT_OUT))

    @property
    def noise(self) -> Mapping[Axis, float]:
        """raw, from the least to the greatest value of every axis that rests."""
        return {axis: one.high - one.low for axis, one in self._quiet.items() if one.rests}

    def feed(self, time: int, values: Mapping[Axis, float]) -> None:
        """Take what every axis reads at `time` (ns). One that is not there is not judged."""
        if self._quiet.keys() != values.keys():
            self._quiet = {axis: _Quiet(time, value) for axis, value in values.items()}
        for axis, value in values.items():
            self._quiet[axis].take(time, value)

    def _is_pressed(self, axis: Axis) -> bool:
        one = self._quiet.get(axis)
        if one is None or not one.seen:
            return False
        return self._known[axis].percent(one.value) >= 100 * NEAR

    def _pressed_for(self, least: int) -> Axis | None:
        held = (axis for axis in self._known if self._is_pressed(axis))
        return next((axis for axis in held if self._quiet[axis].still >= least), None)


class _Quiet:
    """How long one axis has stayed within QUIET, and how long it has not."""

    def __init__(self, time: int, value: float) -> None:
        self.value = self.low = self.high = value
        self.seen = False
        self.still = 0
        self._since = time
        self._now = time
        self._rested = time

    @property
    def rests(self) -> bool:
        """It has been quiet for as long as that takes."""
        return self.still >= RESTED

    def moves_for(self, least: int) -> bool:
        """It has not rested for at least so many ns."""
        return not self.rests and self._now - self._rested >= least

    def take(self, time: int, value: float) -> None:
        """Take the next value. One that is 0.0 from the first may not have been told yet."""
        self.seen = self.seen or value != 0.0
        if self.rests:
            self._rested = self._now
        low, high = min(self.low, value), max(self.high, value)
        if high - low > QUIET:
            low, high, self._since = value, value, time
        self.low, self.high, self.value = low, high, value
        self._now, self.still = time, time - self._since
