"""Steadiness and its intervals, against numpy and scipy."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from engine.practice.blip_size import BLIP
from engine.practice.steadiness import (
    NARROWEST,
    WIDEST,
    WINDOW,
    DaySteadiness,
    SteadinessBlip,
    by_day,
    counted,
    next_tolerance,
    steadiness,
    step_of,
)
from engine.practice.steadiness_interval import (
    HIGH,
    LOW,
    order_interval,
    steadiness_interval,
)
from tests.steady_foot import DAY, SteadyFoot, followed, plain

NEWEST = 400
"""The most that are read from the history."""


def test_there_is_no_steadiness_before_thirty_six_blips() -> None:
    blips = plain([8.0] * 36)

    found = steadiness(blips)

    assert steadiness(blips[:-1]) is None
    assert found is not None
    assert found.value == pytest.approx(8.0)
    assert found.low < 8.0 < found.high
    assert (found.days, found.last) == (6, DAY + timedelta(days=5))


def test_it_is_the_upper_quartile_and_its_interval_that_of_the_window() -> None:
    rng = np.random.default_rng(36)
    deviations = rng.permutation(np.arange(1.0, 37.0)).tolist()
    days = {DAY + timedelta(days=5 + n): deviations[6 * n : 6 * n + 6] for n in range(6)}

    found = steadiness(plain([50.0] * 30 + deviations))

    # By hand: the 27th and a quarter of the way to the 28th.
    assert found is not None
    assert found.value == 27.25 == np.quantile(deviations, 0.75, method="linear")
    assert (found.low, found.high) == steadiness_interval(days)
    assert order_interval(deviations) == (22.0, 33.0)


def test_the_order_interval_covers_any_continuous_foot_in_968_of_1000_by_the_binomial() -> None:
    # The upper quartile of the foot lies between the two where 22 to 32 of 36 lie below it.
    exact = stats.binom.cdf(HIGH - 1, WINDOW, 0.75) - stats.binom.cdf(LOW - 1, WINDOW, 0.75)

    assert exact == pytest.approx(0.968, abs=5e-4)


@pytest.mark.parametrize("draws", ["lognormal", "uniform", "exponential"])
def test_the_order_interval_covers_as_the_binomial_says_whatever_the_distribution(
    draws: str,
) -> None:
    rng, feet = np.random.default_rng(8), 800
    shape = {
        "lognormal": stats.lognorm(0.5, scale=8),
        "uniform": stats.uniform(1, 9),
        "exponential": stats.expon(0, 6),
    }[draws]
    true = float(shape.ppf(0.75))

    found = [order_interval(shape.rvs(36, random_state=rng).tolist()) for _ in range(feet)]

    covered = sum(low <= true <= high for low, high in found)
    assert stats.binomtest(covered, feet, 0.968).pvalue > 0.001


def test_at_most_nine_of_one_day_count_and_those_are_its_newest() -> None:
    blips = plain([float(number) for number in range(60)], a_day=12)

    assert [blip.deviation for blip in counted(blips)] == [
        float(12 * day + number) for day in range(5) for number in range(3, 12)
    ]
    found = steadiness(blips)
    assert found is not None
    assert found.days == 4


def test_each_deviation_is_scaled_to_one_size_of_blip() -> None:
    blips = [replace(blip, peak=45.0) for blip in plain([6.0] * 36)]

    found = steadiness(blips)

    assert found is not None
    assert found.value == pytest.approx(8.0)


def test_steadiness_follows_a_foot_that_learns() -> None:
    foot = SteadyFoot(median=16.0, learning=0.02)

    blips = followed(foot, days=60)

    bands = by_day(blips, blips[-1].day)
    assert bands[0].value > 1.4 * bands[-1].value
    assert bands[-1].value == pytest.approx(foot.band(60), rel=0.4)


def test_each_of_the_last_thirty_days_with_blips_has_the_steadiness_as_it_then_stood() -> None:
    blips = [one for one in followed(SteadyFoot(), days=60) if one.day.day % 5 != 0]
    today = blips[-1].day + timedelta(days=2)

    bands = by_day(blips, today)

    days = [today - timedelta(days=back) for back in reversed(range(30))]
    ends = {day: [one for one in blips if one.day <= day] for day in days}
    stood = {day: steadiness(until) for day, until in ends.items() if until[-1].day == day}
    assert len(bands) == 23
    assert bands == tuple(
        DaySteadiness(day, band.value, band.low, band.high) for day, band in stood.items() if band
    )


def test_days_before_the_first_steadiness_and_days_to_come_have_none() -> None:
    blips = followed(SteadyFoot(), days=20)

    first = by_day(blips, blips[-1].day)[0]

    assert steadiness([one for one in blips if one.day < first.day]) is None
    assert by_day(blips, first.day) == (first,)
    assert by_day([], date(2024, 3, 1)) == ()


def test_a_clock_that_was_set_back_leaves_the_days_in_order() -> None:
    blips = followed(SteadyFoot(), days=20)
    back = [replace(one, day=one.day - timedelta(days=3)) for one in blips[-12:]]

    bands = by_day([*blips, *back], blips[-1].day)

    days = [band.day for band in bands]
    again = next(band for band in bands if band.day == back[-1].day)
    now = steadiness([*blips, *back])
    assert days == sorted(set(days))
    assert now is not None
    assert again.value == now.value


@given(seed=st.integers(0, 1000), factor=st.floats(0.25, 4))
def test_a_foot_so_many_times_as_wild_is_so_many_times_less_steady(
    seed: int, factor: float
) -> None:
    blips = followed(SteadyFoot(median=6.0, spread=0.2), days=15, seed=seed)
    wilder = [replace(blip, deviation=blip.deviation * factor) for blip in blips]
    smaller = [replace(blip, peak=blip.peak / factor) for blip in blips]

    found = steadiness(blips)

    assert found is not None
    for other in (steadiness(wilder), steadiness(smaller)):
        assert other is not None
        assert (other.value, other.low, other.high) == pytest.approx(
            (found.value * factor, found.low * factor, found.high * factor)
        )


@given(seed=st.integers(0, 1000), a_day=st.sampled_from([4, 6, 9]))
def test_the_order_of_blips_within_a_day_does_not_matter_where_all_of_it_count(
    seed: int, a_day: int
) -> None:
    rng = np.random.default_rng(seed)
    days = rng.lognormal(2, 0.5, (72 // a_day, a_day))
    shuffled = rng.permuted(days, axis=1)

    assert steadiness(plain(days.ravel().tolist(), a_day)) == steadiness(
        plain(shuffled.ravel().tolist(), a_day)
    )


@given(seed=st.integers(0, 1000))
def test_what_was_asked_does_not_change_steadiness(seed: int) -> None:
    rng = np.random.default_rng(seed)
    blips = plain(rng.lognormal(2, 0.5, 60).tolist())
    others = [replace(blip, asked=float(rng.uniform(0.5, 50))) for blip in blips]

    assert steadiness(blips) == steadiness(others)
    assert step_of(blips) == step_of(others)


@given(outcomes=st.lists(st.tuples(st.floats(0.5, 50), st.floats(0, 100)), max_size=120))
def test_whatever_was_done_steadiness_is_inside_its_interval(
    outcomes: list[tuple[float, float]],
) -> None:
    blips = [
        SteadinessBlip(DAY + timedelta(days=number // 6), asked, deviation, BLIP)
        for number, (asked, deviation) in enumerate(outcomes)
    ]

    found = steadiness(blips)

    assert NARROWEST <= next_tolerance(blips) <= WIDEST
    assert (found is None) == (len(blips) < 36)
    assert found is None or found.low <= found.value <= found.high
