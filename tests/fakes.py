"""Fake pedals, windows and listeners for tests, faulty pedals among them."""

from collections.abc import Callable
from dataclasses import replace

from drills.phases import Transition
from drills.task import Task
from drills.trace import SECOND
from engine.pedals.port import Reading, Source
from engine.stage.events import Events
from engine.stage.headless import ManualClock
from engine.stage.stage import Listener, Stage
from engine.store import Record
from tests.loudspeaker import Loudspeaker

MILLISECOND = SECOND // 1000


class Steady:
    """Source that holds the brake at one raw value and moves the throttle by the clock."""

    name = "steady"
    is_feet = True
    counts = True
    label = ""

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


class LettingGo:
    """Source around another one that lets the brake go at the beginning of each repetition."""

    def __init__(self, inner: Source) -> None:
        self._inner = inner
        self._free = False
        self.name = inner.name
        self.is_feet = inner.is_feet
        self.counts = inner.counts
        self.label = inner.label

    def read(self) -> Reading | None:
        """What the other source reads, without the brake while that is let go."""
        reading = self._inner.read()
        return replace(reading, brake=0.0) if self._free and reading is not None else reading

    def on_menu(self) -> None:
        """Nothing."""

    def on_task(self, task: Task) -> None:
        """Let go."""
        self._free = True

    def on_transition(self, transition: Transition) -> None:
        """Press again once that was seen."""
        self._free = False

    def on_record(self, place: int, record: Record) -> None:
        """Nothing."""


class Unplugged:
    """Source around another one whose device is unplugged from one time to another, in ns."""

    name = "unplugged"
    is_feet = True
    counts = True
    label = ""

    def __init__(self, inner: Source, clock: ManualClock, at: int, back: int | None = None) -> None:
        self._inner = inner
        self._clock = clock
        self._at = at
        self._back = back

    def read(self) -> Reading | None:
        """What the other source reads, or nothing while the device is away."""
        now = self._clock()
        away = now >= self._at and (self._back is None or now < self._back)
        return None if away else self._inner.read()


class Silent:
    """Source of a device that is plugged in and never reports: its axes stay at 0."""

    name = "silent"
    is_feet = True
    counts = True
    label = ""

    def __init__(self, clock: ManualClock) -> None:
        self._clock = clock

    def read(self) -> Reading:
        """Zero, whatever the foot does."""
        return Reading(self._clock(), 0.0, 0.0)


class Stuttering:
    """Source around another one whose read stalls once, as when another device is plugged in."""

    name = "stuttering"
    is_feet = True
    counts = True
    label = ""

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


class Audience:
    """Listener that records every task, transition, record and menu of a stage."""

    def __init__(self) -> None:
        self.tasks: list[Task] = []
        self.transitions: list[Transition] = []
        self.records: list[tuple[int, Record]] = []
        self.menus = 0

    def on_menu(self) -> None:
        """Count the menu."""
        self.menus += 1

    def on_task(self, task: Task) -> None:
        """Record the task."""
        self.tasks.append(task)

    def on_transition(self, transition: Transition) -> None:
        """Record the transition."""
        self.transitions.append(transition)

    def on_record(self, place: int, record: Record) -> None:
        """Record the place and the record."""
        self.records.append((place, record))


class Lamp:
    """Window that records what it showed in the dark."""

    def __init__(self) -> None:
        self.shown: list[str] = []
        self.full = False
        self.wants_less_motion = False
        self.flashes = True
        self.moves = True

    def toggle_full(self) -> None:
        """Switch full screen on or off."""
        self.full = not self.full

    def tune(self, *, flash: bool, motion: bool = True) -> None:
        """Set whether cues flash, and whether parts of a screen may move."""
        self.flashes, self.moves = flash, motion

    def darken(self) -> None:
        """Record that the window went dark."""
        self.shown.append("dark")

    def flash(self, *, needed: bool, dim: bool = False) -> None:
        """Record a cue, or a dim beat of the count-in."""
        if self.flashes or needed:
            self.shown.append("beat" if dim else "cue")

    def pointer(self) -> tuple[float, bool]:
        """Pointer in the middle, its button up."""
        return 0.5, False


def a_stage(*listeners: Listener, lamp: Lamp | None = None) -> Stage:
    """Stage without a window, a sound or an events file."""
    return Stage(lamp or Lamp(), Loudspeaker(), Events(None, ManualClock()), listeners)
