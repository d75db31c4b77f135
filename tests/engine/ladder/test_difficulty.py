"""Levels tell neighbouring skills apart: a small version of `python tests/bench/levels.py`."""

from itertools import groupby, islice, pairwise
from math import ceil
from statistics import mean

import pytest

from drills.level import Aid, Feedback, Level
from drills.trace import nanoseconds
from engine.ladder.level_files import SHIPPED, load_levels
from engine.practice.passes import needed
from tests.simulated_repetitions import counted, sets_to_pass

LEVELS = {level.id: level for level in load_levels([SHIPPED])}
STAGES = {
    stage: list(levels) for stage, levels in groupby(LEVELS.values(), key=lambda level: level.stage)
}
MADE_FOR = {
    0.25: ("still-1-light", "blip-0-roll", "blip-1-first", "run-1-two", "ease-1-slow"),
    0.5: (
        *("still-2-firm", "still-2b-anywhere", "still-2a-squeeze", "still-2c-squeeze-any"),
        *("blip-2-closer", "blip-2b-moving", "blip-3-good", "quiet-guess"),
        *("run-2-three", "run-3-even", "ease-2-quick", "ease-3-one"),
        *("clutch-1-order", "clutch-2-quiet", "mix-1-any", "count-1-easy", "count-2-quick"),
        *("zone-1-gatehouse", "zone-2-orchard"),
    ),
    0.75: (
        *("still-3-dark", "still-4-long", "blip-4-ripple", "quiet-outside", "quiet-five"),
        *("run-4-quick", "run-5-four", "ease-4-guess", "ease-5-two"),
        *("clutch-3-quick", "mix-2-five", "count-3-still", "zone-3-quarry", "zone-4-chapel"),
    ),
    1.0: (
        *("blip-5-still", "run-6-any", "ease-6-still", "mix-3-nothing"),
        *("zone-5-ridge", "zone-6-summit"),
    ),
}
"""The levels by the skill they are made for; the one below it is a quarter less."""
STEP = 0.25
"""Difference between a skill and the next one below it."""
SEED = 2
"""Each level is played by a foot of its own, whose luck says nothing about that of another."""
REPETITIONS, EACH = 80, 8
"""Least number of counted repetitions at the skill levels are made for: of all, and of each."""
BELOW, EACH_BELOW = 60, 4
"""Least number of counted repetitions at the skill below: of all, and of each.

Of 100 seeds some 3 then miss one of the bounds below.
"""
COARSE = nanoseconds(0.004)
"""Time between two reads of the pedals in ns, that of a device of 250 Hz, for speed."""
FIRST_TWO = ("stillness", "first blip")
"""Stages for beginners."""


def clean(level: Level, skill: float, repetitions: int) -> int:
    """Number of clean repetitions among the first that count, by a simulated foot."""
    seed = 100 * SEED + list(LEVELS).index(level.id)
    passed = needed(level, list(LEVELS.values()))
    records = islice(counted(level, skill, seed, passed, COARSE), repetitions)
    return sum(record.verdict.clean for record in records)


def test_every_level_is_made_for_some_skill() -> None:
    assert sorted(name for names in MADE_FOR.values() for name in names) == sorted(LEVELS)


@pytest.mark.parametrize("skill", MADE_FOR)
def test_levels_are_passed_by_the_skill_they_are_made_for_and_not_by_the_one_below(
    skill: float,
) -> None:
    levels = [LEVELS[name] for name in MADE_FOR[skill]]

    each = max(EACH, ceil(REPETITIONS / len(levels)))
    each_below = max(EACH_BELOW, ceil(BELOW / len(levels)))

    fitting = {level.id: clean(level, skill, each) / each for level in levels}
    passed = mean(fitting.values())
    below = mean(clean(level, skill - STEP, each_below) / each_below for level in levels)

    assert [name for name, share in fitting.items() if share == 0] == []
    assert passed >= 0.7, f"seed {SEED}"
    assert below <= 0.65, f"seed {SEED}"
    assert passed - below >= 0.2, f"seed {SEED}: {passed:.2f} and {below:.2f}"


def test_the_stages_come_in_order_and_the_clutch_is_a_branch() -> None:
    assert list(STAGES) == [
        *("stillness", "first blip", "quiet blip", "runs", "easing off", "clutch", "everything"),
        *("braking zones", "by itself"),
    ]
    assert len(LEVELS) >= 40
    clutch = {level.id for level in STAGES["clutch"]}
    others = [level for stage, levels in STAGES.items() if stage != "clutch" for level in levels]
    assert all(clutch.isdisjoint(level.needs) for level in others)


def test_a_level_that_draws_its_brake_from_a_bubble_or_a_tone_is_in_the_first_two_stages() -> None:
    for stage, levels in STAGES.items():
        aids = {level.aid for level in levels}
        assert stage in FIRST_TWO or aids == {Aid.NONE}


def test_feedback_fades_with_the_stage() -> None:
    early = {level.feedback for stage in FIRST_TWO for level in STAGES[stage]}
    last = STAGES["everything"][-1].feedback

    assert early == {Feedback.EVERY}
    assert last is Feedback.NONE
    asked = [stage for stage, levels in STAGES.items() if any(level.guess for level in levels)]
    assert asked == ["quiet blip", "runs", "easing off"]


@pytest.mark.parametrize(
    "stage",
    [
        *("first blip", "quiet blip", "runs", "easing off", "clutch"),
        *("braking zones", "by itself"),
    ],
)
def test_a_blip_may_cost_less_at_every_level_of_a_stage_and_so_with_every_other_limit(
    stage: str,
) -> None:
    levels = [level for level in STAGES[stage] if "dip" in level.limits]

    for easier, harder in pairwise(levels):
        shared = easier.limits.keys() & harder.limits.keys()
        assert all(harder.limits[name] <= easier.limits[name] for name in shared), harder.id
        assert harder.own["blip.longest"] <= easier.own["blip.longest"]
        assert harder.own["blip.least"] >= easier.own["blip.least"]
    assert stage != "quiet blip" or levels[-1].limits["dip"] == 6.0


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
