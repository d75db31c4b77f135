"""Braking zones played by the simulated foot, and judged, without a window, a disk or a picture."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from drills.foot import SimulatedFoot
from drills.level import Level
from drills.score import Judged
from drills.task import Task
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.stage.headless import STEP, ManualClock
from tests.simulated_repetitions import READING, played_to_its_end


@dataclass(frozen=True, eq=False)
class PlayedZone:
    """One braking zone that a foot played."""

    task: Task
    """What was asked."""
    judged: Judged
    """What was done, and the verdict on it."""


def zones(level: Level, skill: float, seed: int, count: int) -> Iterator[PlayedZone]:
    """As many zones as are wanted by one foot; those that end void before they begin are left out.

    The pedals are read every millisecond.
    """
    clock = ManualClock()
    pedals = SimulatedPedals(SimulatedFoot(skill, seed), clock)
    rig = Rig(clock, pedals=CalibratedPedals(pedals, SIMULATED_TRAVEL))
    rng = np.random.default_rng(seed)
    done = 0
    while done < count:
        task = level.kind.task(level, level.targets.at(done + 1, rng), rng)
        repetition = played_to_its_end(task, pedals, rig.sample, clock, STEP)
        performance = repetition.performance()
        if repetition.void is None and performance is not None:
            done += 1
            yield PlayedZone(task, level.kind.judge(level, task, performance))
        pedals.on_menu()
        clock.advance(READING)
