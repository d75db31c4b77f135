"""A repetition fed by hand, a millisecond at a time."""

from drills.phases import Event, Phase, Transition
from drills.repetition import Repetition
from drills.score import Reason
from drills.task import Task
from drills.trace import SECOND, Sample, nanoseconds


class Hand:
    """Feeds a repetition by hand and keeps the transitions it made, with their times in s."""

    def __init__(self, task: Task, *, freed: bool = True) -> None:
        """`freed`: the brake is let go at 0 s, as it must be before the target is approached."""
        self.now = 0
        self.repetition = Repetition(task, self.now)
        self.made: list[Transition] = []
        if freed:
            self.repetition.feed(Sample(self.now, 0.0, 0.0))

    @property
    def phases(self) -> list[Phase]:
        """Every phase entered from the approach on."""
        return [Phase.APPROACH, *(transition.phase for transition in self.made)]

    @property
    def times(self) -> list[float]:
        """s, when each phase was entered."""
        return [0.0, *(transition.time / SECOND for transition in self.made)]

    @property
    def events(self) -> list[tuple[Event, float]]:
        """What moved it on, and when in s."""
        return [(transition.event, transition.time / SECOND) for transition in self.made]

    def keep(
        self,
        seconds: float,
        brake: float = 60.0,
        throttle: float = 0.0,
        clutch: float | None = None,
    ) -> None:
        """Keep the pedals there for so long, read every millisecond."""
        for _ in range(round(seconds * 1000)):
            self.after(0.001, brake, throttle, clutch)

    def after(
        self,
        seconds: float,
        brake: float = 60.0,
        throttle: float = 0.0,
        clutch: float | None = None,
    ) -> None:
        """Read nothing for so long, then the pedals once."""
        self.now += nanoseconds(seconds)
        self.made += self.repetition.feed(Sample(self.now, brake, throttle, clutch))

    def fault(self, reason: Reason) -> None:
        """End it from outside."""
        self.made += self.repetition.fault(reason, self.now)

    def bring_to(self, stop: str) -> None:
        """Bring a blip, by samples alone, to just after it came to a stop on its way."""
        ways = {
            "release": [(0.010, 60.0, 0.0)],
            "approach": [(0.010, 20.0, 0.0)],
            "held": [(0.010, 60.0, 0.0)],
            "wait": [(0.810, 60.0, 0.0)],
            "cued": [(2.310, 60.0, 0.0)],
            "blipping": [(2.310, 60.0, 0.0), (0.015, 60.0, 50.0)],
            "tail": [(2.310, 60.0, 0.0), (0.015, 60.0, 50.0), (0.015, 60.0, 0.0)],
            "done": [(2.310, 60.0, 0.0), (0.015, 60.0, 50.0), (1.300, 60.0, 0.0)],
            "void": [(0.810, 60.0, 0.0), (0.015, 60.0, 50.0)],
        }
        for leg in ways[stop]:
            self.keep(*leg)
        assert self.repetition.phase is STOPS[stop]


STOPS = {
    "release": Phase.RELEASE,
    "approach": Phase.APPROACH,
    "held": Phase.HELD,
    "wait": Phase.WAIT,
    "cued": Phase.ACT,
    "blipping": Phase.ACT,
    "tail": Phase.TAIL,
    "done": Phase.DONE,
    "void": Phase.VOID,
}
"""The phase at each stop on the way of a blip."""
