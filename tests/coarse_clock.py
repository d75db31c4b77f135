"""`CoarseClock`: simulated play in a quarter of the reads, for tests that are not about reading."""

from drills.trace import nanoseconds
from engine.stage.headless import ManualClock

READ_EACH = nanoseconds(0.004)
"""Time between two reads of the pedals, in ns: many devices report no more often (250 Hz)."""


class CoarseClock(ManualClock):
    """Clock that goes on by 4 ms at the least, so that headless play reads its pedals at 250 Hz."""

    def advance(self, step: int) -> None:
        """Move the time of this clock forward by `step` ns, or by READ_EACH where that is more."""
        super().advance(max(step, READ_EACH))
