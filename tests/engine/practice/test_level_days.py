"""Level-days: medians of a level's days, and which of them can be compared."""

from __future__ import annotations

import numpy as np

from engine.practice.course import LEFT_OUT, Course
from engine.practice.level_days import FEWEST_DAYS, NEW_DAYS, comparable, level_days

Row = tuple[int, int, float]


def course(*rows: Row, place: int = LEFT_OUT + 1) -> Course:
    """A course of rows of level, day and value, each that late in its day."""
    level, day, value = (np.array(column) for column in zip(*rows, strict=True))
    number = np.arange(1, len(rows) + 1)
    return Course(number, day, np.full_like(day, place), value.astype(np.float64), level)


def test_a_level_day_is_the_median_of_the_logarithms_of_its_repetitions() -> None:
    found = level_days(course((0, 5, 2.0), (1, 5, 9.0), (0, 5, 8.0), (0, 6, 3.0)), 0.1)

    assert found.level.tolist() == [0, 0, 1]
    assert found.day.tolist() == [5, 6, 5]
    np.testing.assert_allclose(np.exp(found.log), [4.0, 3.0, 9.0])
    assert found.count.tolist() == [2, 1, 1]


def test_the_trimmed_mean_is_without_the_ends_from_three_repetitions_on() -> None:
    rows: list[Row] = [
        (count, 5, float(np.exp(n**2))) for count in (2, 3, 6, 8) for n in range(count)
    ]

    found = level_days(course(*rows), 0.1)

    assert found.count.tolist() == [2, 3, 6, 8]
    np.testing.assert_allclose(found.trimmed, [0.5, 1.0, 30 / 4, 54 / 4])


def test_the_first_of_a_day_and_those_without_a_value_are_left_out() -> None:
    assert not len(level_days(course((0, 5, 2.0), place=LEFT_OUT), 0.1))
    assert not len(level_days(course((0, 5, float("nan"))), 0.1))


def test_a_value_of_none_at_all_has_a_logarithm() -> None:
    np.testing.assert_allclose(level_days(course((0, 5, 0.0)), 0.1).log, [np.log(0.1)])


def test_a_levels_first_days_are_left_out_and_levels_with_too_few_left() -> None:
    long = [(0, day, 1.0) for day in range(NEW_DAYS + FEWEST_DAYS)]
    short = [(1, day, 1.0) for day in range(NEW_DAYS + FEWEST_DAYS - 1)]

    found = comparable(level_days(course(*long, *short), 0.1))

    assert found.level.tolist() == [0] * FEWEST_DAYS
    assert found.day.tolist() == list(range(NEW_DAYS, NEW_DAYS + FEWEST_DAYS))


def test_nothing_to_compare_is_no_level_day() -> None:
    assert not len(comparable(level_days(course((0, 5, 1.0)), 0.1)))
