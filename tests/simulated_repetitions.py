"""Repetitions of a level by the simulated foot, without a window or a disk."""

from collections.abc import Callable, Iterator, Sequence
from datetime import UTC, datetime
from itertools import count
from math import ceil
from statistics import median_high
from typing import Protocol

import numpy as np

from drills.foot import SimulatedFoot
from drills.hand import SimulatedHand
from drills.level import Level
from drills.phases import OVER, Transition
from drills.repetition import Repetition
from drills.task import Task
from drills.trace import SECOND, Sample
from engine.drill.attempt import conclude
from engine.drill.demo import FOREPERIODS
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.practice.passes import LevelProgress
from engine.stage.headless import STEP, ManualClock
from engine.store import Record

DATE = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
READING = 1 * SECOND
"""Nanoseconds between two repetitions."""


def repetitions(
    level: Level, skill: float, seed: int, passed: Sequence[Level] = (), step: int = STEP
) -> Iterator[Record]:
    """Endless repetitions, void ones included; each target is repeated until it counts.

    A mixed level draws from the levels passed. The pedals are read every `step` ns.
    """
    return played_by(SimulatedFoot(skill, seed), level, seed, passed, step)


class ListeningFoot(Protocol):
    """Foot that is told what a repetition asks, and how far it has come."""

    def on_task(self, task: Task) -> None:
        """Hear what the repetition asks."""

    def on_transition(self, transition: Transition) -> None:
        """Hear that a phase of the repetition ended."""


def played_to_its_end(
    task: Task,
    foot: ListeningFoot,
    read: Callable[[], Sample | None],
    clock: ManualClock,
    step: int,
) -> Repetition:
    """A repetition of a task that a foot played to its end; pedals are read every `step` ns."""
    foot.on_task(task)
    repetition = Repetition(task, clock())
    while repetition.phase not in OVER:
        clock.advance(step)
        sample = read()
        assert sample is not None
        for transition in repetition.feed(sample):
            foot.on_transition(transition)
    return repetition


def played_by(
    foot: SimulatedFoot,
    level: Level,
    seed: int,
    passed: Sequence[Level] = (),
    step: int = STEP,
    hand: SimulatedHand | None = None,
) -> Iterator[Record]:
    """The same of a foot that is given, and of a hand on the shift button if there is one."""
    clock = ManualClock()
    pedals = SimulatedPedals(foot, clock, hand=hand)
    rig = Rig(clock, pedals=CalibratedPedals(pedals, SIMULATED_TRAVEL))
    rng = np.random.default_rng((seed, FOREPERIODS))
    before: Level | None = None
    for number in count():
        drawn = level.kind.draw(level, passed, before, rng)
        before = drawn
        target, counted = drawn.targets.at(number + 1, rng), False
        while not counted:
            task = drawn.kind.task(drawn, target, rng)
            repetition = played_to_its_end(task, pedals, rig.sample, clock, step)
            record, _ = conclude(drawn, task, repetition, rig, DATE)
            yield record
            counted = not record.verdict.void
            pedals.on_menu()
            clock.advance(READING)


def counted(
    level: Level, skill: float, seed: int, passed: Sequence[Level] = (), step: int = STEP
) -> Iterator[Record]:
    """Endless repetitions that count, as `repetitions` plays them."""
    played = repetitions(level, skill, seed, passed, step)
    return (record for record in played if not record.verdict.void)


def sets_to_pass(clean: Sequence[bool], level: Level) -> int | None:
    """Number of sets needed to pass a level: the median over every repetition to begin with.

    The repetitions are repeated in a circle, twice at most; None where the rule is never met.
    """
    needed = [_to_pass([*clean[at:], *clean, *clean[:at]], level) for at in range(len(clean))]
    return None if None in needed else median_high(sets for sets in needed if sets is not None)


def _to_pass(clean: Sequence[bool], level: Level) -> int | None:
    progress = LevelProgress()
    for number, is_clean in enumerate(clean, start=1):
        progress = progress.after(is_clean, level.rule)
        if progress.passed:
            return ceil(number / level.repetitions)
    return None
