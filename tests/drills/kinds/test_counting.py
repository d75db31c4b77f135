"""The kind "counting": when the knocks come, which are high, and what is asked without them."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.kinds import KINDS
from drills.kinds.counting import APART, CLEAR, FEWEST, FIRST, is_counted
from drills.kinds.mixed import MixedDrill
from drills.level import Level
from drills.score import Reason, Verdict
from drills.task import Task
from engine.ladder.level_files import SHIPPED, load_levels
from tests.drills.test_level import parse

LEVELS = [level for level in load_levels([SHIPPED]) if level.kind.name == "counting"]
MISTAKE = 1e-9
"""Largest error of a time from adding, in s."""

any_level = st.sampled_from(LEVELS)
any_gaps = st.tuples(st.floats(0.35, 0.9), st.floats(0.55, 0.9)).filter(
    lambda both: both[0] <= both[1]
)
any_seed = st.integers(0, 2**32)


def task_of(level: Level, seed: int) -> Task:
    """Task of a repetition of a level, drawn from a seed."""
    return level.kind.task(level, 60.0, np.random.default_rng(seed))


def with_gaps(gaps: tuple[float, float]) -> Level:
    """The first shipped level with other gaps between the knocks, in s."""
    least, most = gaps
    own = {**LEVELS[0].own, "knocks.least": least, "knocks.most": most}
    return replace(LEVELS[0], own=own)


@given(gaps=any_gaps, seed=any_seed)
def test_every_gap_is_one_that_the_level_allows_or_clears_the_cue(
    gaps: tuple[float, float], seed: int
) -> None:
    task = task_of(with_gaps(gaps), seed)

    times = [knock.at for knock in task.knocks]
    least, most = gaps
    assert all(
        least - MISTAKE <= after - before <= most + MISTAKE for before, after in pairwise(times)
    )


@given(gaps=any_gaps, seed=any_seed)
def test_no_knock_comes_as_the_dark_begins_or_just_before_the_cue(
    gaps: tuple[float, float], seed: int
) -> None:
    task = task_of(with_gaps(gaps), seed)

    near_cue = [at - task.wait for at in (knock.at for knock in task.knocks)]
    assert min(knock.at for knock in task.knocks) >= FIRST
    assert not [at for at in near_cue if -CLEAR + MISTAKE < at < APART - MISTAKE]


@given(gaps=any_gaps, seed=any_seed)
def test_knocks_begin_with_the_dark_and_go_on_until_the_longest_repetition_ends(
    gaps: tuple[float, float], seed: int
) -> None:
    task = task_of(with_gaps(gaps), seed)

    ends = task.wait + sum(move.within for move in task.moves) + task.tail
    assert task.knocks[0].at < FIRST + gaps[1]
    assert ends - gaps[1] < task.knocks[-1].at <= ends


@given(level=any_level, seed=any_seed)
def test_there_is_always_something_to_count_before_the_cue(level: Level, seed: int) -> None:
    task = task_of(level, seed)

    assert sum(knock.is_high for knock in task.knocks if knock.at < task.wait) >= FEWEST


@given(level=any_level, seed=any_seed)
def test_there_are_three_to_six_seconds_to_count_in(level: Level, seed: int) -> None:
    assert 3 <= task_of(level, seed).wait <= 6


@given(level=any_level, seed=any_seed)
def test_without_the_second_task_a_repetition_asks_the_same_and_no_knock(
    level: Level, seed: int
) -> None:
    alone = task_of(replace(level, second_task=False), seed)

    assert alone == replace(task_of(level, seed), knocks=())


@pytest.mark.parametrize("level", LEVELS, ids=lambda level: level.id)
def test_the_share_of_high_knocks_is_about_that_of_the_level(level: Level) -> None:
    knocks = [knock for seed in range(300) for knock in task_of(level, seed).knocks]

    share = sum(knock.is_high for knock in knocks) / len(knocks)
    assert share == pytest.approx(level.own["knocks.high"], abs=0.06)


def test_the_number_to_count_cannot_be_known_beforehand() -> None:
    numbers = {sum(k.is_high for k in task_of(LEVELS[0], seed).knocks) for seed in range(100)}

    assert len(numbers) >= 4


@pytest.mark.parametrize(
    ("asked", "words"), [(True, "Count the high"), (False, "Nothing to count")]
)
def test_the_prompt_says_whether_there_is_something_to_count(asked: bool, words: str) -> None:
    level = replace(LEVELS[0], second_task=asked)

    assert level.kind.prompt(level, task_of(level, 1)).then.startswith(words)


@pytest.mark.parametrize(
    ("knocks", "counted", "counts"),
    [(4, 4, True), (4, 3, True), (4, 5, True), (4, 2, False), (4, 6, False), (0, 1, True)],
)
def test_an_answer_counts_within_one(knocks: int, counted: int, counts: bool) -> None:
    assert is_counted(knocks, counted) is counts


@pytest.mark.parametrize(
    ("answer", "note"),
    [
        ({"knocks": 5.0, "counted": 4.0}, "5 high knocks, counted 4."),
        ({"knocks": 1.0, "counted": 1.0}, "1 high knock, counted 1."),
        ({}, ""),
    ],
)
def test_the_quiet_line_tells_the_count_where_there_was_one(
    answer: dict[str, float], note: str
) -> None:
    for reason in (Reason.CLEAN, Reason.OVER_LIMIT, Reason.MISCOUNTED):
        assert LEVELS[0].kind.note(Verdict(reason, measures=answer)) == note


def test_its_levels_need_sound_and_blips_of_one_size() -> None:
    for level in LEVELS:
        assert level.kind.needs_sound
        assert level.own["blip.size"] == 60


def test_no_other_kind_needs_sound_or_comes_in_pairs() -> None:
    others = [kind for kind in KINDS.values() if kind.name != "counting"]

    assert not any(kind.needs_sound or kind.in_pairs for kind in others)
    assert isinstance(KINDS["mixed"], MixedDrill)


def test_a_level_that_leaves_the_wait_out_has_time_to_count() -> None:
    text = (
        'id = "mine"\ntitle = "Mine"\npurpose = "It."\nkind = "counting"\n'
        "targets = 60\ntolerance = 15\n[limits]\ndip = 15\n"
    )

    assert parse(text).foreperiod.shift == 3
