"""Bins of day effects, worked out by hand."""

from __future__ import annotations

import numpy as np
import pytest

from engine.practice.course import LEFT_OUT, Course
from engine.progress.curve_points import (
    MOST_BINS,
    chart_bins,
    days_a_bin,
)

DAY = 730_000
LEAST = 0.1


def course(*days: list[tuple[int, float]], before: int = LEFT_OUT) -> Course:
    """A course of some days, each a list of levels and values after `before` other repetitions."""
    count = [len(day) for day in days]
    day = np.repeat(np.arange(len(days)) + DAY, count)
    place = np.concatenate([before + 1 + np.arange(one) for one in count])
    level = np.array([level for one in days for level, _ in one])
    value = np.array([value for one in days for _, value in one])
    return Course(np.arange(1, value.size + 1), day, place, value, level)


def same(days: int, value: float = 4.0, a_day: int = 2) -> list[list[tuple[int, float]]]:
    """Days of one level with one value."""
    return [[(0, value)] * a_day] * days


def test_a_day_is_a_bin_from_its_first_to_its_last_repetition() -> None:
    found = chart_bins(course(*same(3), [(0, 4.0)] * 3, [(0, 9.0)] * 2), [], LEAST)

    # The first three days of the level are left out.
    assert [(one.first, one.last, one.days) for one in found] == [(7, 9, 1), (10, 11, 1)]
    assert [(one.low, one.middle, one.high) for one in found] == [
        pytest.approx((4.0, 4.0, 4.0)),
        pytest.approx((9.0, 9.0, 9.0)),
    ]


def test_days_are_valued_at_the_level_most_played_of_late() -> None:
    easy, hard = [(0, 4.0)] * 2, [(1, 8.0)] * 6
    found = chart_bins(course(*[easy] * 5, *[easy + hard] * 8), [], LEAST)

    assert [one.middle for one in found] == pytest.approx([8.0] * 10)


def test_the_first_repetitions_of_a_day_are_in_its_bin_but_not_in_its_value() -> None:
    day = [(0, 90.0)] * LEFT_OUT + [(0, 4.0)]
    found = chart_bins(course(*[day] * 5, before=0), [], LEAST)

    assert [(one.first, one.last) for one in found] == [(19, 24), (25, 30)]
    assert [one.middle for one in found] == pytest.approx([4.0] * 2)


@pytest.mark.parametrize(("days", "size"), [(0, 1), (1, 1), (40, 1), (41, 2), (3650, 92)])
def test_there_are_at_most_forty_bins(days: int, size: int) -> None:
    assert days_a_bin(days) == size
    assert days // size <= MOST_BINS


def test_a_bin_of_several_days_has_their_quartiles() -> None:
    days = [[(0, float(2**power))] for power in [0, 0, 0, *[1, 2, 3] * 27]]

    found = chart_bins(course(*days), [], LEAST)

    assert [one.days for one in found] == [3] * 27
    assert (found[0].low, found[0].middle, found[0].high) == pytest.approx((2**1.5, 4.0, 2**2.5))


def test_no_bin_spans_a_new_beginning_and_each_stretch_is_compared_with_itself() -> None:
    whole = course(*same(6, 8.0), *same(6, 2.0))

    found = chart_bins(whole, [12], LEAST)

    assert [one.first for one in found] == [7, 9, 11, 19, 21, 23]
    assert [one.middle for one in found] == pytest.approx([8.0] * 3 + [2.0] * 3)


def test_a_stretch_that_nothing_joins_with_todays_level_has_no_bins() -> None:
    other = [[(1, 3.0)] * 2] * 6
    found = chart_bins(course(*same(6), *other), [12], LEAST)

    assert [one.first for one in found] == [19, 21, 23]


def test_a_stretch_with_nothing_to_compare_leaves_the_others_as_they_are() -> None:
    found = chart_bins(course(*same(6), *same(2)), [12], LEAST)

    assert [one.first for one in found] == [7, 9, 11]


def test_without_repetitions_there_are_no_bins() -> None:
    nothing = np.zeros(0, dtype=np.int64)
    empty = Course(nothing, nothing, nothing, np.zeros(0), nothing)

    assert chart_bins(empty, [], LEAST) == ()
    assert chart_bins(course(*same(4)), [], LEAST) == ()
