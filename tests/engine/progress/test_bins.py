"""Bins of a chart, against the quantiles of numpy and scipy and against the calendar."""

from datetime import date, timedelta
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats.mstats import mquantiles

from engine.practice.course import LEFT_OUT, Course
from engine.progress.bins import (
    BinLength,
    CalendarBin,
    bin_length,
    calendar_bins,
    left_out,
)

TODAY = date(2026, 7, 15)
"""A Wednesday."""


def course(rows: list[tuple[date, list[float]]], before: int = LEFT_OUT) -> Course:
    """A course of the values of some days, after `before` other repetitions of each day."""
    day = [day.toordinal() for day, values in rows for _ in values]
    place = [before + place for _, values in rows for place in range(1, len(values) + 1)]
    value = [value for _, values in rows for value in values]
    return Course(
        np.arange(1, len(value) + 1),
        np.array(day, dtype=np.int64),
        np.array(place, dtype=np.int64),
        np.array(value, dtype=np.float64),
        np.zeros(len(value), dtype=np.int64),
    )


def test_quartiles_are_interpolated_between_the_values_on_either_side() -> None:
    # Definition 7 of Hyndman & Fan 1996, worked by hand: place 1 + (n - 1) p of the ordered values.
    found = calendar_bins(course([(TODAY, [4.0, 1.0, 3.0, 2.0])]), TODAY)

    assert found == (CalendarBin(TODAY, TODAY, 1.75, 2.5, 3.25, 4),)


def test_a_single_repetition_is_its_own_quartiles() -> None:
    found = calendar_bins(course([(TODAY, [7.0])]), TODAY)

    assert found == (CalendarBin(TODAY, TODAY, 7.0, 7.0, 7.0, 1),)


@given(
    values=st.lists(
        st.lists(st.floats(0, 100, allow_subnormal=False), min_size=1, max_size=30),
        min_size=1,
        max_size=6,
    )
)
def test_quartiles_of_days_are_those_of_numpy_and_scipy(values: list[list[float]]) -> None:
    days = [TODAY - timedelta(days=back) for back in range(len(values))][::-1]

    found = calendar_bins(course(list(zip(days, values, strict=True))), TODAY)

    assert [one.first for one in found] == [one.last for one in found] == days
    for one, of_day in zip(found, values, strict=True):
        quartiles = [one.low, one.middle, one.high]
        assert quartiles == pytest.approx(np.quantile(of_day, [0.25, 0.5, 0.75]))
        assert quartiles == pytest.approx(mquantiles(of_day, [0.25, 0.5, 0.75], 1, 1))
        assert one.count == len(of_day)


def test_the_first_five_of_a_day_and_what_was_not_measured_are_in_no_bin() -> None:
    yesterday = TODAY - timedelta(days=1)
    some = course([(yesterday, [9.0] * 4), (TODAY, [9.0] * 4 + [np.nan, 1.0, np.nan, 2.0])], 0)

    assert calendar_bins(some, TODAY) == (CalendarBin(TODAY, TODAY, 1.25, 1.5, 1.75, 2),)
    assert left_out(some) == 8


def test_a_course_without_repetitions_has_no_bins() -> None:
    assert calendar_bins(course([]), TODAY) == ()
    assert bin_length(course([]), TODAY) is BinLength.DAY
    assert left_out(course([])) == 0


@pytest.mark.parametrize(
    ("back", "unit"),
    [(120, BinLength.DAY), (121, BinLength.WEEK), (1096, BinLength.WEEK), (1097, BinLength.MONTH)],
)
def test_the_further_back_a_course_reaches_the_longer_its_bins(back: int, unit: BinLength) -> None:
    some = course([(TODAY - timedelta(days=back), [1.0]), (TODAY, [2.0])])

    assert bin_length(some, TODAY) is unit


def test_weeks_run_from_monday_to_sunday_and_the_newest_to_today() -> None:
    sunday, monday = date(2026, 7, 12), date(2026, 7, 13)
    some = course([(date(2026, 2, 4), [5.0]), (sunday, [1.0]), (monday, [2.0]), (TODAY, [4.0])])

    assert calendar_bins(some, TODAY) == (
        CalendarBin(date(2026, 2, 2), date(2026, 2, 8), 5.0, 5.0, 5.0, 1),
        CalendarBin(date(2026, 7, 6), sunday, 1.0, 1.0, 1.0, 1),
        CalendarBin(monday, TODAY, 2.5, 3.0, 3.5, 2),
    )


def test_months_are_those_of_the_calendar() -> None:
    some = course([(date(1969, 12, 31), [1.0]), (date(2024, 2, 29), [2.0]), (TODAY, [3.0])])

    assert [(one.first, one.last) for one in calendar_bins(some, TODAY)] == [
        (date(1969, 12, 1), date(1969, 12, 31)),
        (date(2024, 2, 1), date(2024, 2, 29)),
        (date(2026, 7, 1), TODAY),
    ]


@given(back=st.integers(0, 4700), step=st.integers(1, 40))
def test_a_chart_of_up_to_thirteen_years_has_at_most_160_bins(back: int, step: int) -> None:
    days = [TODAY - timedelta(days=ago) for ago in range(back, -1, -step)]

    found = calendar_bins(course([(day, [1.0]) for day in days]), TODAY)

    assert 1 <= len(found) <= 160
    assert sum(one.count for one in found) == len(days)
    assert all(a.last < b.first for a, b in pairwise(found))


def test_ten_years_of_repetitions_are_121_months() -> None:
    count = 220_000
    day = np.sort(np.random.default_rng(1).integers(0, 3650, count)) + TODAY.toordinal() - 3650
    place = np.arange(count) - np.searchsorted(day, day) + 1
    value = np.random.default_rng(2).gamma(2.0, 3.0, count)
    many = Course(np.arange(count), day, place, value, np.zeros_like(day))

    found = calendar_bins(many, TODAY)

    assert len(found) == 121
