"""Repetitions by the simulated foot with a hand on the shift button, judged as in play."""

from collections.abc import Iterator
from dataclasses import replace

from drills.hand import SimulatedHand
from drills.level import Level
from drills.score import Judged
from drills.task import Performance
from tests.coarse_clock import READ_EACH
from tests.judged_play import judged_play


def hand_played(level: Level, skill: float, seed: int) -> Iterator[Judged]:
    """Endless repetitions that were played to their end, each by a foot and a hand of a skill."""
    return judged_play(level, skill, seed, SimulatedHand(skill, seed), READ_EACH)


def without_button(done: Performance) -> Performance:
    """A performance as it is recorded where no shift button is bound."""
    return replace(done, trace=replace(done.trace, shift=None))
