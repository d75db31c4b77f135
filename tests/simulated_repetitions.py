"""Repetitions of a level by the simulated foot, one after the other, without a window or a disk."""

from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from itertools import count
from math import ceil
from statistics import median_high

import numpy as np

from drills.foot import SimulatedFoot
from drills.level import Level
from drills.phases import OVER
from drills.repetition import Repetition
from drills.trace import SECOND
from engine.drill.attempt import conclude
from engine.drill.demo import FOREPERIODS
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.practice.passes import LevelProgress
from engine.stage.headless import STEP, ManualClock
from engine.store import Record

DATE = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
READING = 1 * SECOND  # ns the foot is given between two repetitions


def repetitions(
    level: Level, skill: float, seed: int, passed: Sequence[Level] = (), step: int = STEP
) -> Iterator[Record]:
    """Repetitions without end, void ones too; each target comes again until it counted.

    A mixed level draws from those passed. The pedals are read every `step` ns.
    """
    clock = ManualClock()
    pedals = SimulatedPedals(SimulatedFoot(skill, seed), clock)
    rig = Rig(clock, pedals=CalibratedPedals(pedals, SIMULATED_TRAVEL))
    rng = np.random.default_rng((seed, FOREPERIODS))
    before: Level | None = None
    for number in count():
        drawn = level.kind.draw(level, passed, before, rng)
        before = drawn
        target, counted = drawn.targets.at(number + 1, rng), False
        while not counted:
            task = drawn.kind.task(drawn, target, rng)
            pedals.on_task(task)
            repetition = Repetition(task, clock())
            while repetition.phase not in OVER:
                clock.advance(step)
                sample = rig.sample()
                assert sample is not None
                for transition in repetition.feed(sample):
                    pedals.on_transition(transition)
            record, _ = conclude(drawn, task, repetition, rig, DATE)
            yield record
            counted = not record.verdict.void
            pedals.on_menu()
            clock.advance(READING)


def counted(
    level: Level, skill: float, seed: int, passed: Sequence[Level] = (), step: int = STEP
) -> Iterator[Record]:
    """Those of them that count."""
    played = repetitions(level, skill, seed, passed, step)
    return (one for one in played if not one.verdict.void)


def sets_to_pass(clean: Sequence[bool], level: Level) -> int | None:
    """Sets it takes to meet the rule of a level, as median over every place to begin at.

    The repetitions are taken round and round, twice at most; None where they never meet it.
    """
    needed = [_to_pass([*clean[at:], *clean, *clean[:at]], level) for at in range(len(clean))]
    return None if None in needed else median_high(sets for sets in needed if sets is not None)


def _to_pass(clean: Sequence[bool], level: Level) -> int | None:
    streaks = LevelProgress()
    for number, one in enumerate(clean, start=1):
        streaks = streaks.after(one, level.rule)
        if streaks.passed:
            return ceil(number / level.repetitions)
    return None
