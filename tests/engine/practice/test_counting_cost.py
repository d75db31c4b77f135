"""The cost of counting: which repetitions are pairs, what their mean tells, and how surely."""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from engine.practice.counting_cost import (
    LEAST,
    NEVER,
    NEWEST,
    Pair,
    cost_of,
    cost_over_time,
    paired_mean,
    pairs_of,
)
from tests.engine.practice.counting_made import FIRST, about, repetition, weekly

MAIZE = [49, -67, 8, 16, 6, 23, 28, 41, 14, 29, 56, 24, 75, 60, -48]
"""Darwin's maize, eighths of an inch, crossed less selfed: Fisher 1935, *The Design of
Experiments*, section 17."""
SLEEP = [1.2, 2.4, 1.3, 1.3, 0.0, 1.0, 1.8, 0.8, 4.6, 1.4]
"""Hours of sleep gained by one drug over another: Student 1908, *The Probable Error of a Mean*."""
APART = [FIRST + timedelta(days=number) for number in range(50)]


def test_the_interval_of_darwins_maize_is_that_of_a_paired_t_test() -> None:
    scipys = stats.ttest_1samp(MAIZE, 0)

    mean = paired_mean(MAIZE, APART[:15])

    # Fisher gives t = 2.148 on 14 degrees of freedom, just over its 5 % point of 2.145.
    assert scipys.statistic == pytest.approx(2.148, abs=5e-4)
    assert mean.value == pytest.approx(314 / 15)
    assert (mean.low, mean.high) == pytest.approx(scipys.confidence_interval(0.95))
    assert mean.is_told


def test_the_interval_of_students_sleep_is_that_of_a_paired_t_test() -> None:
    scipys = stats.ttest_1samp(SLEEP, 0).confidence_interval(0.95)

    mean = paired_mean(SLEEP, APART[:10])

    assert mean.value == pytest.approx(1.58)
    assert (mean.low, mean.high) == pytest.approx(scipys)


def test_what_would_be_found_is_found_in_four_of_five_tries() -> None:
    rng, noise = np.random.default_rng(5), 3.0
    founds, told = [], 0
    for _ in range(1000):
        founds.append(paired_mean(list(rng.normal(0, noise, 24)), APART[:24]).found)
    true = float(np.mean(founds))
    for _ in range(1000):
        told += paired_mean(list(rng.normal(true, noise, 24)), APART[:24]).is_told

    assert 0.75 < told / 1000 < 0.85


def test_days_that_are_alike_widen_the_interval() -> None:
    values = [1.0, 1.1, 0.9, 5.0, 5.1, 4.9, 9.0, 9.1, 8.9]
    days = [APART[number // 3] for number in range(9)]

    apart, alike = paired_mean(values, APART[:9]), paired_mean(values, days)

    assert alike.value == apart.value
    assert alike.high - alike.low > apart.high - apart.low


def test_each_repetition_is_paired_with_the_next_of_the_other_condition() -> None:
    played = [
        repetition(8.0),
        repetition(12.0, counts=True),
        repetition(9.0, counts=True),
        repetition(7.0),
    ]

    assert [pair.dip for pair in pairs_of(played)] == [4.0, 2.0]


def test_a_repetition_that_is_left_over_is_in_no_pair() -> None:
    tomorrow = FIRST + timedelta(days=1)
    played = [
        repetition(50.0),
        repetition(8.0),
        repetition(12.0, counts=True),
        repetition(30.0, counts=True),
        repetition(5.0, day=tomorrow),
        repetition(6.0, counts=True, day=tomorrow, level="another"),
    ]

    assert [pair.dip for pair in pairs_of(played)] == [4.0]


def test_a_pair_in_which_one_has_no_dip_is_left_out() -> None:
    played = [
        repetition(None),
        repetition(12.0, counts=True),
        repetition(10.0, counts=True),
        repetition(8.0),
    ]

    assert [pair.dip for pair in pairs_of(played)] == [2.0]


def test_a_brake_that_never_settled_counts_as_the_longest() -> None:
    played = [repetition(settle=0.2), repetition(counts=True, settle=None)]
    longer = [repetition(settle=0.2), repetition(counts=True, settle=NEVER + 1)]

    assert pairs_of(played) == pairs_of(longer)
    assert pairs_of(played)[0].settle == pytest.approx(NEVER - 0.2)


@given(st.lists(st.tuples(st.booleans(), st.integers(0, 2), st.integers(0, 1)), max_size=60))
def test_no_repetition_is_in_two_pairs(played: list[tuple[bool, int, int]]) -> None:
    made = [
        repetition(float(2**number % 97), counts, FIRST + timedelta(days=day), f"level-{level}")
        for number, (counts, day, level) in enumerate(played)
    ]

    pairs = pairs_of(made)

    for key in {(one.day, one.level) for one in made}:
        mine = [one for one in made if (one.day, one.level) == key]
        most = min(
            sum(one.counts_knocks for one in mine), sum(not one.counts_knocks for one in mine)
        )
        assert len(pairs_of(mine)) <= most
    assert 2 * len(pairs) <= len(made)


def test_nothing_is_told_of_too_few_pairs() -> None:
    few = cost_over_time(weekly(about(5.0, LEAST - 1)))
    enough = cost_over_time(weekly(about(5.0, LEAST)))

    assert few.now is None
    assert few.pairs == LEAST - 1
    assert enough.now is not None
    assert enough.now.dip.value == pytest.approx(5.0)


def test_the_present_cost_is_that_of_the_newest_pairs() -> None:
    cost = cost_over_time(weekly([*about(20.0, 24), *about(2.0, NEWEST)]))

    assert cost.now is not None
    assert cost.now.pairs == NEWEST
    assert cost.now.dip.value == pytest.approx(2.0)


def test_an_earlier_month_is_told_where_the_intervals_do_not_touch() -> None:
    fell = cost_over_time(weekly([*about(15.0, 24), *about(3.0, NEWEST)]))
    rose = cost_over_time(weekly([*about(3.0, 24), *about(15.0, NEWEST)]))
    same = cost_over_time(weekly([*about(3.5, 24), *about(3.0, NEWEST)]))

    assert rose.before is not None
    assert rose.before.dip.value == pytest.approx(3.0)
    assert fell.before is not None
    assert (fell.before.first.year, fell.before.first.month) == (2024, 3)
    assert fell.before.dip.value == pytest.approx(15.0)
    assert same.before is None


def test_a_month_whose_pairs_are_among_the_present_ones_is_no_earlier_one() -> None:
    cost = cost_over_time(weekly([*about(15.0, 24), *about(-15.0, 12)]))

    assert cost.months
    assert cost.before is None


def test_a_month_of_few_pairs_has_no_cost_of_its_own() -> None:
    april = weekly(about(3.0, LEAST), first=date(2024, 4, 1))

    cost = cost_over_time([*weekly(about(5.0, 6)), *april])

    assert [month.first.month for month in cost.months] == [4]


def test_the_present_cost_is_told_though_no_month_has_enough_pairs() -> None:
    cost = cost_over_time(weekly(about(5.0, NEWEST), a_week=2))

    assert cost.now is not None
    assert (cost.months, cost.before) == ((), None)


def test_answers_are_right_where_they_are_exactly_right() -> None:
    played = [repetition(counts=True, missed=missed) for missed in (0, 1, -1, 0)]

    cost = cost_over_time([*played, repetition()])

    assert (cost.right, cost.answers) == (2, 4)


def test_answers_are_those_of_the_present_cost() -> None:
    early = [repetition(), repetition(counts=True, missed=1)]
    later = weekly(about(2.0, NEWEST), first=FIRST + timedelta(weeks=1))

    cost = cost_over_time([*early, *later])

    assert (cost.right, cost.answers) == (NEWEST, NEWEST)


@given(st.lists(st.floats(-20, 20), min_size=LEAST, max_size=40))
def test_a_constant_added_to_every_difference_moves_the_interval(differences: list[float]) -> None:
    days = [APART[number // 6] for number in range(len(differences))]
    pairs = [Pair(day, dip, 0.0) for day, dip in zip(days, differences, strict=True)]
    moved = [Pair(pair.day, pair.dip + 5, 0.0) for pair in pairs]

    before, after = cost_of(pairs), cost_of(moved)

    assert before is not None
    assert after is not None
    assert after.dip.low == pytest.approx(before.dip.low + 5, abs=1e-6)
    assert after.dip.high == pytest.approx(before.dip.high + 5, abs=1e-6)
