"""Personal limit of a level: a quantile, its best, and when a new best is told."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.practice.personal_limit import PersonalLimit, load_of

BEGAN = date(2024, 2, 26)
PLAYED = st.lists(st.tuples(st.integers(0, 8), st.floats(0, 4)), max_size=120)


def after(played: Sequence[tuple[int, float]]) -> PersonalLimit:
    """Personal limit after factors, each on a day from the first."""
    limit = PersonalLimit()
    for day, load in played:
        limit = limit.after(BEGAN + timedelta(days=day), load)
    return limit


def blocks(*levels: float, apart: int = 20) -> PersonalLimit:
    """Personal limit after blocks of 36, four of nine days each, spread about a level."""
    spread = [level * (0.6 + place / 45) for level in levels for place in range(36)]
    days = [block * apart + place // 9 for block in range(len(levels)) for place in range(36)]
    return after(list(zip(days, spread, strict=True)))


@pytest.mark.parametrize(("score", "load"), [(100, 0), (50, 1), (25, 2), (1, 4), (0, 4)])
def test_the_factor_of_a_repetition_is_that_of_its_score(score: float, load: float) -> None:
    assert load_of(score) == load


@given(PLAYED)
def test_the_newest_36_count_and_at_most_nine_of_a_day(played: list[tuple[int, float]]) -> None:
    newest = list[tuple[int, float]]()
    for day, load in reversed(played):
        if [other for other, _ in newest].count(day) < 9:
            newest.append((day, load))
    expected = newest[:36][::-1]

    limit = after(played)

    assert limit.loads == tuple(round(load, 4) for _, load in expected)
    assert limit.days == tuple(BEGAN + timedelta(days=day) for day, _ in expected)
    assert (limit.factor is None) == (len(expected) < 36)


def test_of_forty_repetitions_the_newest_36_count_and_a_tenth_of_a_day_replaces_its_first() -> None:
    four_a_day = after([(place // 4, place / 100) for place in range(40)])
    ten_a_day = after([(0, 0.5), *((1, place / 100) for place in range(10))])

    assert four_a_day.loads == tuple(place / 100 for place in range(4, 40))
    assert ten_a_day.loads == (0.5, *(place / 100 for place in range(1, 10)))
    assert (four_a_day.since, ten_a_day.since) == (4, 10)


def test_the_limit_and_its_interval_are_those_of_the_order_statistics() -> None:
    limit = after([(place // 9, (place + 1) / 100) for place in range(36)])

    assert limit.factor == pytest.approx(0.2725)
    assert limit.interval == (0.22, 0.33)
    assert after([(0, 1.0)] * 20).interval is None


def test_the_best_is_what_two_blocks_in_a_row_stayed_within() -> None:
    one, two, three = blocks(0.8), blocks(0.8, 0.7), blocks(0.8, 0.7, 0.9)

    assert one.best is None
    assert two.best == one.factor
    assert two.best_day == BEGAN + timedelta(days=23)
    assert (three.best, three.best_day) == (two.best, two.best_day)
    assert blocks(0.8, 0.7, 0.5).best == two.factor


def test_a_new_best_is_told_once_where_it_is_surely_lower() -> None:
    assert blocks(0.8, 0.3).told is None
    assert blocks(0.8, 0.3, 0.3).told == BEGAN + timedelta(days=43)
    assert blocks(0.8, 0.3, 0.3, 0.3).told == BEGAN + timedelta(days=43)
    assert blocks(0.8, 0.7, 0.7, 0.7).told is None
    assert blocks(0.8, 0.3, 0.8, 0.3, 0.8).told is None
    assert blocks(0.8, 0.3, 0.3, 0.1, 0.1).told == BEGAN + timedelta(days=83)


def test_blocks_that_end_within_two_weeks_are_one() -> None:
    assert blocks(0.8, 0.3, 0.3, apart=4).best is None
    assert blocks(0.8, 0.3, 0.3, apart=4).told is None


@given(st.lists(st.floats(0.05, 3), max_size=12))
def test_each_best_that_is_told_is_lower_than_the_one_told_before(levels: list[float]) -> None:
    told = [
        limit
        for count in range(1, len(levels) + 1)
        if (limit := blocks(*levels[:count])).told == limit.ended
    ]

    bests = [limit.best for limit in told if limit.best is not None]
    assert len(bests) == len(told)
    assert bests == sorted(bests, reverse=True)
    assert len(set(bests)) == len(bests)
