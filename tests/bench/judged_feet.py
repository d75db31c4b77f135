"""Repetitions of simulated feet, played and judged without screens, and used again.

A simulated foot is stepped a millisecond at a time, which a year of practice has no time for. So
each level is played some times at each skill, and from then on one of those verdicts is drawn.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import UTC, datetime

import numpy as np

from drills.foot import SimulatedFoot
from drills.judging import judge_foot
from drills.level import Level
from drills.task import Performance, Task
from drills.trace import SECOND, nanoseconds
from engine.drill.attempt import conclude
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.stage.headless import ManualClock
from engine.store import Record
from tests.simulated_repetitions import played_to_its_end

MakeFoot = Callable[[float, int], SimulatedFoot]
"""Function that makes a simulated foot of a skill (0 to 1) from a seed."""
REPORTS = nanoseconds(0.004)
"""Time from one report of the pedals to the next, in ns, as of many devices."""
SKILLS = 20
"""Steps of skill from beginner to expert, as a count; between two a foot is now one, now other."""
READING = 1 * SECOND
"""Time from one repetition to the next, in ns."""
SOME_DAY = datetime(2024, 5, 1, tzinfo=UTC)


class Feet(SimulatedPedals):
    """Simulated pedals whose repetitions count, as a player's do."""

    name = "pedals"
    counts = True


@dataclass(frozen=True, eq=False)
class Played:
    """A repetition that was played and judged once."""

    record: Record
    """Its record, of the level that was drawn."""
    level: Level
    """Level that it was judged by."""
    task: Task
    """What it asked."""
    done: Performance | None
    """What was done in it; None where it ended before the dark, or is never judged again."""


class JudgedFeet:
    """A simulated foot at any skill: its repetitions of any level, judged by the real judge."""

    def __init__(
        self,
        make: MakeFoot,
        samples: int,
        judged_again: frozenset[str] = frozenset(),
        *,
        traces: bool = False,
        seed: int = 1,
    ) -> None:
        """`samples` is how often a level is played at each skill before verdicts are used again.

        `judged_again` are the ids of the levels whose limits change from one repetition to the
        next. Without `traces` the records hold none.
        """
        self._make = make
        self._samples = samples
        self._again = judged_again
        self._traces = traces
        self._seed = seed
        self._pools: dict[tuple[str, int], list[Played]] = {}
        self._benches: dict[int, tuple[ManualClock, Feet, Rig]] = {}
        self.played = 0
        """Repetitions stepped by the foot so far, as a count."""

    def record(self, level: Level, skill: float, rng: np.random.Generator) -> Record:
        """Record of one repetition of a level, which draws no other, at a skill from 0 to 1."""
        step = min(int(skill * SKILLS + rng.random()), SKILLS)
        pool = self._pools.setdefault((level.id, step), [])
        if len(pool) < self._samples:
            pool.append(self._play(level, step, len(pool) + 1, rng))
            return pool[-1].record
        one = pool[int(rng.integers(len(pool)))]
        if one.done is None or one.level.limits == level.limits or one.record.verdict.void:
            return one.record
        return replace(one.record, verdict=judge_foot(level, one.task, one.done).verdict)

    def _play(self, level: Level, step: int, turn: int, rng: np.random.Generator) -> Played:
        if step not in self._benches:
            clock = ManualClock()
            pedals = Feet(self._make(step / SKILLS, self._seed + step), clock, "")
            rig = Rig(clock, pedals=CalibratedPedals(pedals, SIMULATED_TRAVEL))
            self._benches[step] = clock, pedals, rig
        clock, pedals, rig = self._benches[step]
        task = level.kind.task(level, level.targets.at(turn, rng), rng)
        repetition = played_to_its_end(task, pedals, rig.sample, clock, REPORTS)
        record, _ = conclude(level, task, repetition, rig, SOME_DAY)
        pedals.on_menu()
        clock.advance(READING)
        self.played += 1
        done = repetition.performance() if level.id in self._again else None
        return Played(record if self._traces else replace(record, trace=None), level, task, done)
