"""The weighted slope against generalised least squares by full matrices, and what it tells."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from engine.practice.course import Course
from engine.practice.day_effects import SPAN, day_effects, slope
from engine.practice.level_days import LevelDays, comparable, level_days
from engine.practice.weighted_slope import (
    MOST_LEVERAGE,
    OF_DAY,
    OF_LEVEL_DAY,
    OF_REPETITION,
    POWER,
    over_days,
    weighted_slope,
)


def cells(seed: int, days: int = 40, fall: float = 0.0) -> LevelDays:
    """Level-days of three levels that are played unevenly, some on a part of the days."""
    rng = np.random.default_rng(seed)
    rows = [
        (level, day, level + fall * day + 0.1 * rng.normal(), rng.integers(1, 9))
        for level in range(3)
        for day in range(5 * level, days)
        if rng.random() < 0.7
    ]
    level, day, logs, count = (np.array(column) for column in zip(*rows, strict=True))
    return LevelDays(level, day, logs, logs, count)


def test_the_slope_is_that_of_generalised_least_squares() -> None:
    given = cells(1)
    shared = given.day[:, None] == given.day[None]
    own = np.diag(OF_LEVEL_DAY + OF_REPETITION / given.count)
    inverse = np.linalg.inv(own + OF_DAY * shared)
    design = np.column_stack([given.level == level for level in range(3)] + [given.day])
    expected = np.linalg.solve(design.T @ inverse @ design, design.T @ inverse @ given.log)[-1]

    found = weighted_slope(given)

    assert found is not None
    assert found.a_day == pytest.approx(expected, rel=0, abs=1e-12)
    assert found.days == np.unique(given.day).size


def test_the_error_is_of_what_days_leave_and_of_neighbours_that_are_alike() -> None:
    given = cells(4)
    shared = given.day[:, None] == given.day[None]
    inverse = np.linalg.inv(np.diag(OF_LEVEL_DAY + OF_REPETITION / given.count) + OF_DAY * shared)
    levels = np.column_stack([given.level == level for level in range(3)]).astype(np.float64)
    apart = np.eye(len(given)) - levels @ np.linalg.solve(
        levels.T @ inverse @ levels, levels.T @ inverse
    )
    x, r = apart @ given.day, apart @ given.trimmed
    design = np.column_stack((levels, given.day))
    hat = design @ np.linalg.solve(design.T @ inverse @ design, design.T @ inverse)
    parts = (inverse @ x) * (r - hat @ r) / np.sqrt(1 - np.diag(hat))
    days = sorted(set(given.day.tolist()))
    scores = {day: float(parts[given.day == day].sum()) for day in days}
    own = sum(score**2 for score in scores.values())
    alike = sum(scores[day] * scores.get(day + 1, 0.0) for day in days)
    error = np.sqrt(max(own + 2 * alike, own)) / (x @ inverse @ x)

    found = weighted_slope(given)

    assert found is not None
    assert np.diag(hat).max() < MOST_LEVERAGE
    assert found.error == pytest.approx(error, rel=1e-9)
    falls = stats.t.cdf(found.a_day / error, len(days) - 2)
    assert (found.p_fall, found.p_rise) == pytest.approx((falls, 1 - falls))


def test_days_in_a_row_that_are_alike_make_a_slope_less_sure() -> None:
    up_and_down = np.array([1.0, 1.0, 1.0, -1.0, -1.0, -1.0] * 6)
    rows = [(0, 2 * day, value, 6) for day, value in enumerate(up_and_down)]
    level, day, logs, count = (np.array(column) for column in zip(*rows, strict=True))

    apart = weighted_slope(LevelDays(level, day, logs, logs, count))
    in_a_row = weighted_slope(LevelDays(level, day // 2, logs, logs, count))

    assert apart is not None
    assert in_a_row is not None
    assert in_a_row.error > 1.3 * 2 * apart.error


def test_a_foot_that_never_varies_has_no_trend() -> None:
    day = np.tile(np.arange(20), 3)
    same = np.full(day.size, 0.1)
    still = LevelDays(np.repeat(np.arange(3), 20), day, same, same, 1 + day % 3)

    found = over_days(still)

    assert found is not None
    assert not found.falls
    assert not found.rises


def test_a_trend_is_told_by_the_weighted_slope() -> None:
    falling, still = over_days(cells(2, fall=-0.02)), over_days(cells(2))

    assert falling is not None
    assert still is not None
    assert falling.falls
    assert not falling.rises
    assert not falling.is_flat(0.25)
    assert not still.falls
    assert not still.rises
    assert still.is_flat(0.25)


def test_the_change_has_its_interval_and_what_would_be_found() -> None:
    found = over_days(cells(3, fall=-0.01))

    assert found is not None
    low, value, high = found.change
    assert low < value < high
    assert value == pytest.approx(np.exp(SPAN * found.weighted.a_day) - 1)
    assert low < np.exp(-0.5) - 1 < high
    assert found.smallest_found == pytest.approx(1 - np.exp(-SPAN * POWER * found.weighted.error))


def test_a_level_day_of_many_repetitions_counts_for_more() -> None:
    # Level 0 falls and is played much, level 1 rises and is played once a day.
    rows = [(0, day, -0.01 * day, 20) for day in range(20)]
    rows += [(1, day, 0.01 * day, 1) for day in range(20)]
    level, day, logs, count = (np.array(column) for column in zip(*rows, strict=True))
    given = LevelDays(level, day, logs, logs, count)

    plain, weighted = slope(given), weighted_slope(given)

    assert plain is not None
    assert weighted is not None
    assert plain.a_day == pytest.approx(0.0, abs=1e-12)
    assert weighted.a_day < -0.003


def test_nothing_to_compare_has_no_trend() -> None:
    day = np.zeros(1, dtype=np.int64)
    none = comparable(level_days(Course(day, day, day + 6, np.ones(1), day), 0.1))

    assert over_days(none) is None
    assert weighted_slope(none) is None
    assert not len(day_effects(none))
