"""Repetitions of one simulated foot, judged twice: as its faulty pedals told it, and as it was."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import count
from math import inf

import numpy as np

from drills.foot import SimulatedFoot
from drills.level import Level
from drills.phases import FINDING, OVER, Event, Phase, Transition
from drills.repetition import Repetition
from drills.score import Reason
from drills.task import Task
from drills.trace import SECOND, Sample
from engine.drill.attempt import conclude
from engine.drill.demo import FOREPERIODS
from engine.pedals.faulty import FaultySource
from engine.pedals.port import CalibratedPedals, Reading, Source
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.stage.headless import ManualClock
from engine.store import Record
from tests.simulated_repetitions import DATE

STEP = SECOND // 500
"""Time between two readings of the pedals unless told otherwise, in ns."""
PATIENCE = 5.0
"""Longest time for pedals to come to where a repetition begins, in s: no simulated foot needs it
unless its pedals are at fault."""
TWO_PEDALS = replace(SIMULATED_TRAVEL, clutch=None)
"""Calibration of the simulated pedals without a clutch, for speed alone."""
REST = 1 * SECOND
"""Time between two repetitions, in ns."""

Wrap = Callable[[Source, int], FaultySource]
"""Function that puts a fault with a seed around a source."""


@dataclass(frozen=True)
class Pair:
    """One repetition of one foot, judged twice."""

    faulty: Record
    """Record of what the faulty pedals told."""
    honest: Record | None
    """Record of what the foot did; None where the faulty pedals let nothing begin."""

    @property
    def is_wrongly_clean(self) -> bool:
        """Whether the repetition was praised, and would not have been without the fault."""
        return self.honest is not None and self.faulty.verdict.clean and not self.was_clean

    @property
    def is_wrongly_blamed(self) -> bool:
        """Whether the repetition counts as not clean, and would be clean without the fault."""
        verdict = self.faulty.verdict
        return self.was_clean and not verdict.clean and not verdict.void

    @property
    def was_clean(self) -> bool:
        """Whether the foot was clean."""
        return self.honest is not None and self.honest.verdict.clean

    @property
    def voided_by(self) -> Reason | None:
        """Why the fault made the repetition void; None where it is not, or was so without it."""
        reason = self.faulty.verdict.reason
        voids = reason.void and not (self.honest and self.honest.verdict.reason is reason)
        return reason if voids else None


def pairs(level: Level, skill: float, seed: int, wrap: Wrap, step: int = STEP) -> Iterator[Pair]:
    """Endless repetitions of a level by a foot of some skill on pedals with a fault.

    The foot follows what its faulty pedals show until the wait begins, and from there on what it
    does itself: the same motion, with the same cues, is judged twice. The pedals are read every
    `step` ns.
    """
    clock = ManualClock()
    foot = SimulatedPedals(SimulatedFoot(skill, seed), clock)
    rng = np.random.default_rng((seed, FOREPERIODS))
    play = _Play(clock, foot, wrap, seed, step)
    for number in count(1):
        target = level.targets.at(number, rng)
        task = replace(level.kind.task(level, target, rng), patience=PATIENCE)
        yield play.pair(level, task)
        foot.on_menu()
        clock.advance(REST)


class _Once:
    """Source that reads another one once at each time, however often it is read."""

    def __init__(self, inner: Source, clock: ManualClock) -> None:
        self.name, self.label = inner.name, inner.label
        self.is_feet, self.counts = inner.is_feet, inner.counts
        self._inner = inner
        self._clock = clock
        self._newest = inner.read()
        self._read = clock()

    def read(self) -> Reading | None:
        """Reading of the other source now."""
        if self._clock() != self._read:
            self._newest, self._read = self._inner.read(), self._clock()
        return self._newest


class _Play:
    """Plays one repetition after the other on the same pedals."""

    def __init__(
        self, clock: ManualClock, foot: SimulatedPedals, wrap: Wrap, seed: int, step: int
    ) -> None:
        self._clock = clock
        self._step = step
        self._foot = foot
        once = _Once(foot, clock)
        self._fault = wrap(once, seed)
        self._true = Rig(clock, pedals=CalibratedPedals(once, TWO_PEDALS))
        self._told = Rig(clock, pedals=CalibratedPedals(self._fault, TWO_PEDALS))

    def pair(self, level: Level, task: Task) -> Pair:
        """Play one repetition, and judge it twice."""
        self._foot.on_task(task)
        self._fault.on_task(task)
        told = Repetition(task, self._clock(), self._told.device_history.report_interval)
        true: Repetition | None = None
        before = self._true.sample()
        while told.phase not in OVER or not (true is None or true.phase in OVER):
            self._clock.advance(self._step)
            now = self._true.sample()
            assert before is not None
            assert now is not None
            for transition in self._feed(told):
                self._fault.on_transition(transition)
                if transition.event is Event.READY:
                    true = _ready(task, before, self._true.device_history.report_interval)
                if _is_waited_for(true):
                    continue
                if transition.event is Event.LOST or transition.phase in OVER:
                    true = None
                self._foot.on_transition(transition)
            waited = _is_waited_for(true)
            for transition in () if true is None else true.feed(now):
                if waited and transition.phase not in OVER:
                    self._foot.on_transition(transition)
            before = now
        self._foot.on_transition(Transition(Event.OVER, Phase.DONE, self._clock()))
        return Pair(
            conclude(level, task, told, self._told, DATE)[0],
            None if true is None else conclude(level, task, true, self._true, DATE)[0],
        )

    def _feed(self, told: Repetition) -> tuple[Transition, ...]:
        sample = self._told.sample()
        if sample is None:
            return told.fault(Reason.UNPLUGGED, self._clock())
        return told.feed(sample)


def _is_waited_for(true: Repetition | None) -> bool:
    """Whether a repetition has come to its wait for the cue, or further."""
    return true is not None and true.phase not in FINDING


def _ready(task: Task, before: Sample, report_interval: float) -> Repetition:
    """Repetition that finds the pedals ready at the sample after this one, wherever they are."""
    repetition = Repetition(replace(task, start={}, freed=inf), before.time, report_interval)
    repetition.feed(before)
    return repetition
