"""Repetitions by the simulated foot, each judged as in play, without a window or a disk."""

from collections.abc import Iterator

import numpy as np

from drills.foot import SimulatedFoot
from drills.hand import SimulatedHand
from drills.judging import judge_foot
from drills.level import Level
from drills.score import Judged
from engine.pedals.port import CalibratedPedals
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.stage.headless import STEP, ManualClock
from tests.simulated_repetitions import READING, played_to_its_end


def judged_play(
    level: Level, skill: float, seed: int, hand: SimulatedHand | None = None, step: int = STEP
) -> Iterator[Judged]:
    """Endless repetitions that were played to their end, by one foot, its targets in turn.

    `hand` is on the shift button; without one no button is bound. The pedals are read every `step`
    ns.
    """
    clock, rng = ManualClock(), np.random.default_rng(seed)
    source = SimulatedPedals(SimulatedFoot(skill, seed), clock, hand=hand)
    pedals = CalibratedPedals(source, SIMULATED_TRAVEL)
    done = 0
    while True:
        task = level.kind.task(level, level.targets.at(done + 1, rng), rng)
        repetition = played_to_its_end(task, source, pedals.sample, clock, step)
        performance = repetition.performance()
        if repetition.void is None and performance is not None:
            done += 1
            yield judge_foot(level, task, performance)
        source.on_menu()
        clock.advance(READING)
