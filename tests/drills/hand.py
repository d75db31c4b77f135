"""A repetition fed by hand, a millisecond at a time."""

from drills.kinds.base import Task
from drills.repetition import Phase, Repetition
from drills.score import Reason
from drills.trace import SECOND, Sample, nanoseconds
from engine.commands.demo import ManualClock


class Hand:
    """Feeds a repetition by hand and keeps the phases it was led into, with their times in s."""

    def __init__(self, task: Task) -> None:
        self.clock = ManualClock()
        self.repetition = Repetition(task, self.clock())
        self.phases = [Phase.APPROACH]
        self.times = [0.0]

    def keep(self, seconds: float, brake: float = 60.0, throttle: float = 0.0) -> None:
        """Keep the pedals there for so long, read every millisecond."""
        for _ in range(round(seconds * 1000)):
            self.after(0.001, brake, throttle)

    def after(self, seconds: float, brake: float = 60.0, throttle: float = 0.0) -> None:
        """Read nothing for so long, then the pedals once."""
        self.clock.advance(nanoseconds(seconds))
        self._heard(self.repetition.feed(Sample(self.clock(), brake, throttle)))

    def fault(self, reason: Reason) -> None:
        """End it from outside."""
        self._heard(self.repetition.fault(reason, self.clock()))

    def bring_to(self, phase: Phase) -> None:
        """Bring a blip, by samples alone, to just after it entered a phase."""
        ways = {
            Phase.APPROACH: [(0.010, 20.0, 0.0)],
            Phase.HELD: [(0.010, 60.0, 0.0)],
            Phase.DARK: [(0.810, 60.0, 0.0)],
            Phase.CUE: [(2.310, 60.0, 0.0)],
            Phase.RESPONSE: [(2.310, 60.0, 0.0), (0.010, 60.0, 50.0)],
            Phase.SETTLE: [(2.310, 60.0, 0.0), (0.010, 60.0, 50.0), (0.010, 60.0, 0.0)],
            Phase.DONE: [(2.310, 60.0, 0.0), (0.010, 60.0, 50.0), (1.300, 60.0, 0.0)],
            Phase.VOID: [(0.810, 60.0, 0.0), (0.010, 60.0, 50.0)],
        }
        for leg in ways[phase]:
            self.keep(*leg)
        assert self.repetition.phase is phase

    def _heard(self, phase: Phase | None) -> None:
        if phase is not None:
            self.phases.append(phase)
            self.times.append(self.clock() / SECOND)
