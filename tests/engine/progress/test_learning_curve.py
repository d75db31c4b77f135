"""Trends, present values and curves of simulated feet whose learning is known."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import stats
from scipy.optimize import curve_fit

from engine.practice.course import LEFT_OUT, Course
from engine.progress.learning_curve import (
    MIX_DAYS,
    NOW_DAYS,
    LearningCurve,
    Trend,
    learning_curve,
)
from tests.learning_foot import Learner

LEAST = 0.1
FIRST = 730_000
LEARNS = Learner(gain=14.0, half=300.0, days=40, a_day=15)
"""20 points at first, 9.5 in the end."""


def course(value: NDArray[np.float64], a_day: int = 10, before: int = LEFT_OUT) -> Course:
    """A course of these values on one level, `a_day` on each day after `before` other ones."""
    place = np.arange(value.size)
    day = FIRST + place // a_day
    count = before + 1 + place % a_day
    return Course(place + 1, day, count, value.astype(np.float64), np.zeros_like(place))


def levels(seed: int, fall: float, days: int = 60, moods: float = 0.2) -> Course:
    """A foot that changes by a logarithm a day; every six days a level comes that is harder.

    The first level and the newest three are each played six times a day.
    """
    rng = np.random.default_rng(seed)
    rows = []
    for day in range(days):
        mood = moods * rng.normal()
        newest = day // 6
        for place in range(1, 25):
            level = max(newest + 1 - place % 4, 0) if place % 4 else 0
            chance = 0.5 * rng.normal()
            rows.append((day, place, level, np.exp(2 + 0.15 * level + fall * day + mood + chance)))
    day_, place_, level_, value = (np.array(column) for column in zip(*rows, strict=True))
    return Course(np.arange(1, day_.size + 1), FIRST + day_, place_, value, level_)


def of(learner: Learner, feet: int = 20) -> list[LearningCurve]:
    """Learning curves of several simulated feet of one kind."""
    return [
        learning_curve(learner.course(np.random.default_rng(seed)), LEAST) for seed in range(feet)
    ]


def trends(learner: Learner, feet: int = 20) -> list[Trend]:
    """Trends of several simulated feet of one kind."""
    return [one.trend for one in of(learner, feet)]


def test_a_foot_that_improves_on_every_level_learns_though_its_repetitions_get_worse() -> None:
    courses = [levels(seed, np.log(2 / 3) / 50, moods=0.1) for seed in range(20)]

    pooled = [float(np.polyfit(one.day, np.log(one.value), 1)[0]) for one in courses]
    told = [learning_curve(one, LEAST).trend for one in courses]

    assert min(pooled) > 0, pooled
    assert told.count(Trend.LEARNING) >= 14
    assert Trend.WORSE not in told
    assert Trend.FLAT not in told


def test_a_foot_that_stays_the_same_while_harder_levels_come_is_not_told_worse() -> None:
    told = [learning_curve(levels(seed, 0.0), LEAST).trend for seed in range(20)]

    assert told.count(Trend.WORSE) <= 2
    assert told.count(Trend.LEARNING) <= 2


def test_the_present_value_is_of_the_newest_days_at_todays_level() -> None:
    found = [learning_curve(levels(seed, 0.0), LEAST).now for seed in range(20)]

    # Levels 0 and 7 are played as much on the newest ten days; of the two 7 was met later.
    todays = np.exp(2 + 0.15 * 7)
    held = [now is not None and now[0] <= todays <= now[2] for now in found]
    assert sum(held) >= 16


def test_the_present_value_has_the_t_interval_of_the_newest_days() -> None:
    days = np.exp(np.random.default_rng(5).normal(1.5, 0.2, 30))

    found = learning_curve(course(days.repeat(7), a_day=7), LEAST)

    logs = np.log(days[-NOW_DAYS:])
    reach = stats.t.ppf(0.975, NOW_DAYS - 1) * stats.sem(logs)
    assert found.now == pytest.approx(np.exp([logs.mean() + k * reach for k in (-1, 0, 1)]))


def test_a_foot_that_does_not_learn_is_seldom_said_to() -> None:
    said = trends(Learner(days=50), 40)

    assert said.count(Trend.LEARNING) <= 4
    assert said.count(Trend.WORSE) <= 4


def test_a_foot_that_learns_plainly_is_said_to() -> None:
    assert trends(LEARNS).count(Trend.LEARNING) >= 19


def test_a_foot_that_gets_worse_is_said_to() -> None:
    said = trends(Learner(days=40, worse=0.02))

    assert said.count(Trend.WORSE) >= 18
    assert said.count(Trend.LEARNING) == 0


def test_a_foot_is_neither_flat_nor_worse_while_a_single_level_falls() -> None:
    rows = [(0, day, 3 + 0.03 * day) for day in range(40)]
    rows += [(1, day, 3 + 0.03 * day) for day in range(40)]
    rising = rows + [(2, day, 3 + 0.03 * day) for day in range(40)]
    one_falls = rows + [(2, day, 3 - 0.02 * day) for day in range(40)]

    told = [learning_curve(_exact(each), LEAST).trend for each in (rising, one_falls)]

    assert told == [Trend.WORSE, Trend.NONE]


def _exact(rows: list[tuple[int, int, float]]) -> Course:
    """A course of level, day and logarithm, in the order of days."""
    level, day, logs = (np.array(column) for column in zip(*sorted(rows, key=_day), strict=True))
    number = np.arange(1, len(rows) + 1)
    return Course(number, FIRST + day, np.full_like(day, LEFT_OUT + 1), np.exp(logs), level)


def _day(row: tuple[int, int, float]) -> int:
    return row[1]


def test_the_curve_is_that_of_scipy_through_the_days() -> None:
    rng = np.random.default_rng(3)
    n = np.arange(30) * 12 + 6.5  # the middle of each day
    days = (6 + 20 * np.exp(-0.008 * n)) * np.exp(rng.normal(0, 0.03, 30))

    found = learning_curve(course(days.repeat(12), a_day=12), LEAST)

    def curve(n: NDArray[Any], floor: float, gain: float, rate: float) -> NDArray[Any]:
        return np.asarray(floor + gain * np.exp(-rate * n))

    # The first three days of a level are left out.
    plain, _ = curve_fit(curve, n[3:], days[3:], (5, 20, 0.01))
    size = curve(n[3:], *plain)
    floor, gain, rate = curve_fit(curve, n[3:], days[3:], plain, size, xtol=1e-12)[0]
    assert found.curve is not None
    ends = (found.curve.floor, found.curve.gain, found.curve.rate)
    assert ends == pytest.approx((floor, gain, rate), rel=1e-4)
    assert found.ahead is not None
    assert found.now is not None
    newest = np.exp(np.mean([np.log(found.curve.at(one)) for one in n[-NOW_DAYS:].tolist()]))
    ratio = found.curve.at(360 + found.ahead.repetitions) / newest
    # The rate that suits the days best weighs most in what is ahead.
    assert found.ahead.value[1] == pytest.approx(found.now[1] * ratio, rel=0.03)


def test_what_is_ahead_is_told_of_a_foot_that_learns_and_mostly_holds_the_truth() -> None:
    calm = replace(LEARNS, moods=0.05, spread=0.3)

    found = of(calm)

    told = [one.ahead for one in found if one.ahead is not None]
    assert len(told) >= 3
    last = calm.days * calm.a_day
    held = [one.value[0] <= calm.at(last + one.repetitions) <= one.value[2] for one in told]
    assert sum(held) >= 0.8 * len(held)
    for one in found:
        assert (one.curve is None) == (one.ahead is None)


def test_nothing_is_ahead_of_a_foot_that_does_not_learn() -> None:
    assert {one.ahead for one in of(Learner(days=40)) if one.trend is not Trend.LEARNING} == {None}


def test_flat_is_told_where_a_change_can_be_ruled_out_and_for_how_long() -> None:
    steady = Learner(days=100, moods=0.05, spread=0.2)
    noisy = Learner(days=30, moods=0.3)

    assert trends(noisy).count(Trend.FLAT) == 0
    flat = [one for one in of(steady) if one.trend is Trend.FLAT]
    assert len(flat) >= 15
    assert {90 <= one.flat_days <= 99 for one in flat} == {True}


def test_a_flat_foot_is_followed_back_for_half_a_year_at_most() -> None:
    (found,) = of(Learner(days=400, moods=0.0, spread=0.0), 1)

    assert (found.trend, found.flat_days) == (Trend.FLAT, 182)


@pytest.mark.parametrize("value", [0.0, 4.0])
def test_a_foot_that_never_varies_is_flat_where_it_is(value: float) -> None:
    found = learning_curve(course(np.full(300, value)), LEAST)

    least = max(value, LEAST)
    assert (found.trend, found.repetitions, found.days) == (Trend.FLAT, 300, 27)
    assert found.now == pytest.approx((least, least, least))
    assert found.flat_days == 26


def test_the_mix_of_levels_moves_when_many_repetitions_are_of_other_levels() -> None:
    still = course(np.full(400, 5.0))
    newest = still.day > still.day.max() - MIX_DAYS
    third = np.where(newest & (still.number % 3 == 0), 1, 0)
    fourth = np.where(newest & (still.number % 4 == 0), 1, 0)

    moved = [learning_curve(replace(still, level=level), LEAST) for level in (third, fourth)]

    assert [one.mix_moved for one in moved] == [True, False]


def test_a_new_beginning_is_counted_from_and_compares_nothing_with_what_was_before() -> None:
    before, after = np.full(200, 3.0), 5 + 20 * np.exp(-0.012 * np.arange(1.0, 181.0))

    found = learning_curve(course(np.concatenate((before, after))), LEAST, 200, changed=True)

    assert found.curve is not None
    assert found.curve.gain == pytest.approx(20, rel=0.02)
    assert (found.trend, found.days, found.changed) == (Trend.LEARNING, 15, True)


def test_after_a_long_pause_it_is_too_early_again() -> None:
    practised = course(np.full(300, 6.0))
    paused = replace(practised, day=practised.day + 200 * (practised.number > 270))

    assert learning_curve(paused, LEAST).trend is Trend.TOO_EARLY


def test_a_day_that_comes_twice_on_a_flight_west_is_one_day() -> None:
    straight = course(5 + 20 * np.exp(-0.012 * np.arange(1.0, 181.0)))
    day = straight.day.copy()
    day[50:60], day[60:70] = day[60], day[50]

    found = learning_curve(replace(straight, day=day), LEAST)

    assert (found.trend, found.days) == (Trend.LEARNING, 15)
    assert found.repetitions == 180


@pytest.mark.parametrize(
    "value", [np.array([]), np.array([4.0]), np.full(400, np.nan), np.full(120, 4.0)]
)
def test_with_too_little_practice_it_is_too_early(value: NDArray[np.float64]) -> None:
    found = learning_curve(course(value), LEAST)

    assert found.trend is Trend.TOO_EARLY
    assert found.repetitions == np.isfinite(value).sum()
    assert found.days == max(-(-np.isfinite(value).sum() // 10) - 3, 0) * (value.size > 10)


def test_the_trend_of_ten_years_is_that_of_the_newest_weeks() -> None:
    rng = np.random.default_rng(2)
    count = 220_000
    falling = 5 + 20 * np.exp(-0.002 * np.arange(count))
    many = course(falling * np.exp(rng.normal(0, 0.5, count)), 60)

    found = learning_curve(many, LEAST)

    assert (found.trend, found.days) == (Trend.FLAT, 56)
    assert found.now is not None
    assert found.now[0] < 5 < found.now[2]
