"""Repetitions of shipped levels, played and judged by the simulated foot."""

from collections.abc import Sequence
from datetime import UTC, datetime
from functools import cache

import numpy as np

from drills.foot import SimulatedFoot
from drills.level import Level
from engine.drill.attempt import conclude
from engine.drill.repetition_screen import RepetitionScreen
from engine.kit.base import Place
from engine.kit.flow import show
from engine.ladder.level_files import SHIPPED, load_levels
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.stage.headless import run_headless
from tests.coarse_clock import CoarseClock
from tests.engine.repetitions_shown import Shown
from tests.fakes import a_stage

LEVELS = load_levels([SHIPPED])
BY_ID = {level.id: level for level in LEVELS}
DATE = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)


@cache
def shipped_repetitions(name: str, skill: float, seed: int, count: int) -> Sequence[Shown]:
    """Repetitions of a shipped level by the simulated foot, played once for all screens."""
    return tuple(repetitions(BY_ID[name], skill, seed, count))


def repetitions(level: Level, skill: float, seed: int, count: int) -> list[Shown]:
    """Judged repetitions of a level by the simulated foot, with their deviations."""
    clock = CoarseClock()
    foot = SimulatedPedals(SimulatedFoot(skill, seed), clock)
    rig = Rig(clock, pedals=CalibratedPedals(foot, SIMULATED_TRAVEL))
    rng = np.random.default_rng(seed)
    shown = []
    for number in range(count):
        task = level.kind.task(level, level.targets.at(number + 1, rng), rng)
        screen = RepetitionScreen(level, task, Place(number + 1, count), a_stage(foot), clock())
        ended = run_headless(show(screen, rig, a_stage(foot)), clock)
        shown.append(Shown(*conclude(level, task, ended, rig, DATE)))
    return shown
