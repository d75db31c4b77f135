"""Repetitions by the simulated foot with a hand on the shift button, judged as in play."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from drills.foot import SimulatedFoot
from drills.hand import SimulatedHand
from drills.judging import judge_foot
from drills.level import Level
from drills.score import Judged
from drills.task import Performance
from engine.pedals.port import CalibratedPedals
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.stage.headless import ManualClock
from tests.coarse_clock import READ_EACH
from tests.simulated_repetitions import READING, played_to_its_end


def hand_played(level: Level, skill: float, seed: int) -> Iterator[Judged]:
    """Endless repetitions that were played to their end, each by a foot and a hand of a skill."""
    clock, rng = ManualClock(), np.random.default_rng(seed)
    source = SimulatedPedals(SimulatedFoot(skill, seed), clock, hand=SimulatedHand(skill, seed))
    pedals = CalibratedPedals(source, SIMULATED_TRAVEL)
    while True:
        task = level.kind.task(level, level.targets.at(1, rng), rng)
        repetition = played_to_its_end(task, source, pedals.sample, clock, READ_EACH)
        done = repetition.performance()
        if done is not None and repetition.void is None:
            yield judge_foot(level, task, done)
        source.on_menu()
        clock.advance(READING)


def without_button(done: Performance) -> Performance:
    """A performance as it is recorded where no shift button is bound."""
    return replace(done, trace=replace(done.trace, shift=None))
