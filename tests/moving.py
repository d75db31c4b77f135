"""Fake pedals that move all the time, so that any reading that is not theirs shows."""

from drills.calibration import COUNTS
from drills.trace import SECOND
from engine.pedals.port import Clock, Reading

TRAVEL = 20.0
"""Time that each pedal takes from 20 % to 80 % of its travel, in s."""


class Ramp:
    """Source whose brake rises and whose throttle falls steadily, raw values from 0 to 1."""

    name = "ramp"
    is_feet = True
    counts = True
    label = "on a ramp"

    def __init__(self, clock: Clock) -> None:
        self._clock = clock

    def read(self) -> Reading:
        """Where the pedals are now."""
        return self.at(self._clock())

    def at(self, time: int) -> Reading:
        """Where the pedals are at a time in ns, in whole counts."""
        risen = 0.6 * time / (TRAVEL * SECOND)
        return Reading(time, _whole(0.2 + risen), _whole(0.8 - risen))


def _whole(raw: float) -> float:
    return round(raw * COUNTS) / COUNTS
