"""Pedal sources for tests; the faulty ones come through the same door and have names."""

from collections.abc import Callable

from drills.kinds.base import Task
from drills.level import Level
from drills.repetition import Phase
from drills.trace import SECOND
from engine.commands.demo import ManualClock
from engine.pedals.calibration import UNIT
from engine.pedals.port import CalibratedPedals, Reading, Source
from engine.screens.repeating import Repeating

MILLISECOND = SECOND // 1000


class Steady:
    """A foot that keeps the brake at one value and gives throttle by the clock."""

    name = "steady"
    is_feet = True

    def __init__(
        self, clock: ManualClock, brake: float, throttle: Callable[[int], float] = lambda _: 0.0
    ) -> None:
        self._clock = clock
        self._brake = brake
        self._throttle = throttle

    def read(self) -> Reading:
        """The pedals at the time of the clock, raw values from 0 to 1."""
        now = self._clock()
        return Reading(now, self._brake, self._throttle(now))


class Unplugged:
    """Reads as another source until its device is pulled out at a time."""

    name = "unplugged"
    is_feet = True

    def __init__(self, inner: Source, clock: ManualClock, at: int) -> None:
        self._inner = inner
        self._clock = clock
        self._at = at

    def read(self) -> Reading | None:
        """What the other source reads, then nothing."""
        return None if self._clock() >= self._at else self._inner.read()


class Silent:
    """A device that is there and never reports: its axes keep their opening value."""

    name = "silent"
    is_feet = True

    def __init__(self, clock: ManualClock) -> None:
        self._clock = clock

    def read(self) -> Reading:
        """Zero, whatever the foot does."""
        return Reading(self._clock(), 0.0, 0.0)


class Stuttering:
    """Reads as another source, but one read stalls, as when some other device is plugged in."""

    name = "stuttering"
    is_feet = True

    def __init__(self, inner: Source, clock: ManualClock, at: int, stall: int) -> None:
        self._inner = inner
        self._clock = clock
        self._at = at
        self._stall = stall

    def read(self) -> Reading | None:
        """The first read at or after the time takes the length of the stall."""
        if self._stall and self._clock() >= self._at:
            self._clock.advance(self._stall)
            self._stall = 0
        return self._inner.read()


class Sitting:
    """A repetition on its screen, felt every millisecond from one source."""

    def __init__(self, level: Level, task: Task, source: Source, clock: ManualClock) -> None:
        self.entered: list[Phase] = []
        self.screen = Repeating(level, task, (1, 10), lambda phase, _: self.entered.append(phase))
        self._feet = CalibratedPedals(source, UNIT)
        self._clock = clock

    def run(self, seconds: float) -> None:
        """Feel the pedals for so long, or until the screen has an outcome."""
        until = self._clock() + round(seconds * SECOND)
        while self.screen.outcome is None and self._clock() < until:
            self._clock.advance(MILLISECOND)
            sample = self._feet.sample()
            self.screen.on_sample(sample, self._clock())
