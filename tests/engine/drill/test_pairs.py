"""Pairs of repetitions with and without the second task: always balanced, in random order."""

from collections import Counter
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from drills.level import Level
from engine.drill.pairs import half_of_pair
from engine.ladder.level_files import SHIPPED, load_levels
from tests.made import BLIP

COUNTING = next(level for level in load_levels([SHIPPED]) if level.kind.in_pairs)

any_seed = st.integers(0, 2**62)


def asked(seed: int, counted: int, level: Level = COUNTING) -> bool:
    """Whether the second task is asked after so many repetitions that counted."""
    return half_of_pair(level, counted, seed).second_task


@given(seed=any_seed, pair=st.integers(0, 200))
def test_each_pair_has_one_with_and_one_without(seed: int, pair: int) -> None:
    assert asked(seed, 2 * pair) is not asked(seed, 2 * pair + 1)


@given(seed=any_seed, counted=st.integers(0, 400))
def test_a_repetition_that_is_repeated_is_the_same_half(seed: int, counted: int) -> None:
    assert half_of_pair(COUNTING, counted, seed) == half_of_pair(COUNTING, counted, seed)


def test_chance_says_which_half_comes_first() -> None:
    firsts = Counter(asked(seed, 2 * pair) for seed in range(40) for pair in range(10))

    # 400 fair tosses are outside 150 to 250 once in two million.
    assert 150 < firsts[True] < 250


def test_one_seed_does_not_give_every_pair_the_same_order() -> None:
    orders = [{asked(seed, 2 * pair) for pair in range(12)} for seed in range(20)]

    assert all(order == {True, False} for order in orders)


def test_a_level_without_pairs_stays_as_it_is() -> None:
    assert half_of_pair(BLIP, 3, 1) is BLIP


@given(seed=any_seed, counted=st.integers(0, 50))
def test_nothing_else_of_the_level_changes(seed: int, counted: int) -> None:
    half = half_of_pair(COUNTING, counted, seed)

    assert replace(half, second_task=True) == COUNTING
