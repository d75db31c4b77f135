"""Sources with a fault that strikes once a repetition: frozen, stalling, jumping or unplugged.

Each wraps another source and spoils what it reports. As a listener on the stage it learns when a
repetition and its cue begin. Hardware that is poor all the time is in `poor.py`.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from drills.calibration import COUNTS, Calibration, Range
from drills.phases import OVER, Event, Transition
from drills.task import Task
from drills.trace import Pedal, nanoseconds
from engine.pedals.port import Reading, Source

STALL_FROM = 0.1
"""Earliest start of a stall after the cue, in s."""
STALL_UNTIL = 0.5
"""Latest start of a stall after the cue, in s: a blip is under way by then."""
JUMP_FROM = 0.3
"""Earliest jump after the wait or the cue begins, in s: the measured window has opened."""
JUMP_UNTIL = 0.9
"""Latest jump after the wait or the cue begins, in s: no wait is shorter."""
REPORT = 0.004
"""How long a jump lasts unless told otherwise, in s: until the next report at 250 a second."""


class FaultySource:
    """Base of faulty sources: it follows the repetitions, and passes the other source on."""

    def __init__(self, inner: Source, seed: int = 0) -> None:
        """`inner` is the source that is spoiled; `seed` is that of all chance in the fault."""
        self.name = inner.name
        self.is_feet = inner.is_feet
        self.counts = inner.counts
        self.label = inner.label
        self._inner = inner
        self._seed = seed
        self._repetition = 0
        self._first = 0
        self._cued = False

    def read(self) -> Reading | None:
        """Reading of the other source, spoiled by the fault."""
        reading = self._inner.read()
        return None if reading is None else self.spoil(reading)

    def spoil(self, reading: Reading) -> Reading | None:
        """What the device reports instead of a reading; None while it is unplugged."""
        return reading

    def on_menu(self) -> None:
        """Ignore menus: faults strike in repetitions."""

    def on_task(self, task: Task) -> None:
        """Begin the next repetition."""
        self._repetition += 1
        self._first = task.acts[0] if task.acts else 0
        self._cued = not task.cues

    def on_transition(self, transition: Transition) -> None:
        """Follow the repetition: its wait, its first cue to act, its end."""
        if transition.phase in OVER:
            self.on_over()
        elif transition.event is Event.STEADY:
            self.on_wait(transition.time)
            if self._cued:
                self.on_cue(transition.time)
        elif transition.cue == self._first and not self._cued:
            self._cued = True
            self.on_cue(transition.time)

    def on_record(self, place: int, record: object) -> None:
        """Ignore verdicts."""

    def on_wait(self, time: int) -> None:
        """Called when the wait for the cue begins, at `time` (ns)."""

    def on_cue(self, time: int) -> None:
        """Called at the first cue to act (ns); without cues, when the wait begins."""

    def on_over(self) -> None:
        """Called when the repetition ends."""

    def _chance(self) -> np.random.Generator:
        """Random numbers of this repetition, the same whatever was drawn in earlier ones."""
        return np.random.default_rng((self._seed, self._repetition))


class Frozen(FaultySource):
    """Source whose brake keeps its value from the cue on, or some time after it, to the end."""

    def __init__(self, inner: Source, after: float = 0.0) -> None:
        """`after` is the time from the cue to the freezing, in s."""
        super().__init__(inner)
        self._after = nanoseconds(after)
        self._from: int | None = None
        self._brake: float | None = None

    def spoil(self, reading: Reading) -> Reading:
        """Reading with the brake as it was when it froze."""
        if self._from is None or reading.time < self._from:
            return reading
        if self._brake is None:
            self._brake = reading.brake
        return replace(reading, brake=self._brake)

    def on_cue(self, time: int) -> None:
        """Freeze the brake the given time after the cue."""
        self._from = time + self._after

    def on_over(self) -> None:
        """Let the brake move again."""
        self._from = self._brake = None


class Stalling(FaultySource):
    """Source that reports nothing for a while after the cue, then jumps to where its pedals are."""

    def __init__(self, inner: Source, seconds: float, seed: int) -> None:
        """`seconds` is the length of a stall; it begins STALL_FROM to STALL_UNTIL after the cue."""
        super().__init__(inner, seed)
        self._length = nanoseconds(seconds)
        self._from: int | None = None
        self._latest: Reading | None = None

    def spoil(self, reading: Reading) -> Reading:
        """Reading, or during a stall the newest one before it, at the time of this one."""
        begins, latest = self._from, self._latest
        stalls = begins is not None and begins <= reading.time < begins + self._length
        if stalls and latest is not None:
            return replace(latest, time=reading.time)
        self._latest = reading
        return reading

    def on_cue(self, time: int) -> None:
        """Draw when the device stalls."""
        self._from = time + nanoseconds(self._chance().uniform(STALL_FROM, STALL_UNTIL))


class Jumping(FaultySource):
    """Source with single reads of one pedal at a wrong place, some times a repetition."""

    def __init__(
        self,
        inner: Source,
        scale: Range,
        pedal: Pedal,
        seed: int,
        *,
        to: float | None = None,
        by: float = 0.0,
        in_wait: bool = False,
        times: int = 1,
        lasts: float = REPORT,
    ) -> None:
        """A jump goes `to` a place in %, or else `by` so many points; it lasts one read or `lasts`
        s. `scale` is that of the pedal. `in_wait`: in the wait for the cue, otherwise after it.
        """
        super().__init__(inner, seed)
        self._scale = scale
        self._pedal = pedal
        self._to = to
        self._by = by
        self._in_wait = in_wait
        self._times = times
        self._lasts = nanoseconds(lasts)
        self._jumps: list[int] = []
        self._jumping = False

    def spoil(self, reading: Reading) -> Reading:
        """Reading with the pedal at the wrong place during a jump."""
        if not self._jumps or reading.time < self._jumps[0]:
            return reading
        was, self._jumping = self._jumping, reading.time < self._jumps[0] + self._lasts
        if not self._jumping:
            del self._jumps[0]
            if was:
                return reading
        return self._jumped(reading)

    def on_wait(self, time: int) -> None:
        """Draw the jumps of the wait."""
        if self._in_wait:
            self._draw(time)

    def on_cue(self, time: int) -> None:
        """Draw the jumps after the cue."""
        if not self._in_wait:
            self._draw(time)

    def on_over(self) -> None:
        """End the jumps of this repetition."""
        self._jumps, self._jumping = [], False

    def _draw(self, time: int) -> None:
        moments = self._chance().uniform(JUMP_FROM, JUMP_UNTIL, self._times)
        self._jumps = sorted(time + nanoseconds(moment) for moment in moments.tolist())

    def _jumped(self, reading: Reading) -> Reading:
        def place(raw: float) -> float:
            percent = self._scale.percent(raw) + self._by if self._to is None else self._to
            return whole(self._scale.raw(percent))

        match self._pedal:
            case Pedal.BRAKE:
                return replace(reading, brake=place(reading.brake))
            case Pedal.THROTTLE:
                return replace(reading, throttle=place(reading.throttle))
            case Pedal.CLUTCH:
                clutch = reading.clutch
                return replace(reading, clutch=None if clutch is None else place(clutch))


class Unplugged(FaultySource):
    """Source that goes away for a while in some repetitions, and returns."""

    def __init__(self, inner: Source, seconds: float, after: float = 0.1, every: int = 1) -> None:
        """It goes `after` s from the cue for so many `seconds`, in every so-many-th repetition."""
        super().__init__(inner)
        self._length = nanoseconds(seconds)
        self._after = nanoseconds(after)
        self._every = every
        self._from: int | None = None

    def spoil(self, reading: Reading) -> Reading | None:
        """Reading, or None while the device is away."""
        gone = self._from
        away = gone is not None and gone <= reading.time < gone + self._length
        return None if away else reading

    def on_cue(self, time: int) -> None:
        """Unplug the device some time after the cue."""
        if self._repetition % self._every == 0:
            self._from = time + self._after


def whole(raw: float) -> float:
    """A raw axis value in whole counts, within the axis."""
    return min(max(round(raw * COUNTS), -COUNTS), COUNTS) / COUNTS


def ranges(travel: Calibration) -> tuple[Range, Range, Range]:
    """Range of brake, throttle and clutch; without a clutch, the brake's stands in for it."""
    return travel.brake, travel.throttle, travel.clutch or travel.brake
