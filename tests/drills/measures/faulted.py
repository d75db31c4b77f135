"""Repetitions of feet as pedals of many kinds tell them, with faults and without."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cache

import numpy as np

from drills.calibration import Calibration, Range
from drills.foot import SimulatedFoot
from drills.judging import judge_repetition
from drills.level import Level
from drills.measures.device import DeviceHistory
from drills.phases import OVER
from drills.repetition import Repetition
from drills.score import Judged
from drills.task import Performance, Task
from drills.trace import SECOND, STEP, Trace
from engine.ladder.level_files import SHIPPED, load_levels
from engine.pedals.port import CalibratedPedals
from engine.pedals.simulated import SimulatedPedals
from engine.stage.headless import ManualClock
from tests.drills.shapes import Values

LEVELS = {level.id: level for level in load_levels([SHIPPED])}
ENDS = Range(0.0, 4095 * 8 / 32768)
SCALE = Calibration(ENDS, ENDS, ENDS)
SEED = 7

Chance = np.random.Generator
Fault = Callable[[Trace, int, Chance], Trace]
"""Function that spoils a trace of grid points from a cue (ns) on."""


@dataclass(frozen=True)
class Played:
    """What one foot did in one repetition."""

    level: Level
    task: Task
    done: Performance
    opens: int

    @property
    def cue(self) -> int:
        """When the first blip was asked for, or without cues when the wait began, in ns."""
        done = self.done
        return done.cues[self.task.acts[0] if self.task.acts else 0] if done.cues else done.began


@cache
def feet(name: str, skill: float, count: int) -> tuple[Played, ...]:
    """Repetitions of a level by a foot that came to their end, as its 12 bits told them each ms."""
    clock, level = ManualClock(), LEVELS[name]
    pedals = SimulatedPedals(SimulatedFoot(skill, SEED), clock)
    read = CalibratedPedals(pedals, SCALE)
    rng = np.random.default_rng(SEED)
    found: list[Played] = []
    while len(found) < count:
        target = level.targets.at(len(found) + 1, rng)
        task = level.kind.task(level, target, rng)
        pedals.on_task(task)
        repetition = Repetition(task, clock())
        while repetition.phase not in OVER:
            clock.advance(STEP)
            sample = read.sample()
            assert sample is not None
            for transition in repetition.feed(sample):
                pedals.on_transition(transition)
        pedals.on_menu()
        clock.advance(SECOND)
        done, opens = repetition.performance(), repetition.measured_from
        if repetition.void is None and done is not None and opens is not None:
            found.append(Played(level, task, done, opens))
    return tuple(found)


@dataclass(frozen=True)
class Hardware:
    """Pedals that tell what a foot does, read every millisecond."""

    bits: int = 12
    rate: float = 250.0
    noise: float = 0.0
    devices: int = 1

    def tell(self, trace: Trace, chance: Chance) -> Trace:
        """The trace as these pedals report it."""
        every = 1000 / self.rate
        phases = chance.uniform(0, every, 2) if self.devices > 1 else [chance.uniform(0, every)] * 2
        clutch = trace.clutch
        return replace(
            trace,
            brake=self._told(trace.brake, phases[0], chance),
            throttle=self._told(trace.throttle, phases[1], chance),
            clutch=None if clutch is None else self._told(clutch, phases[1], chance),
            counts=None,
        )

    def _told(self, values: Values, phase: float, chance: Chance) -> Values:
        steps = 2**self.bits - 1
        at = np.arange(phase, values.size, 1000 / self.rate).astype(np.int64)
        noisy = values[at] + self.noise * chance.standard_normal(at.size)
        told = np.clip(np.rint(noisy / 100 * steps), 0, steps) / steps * 100
        newest = np.searchsorted(at, np.arange(values.size), side="right") - 1
        return np.asarray(told[np.maximum(newest, 0)])


def judged(
    played: Sequence[Played], hardware: Hardware, fault: Fault | None = None
) -> list[Judged]:
    """Verdicts on repetitions in a row, as the hardware told them."""
    history, found = DeviceHistory(), []
    for number, one in enumerate(played):
        chance = np.random.default_rng((SEED, number))
        trace = hardware.tell(one.done.trace, chance)
        if fault is not None:
            trace = fault(trace, one.cue, chance)
        done = replace(one.done, trace=trace)
        verdict, history = judge_repetition(one.level, one.task, done, one.opens, history)
        found.append(verdict)
    return found


def frozen(after: float) -> Fault:
    """Brake that keeps its value from so many s after the cue on."""

    def spoil(trace: Trace, cue: int, _: Chance) -> Trace:
        first, brake = _at(trace, cue, after), trace.brake.copy()
        brake[first:] = brake[min(first, brake.size - 1)]
        return replace(trace, brake=brake)

    return spoil


def stalling(seconds: float) -> Fault:
    """Device that says nothing for so long, from 0.1 to 0.5 s after the cue on."""

    def spoil(trace: Trace, cue: int, chance: Chance) -> Trace:
        start = float(chance.uniform(0.1, 0.5))
        first, after = _at(trace, cue, start), _at(trace, cue, start + seconds)

        def silent(values: Values) -> Values:
            values = values.copy()
            values[first:after] = values[first - 1]
            return values

        return replace(trace, brake=silent(trace.brake), throttle=silent(trace.throttle))

    return spoil


def jumping(pedal: str, to: float | None = None, by: float = 0.0, times: int = 1) -> Fault:
    """Pedal that is somewhere else for 4 ms, some times from 0.3 to 0.9 s after the cue."""

    def spoil(trace: Trace, cue: int, chance: Chance) -> Trace:
        values = getattr(trace, pedal).copy()
        for start in chance.uniform(0.3, 0.9, times).tolist():
            jump = slice(_at(trace, cue, start), _at(trace, cue, start + 0.004))
            values[jump] = values[jump] + by if to is None else to
        return replace(trace, **{pedal: values})

    return spoil


def saturating(end: float) -> Fault:
    """Brake whose axis ends at so many %."""
    return lambda trace, _, __: replace(trace, brake=np.minimum(trace.brake, end))


def _at(trace: Trace, cue: int, seconds: float) -> int:
    return int(np.searchsorted(trace.time, cue + round(seconds * SECOND)))
