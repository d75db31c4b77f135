"""`LeftPressed`: detection of a pedal that stays pressed where a repetition needs it let go."""

from __future__ import annotations

from math import inf

from drills.task import Task
from drills.trace import Pedal, Sample, nanoseconds
from engine.pedals.travel import Still

GIVEN_UP = nanoseconds(8.0)
"""Time that a pedal must stay pressed, in ns; even a slow player has released it by then."""
UNMOVED = 2.0
"""Largest movement of a pedal that no foot is on, in points: within 1 to both sides."""


class LeftPressed:
    """Watches for a pedal that is still, and above the band of a released pedal, for 8 s."""

    def __init__(self, task: Task) -> None:
        """`task` tells which pedals must be let go: those whose band has no lower bound."""
        self._tops = {pedal: high for pedal, (low, high) in task.start.items() if low == -inf}
        self._still: dict[Pedal, Still] = {}

    def feed(self, sample: Sample) -> bool:
        """Take the next sample; returns whether a pedal has stayed pressed."""
        return max((self._stayed(sample, one) for one in self._tops), default=0) >= GIVEN_UP

    def _stayed(self, sample: Sample, pedal: Pedal) -> int:
        """How long a pedal has been still and above its band, in ns."""
        value = sample.of(pedal)
        if value is None or value <= self._tops[pedal]:
            self._still.pop(pedal, None)
            return 0
        return self._still.setdefault(pedal, Still()).take(sample.time, value, UNMOVED)
