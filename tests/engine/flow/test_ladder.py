"""Levels tell neighbouring skills apart: a small version of `python tests/bench/levels.py`."""

from itertools import islice, pairwise

import pytest

from drills.level import Level
from engine.levels import SHIPPED, load_levels
from tests.played import counted, sets_to_pass

LEVELS = {level.id: level for level in load_levels([SHIPPED])}
MADE_FOR = {
    "still-1-light": 0.25,
    "still-2-firm": 0.5,
    "still-3-dark": 0.75,
    "blip-0-roll": 0.25,
    "blip-1-first": 0.25,
    "blip-2-closer": 0.5,
    "blip-3-good": 0.5,
    "blip-4-ripple": 0.75,
    "blip-5-still": 1.0,
}
"""The skill each level is made for; the one below it is a quarter less."""
STEP = 0.25
SEED = 2
SET = 10


def clean(level: Level, skill: float) -> int:
    """Clean repetitions in a set of a level by the foot of some skill."""
    return sum(one.verdict.clean for one in islice(counted(level, skill, SEED), SET))


def test_every_level_is_made_for_somebody() -> None:
    assert set(MADE_FOR) == set(LEVELS)


def test_levels_are_passed_by_the_skill_they_are_made_for_and_not_by_the_one_below() -> None:
    made_for = [clean(LEVELS[name], skill) for name, skill in MADE_FOR.items()]
    below = [clean(LEVELS[name], skill - STEP) for name, skill in MADE_FOR.items()]

    most = SET * len(MADE_FOR)
    assert sum(made_for) >= 0.8 * most, f"seed {SEED}: {made_for}"
    assert sum(below) <= 0.6 * most, f"seed {SEED}: {below}"
    assert all(one > other for one, other in zip(made_for, below, strict=True)), f"seed {SEED}"


def test_a_blip_may_cost_less_at_every_level_and_so_with_every_other_limit() -> None:
    blips = [level for level in LEVELS.values() if level.kind.name == "blip"]

    assert [level.limits["dip"] for level in blips] == [45, 30, 20, 15, 10, 6]
    for easier, harder in pairwise(blips):
        assert all(harder.limits[name] <= limit for name, limit in easier.limits.items())
        assert harder.own["blip.longest"] <= easier.own["blip.longest"]
        assert harder.own["blip.least"] >= easier.own["blip.least"]


@pytest.mark.parametrize(
    ("played", "sets"),
    [
        ([True] * 10, 1),
        ([True, False] * 10, None),
        ([True] * 9 + [False] * 9, 2),
        ([False] * 30 + [True] * 10, 3),
    ],
)
def test_the_sets_to_pass_are_the_median_over_every_repetition_to_begin_with(
    played: list[bool], sets: int | None
) -> None:
    assert sets_to_pass(played, LEVELS["blip-1-first"]) == sets
