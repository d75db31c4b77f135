"""Levels that answer a fault: there is one for a player at every stage."""

from collections.abc import Iterator

import numpy as np
import pytest

from drills.fault import Fault
from drills.level import Level
from engine.ladder.level_files import SHIPPED, load_levels
from engine.practice.answering import answering
from engine.practice.passes import is_open

LEVELS = load_levels([SHIPPED])
FIRST = 6
"""Levels passed from which on every fault is answered, as a count."""


def stages(order: np.random.Generator | None = None) -> Iterator[frozenset[str]]:
    """Levels passed, one more each time: in the order of the ladder, or in one of chance."""
    passed: list[str] = []
    while opened := [
        level.id for level in LEVELS if level.id not in passed and is_open(level, frozenset(passed))
    ]:
        passed.append(opened[0 if order is None else int(order.integers(len(opened)))])
        if len(passed) >= FIRST:
            yield frozenset(passed)


@pytest.mark.parametrize("fault", list(Fault))
def test_a_player_of_six_levels_or_more_has_an_open_level_for_every_fault(fault: Fault) -> None:
    answers = answering(fault, LEVELS)

    for seed in (None, *range(40)):
        for passed in stages(None if seed is None else np.random.default_rng(seed)):
            assert any(is_open(level, passed) for level in answers), passed


@pytest.mark.parametrize("fault", list(Fault))
def test_a_fault_is_answered_by_several_levels_and_not_by_most(fault: Fault) -> None:
    assert 4 <= len(answering(fault, LEVELS)) <= len(LEVELS) // 2


def test_only_levels_that_answer_a_fault_are_found_in_their_order() -> None:
    found: list[Level] = answering(Fault.LOST, LEVELS)

    assert [level.id for level in found] == [
        level.id for level in LEVELS if "lost" in level.answers
    ]
