"""The interval of steadiness, by hand, by its laws, and by how often it covers."""

from collections.abc import Sequence
from datetime import date, timedelta
from itertools import chain
from math import exp, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from engine.practice.steadiness_interval import (
    order_interval,
    steadiness_interval,
    upper_quartile,
)
from tests.steady_foot import DAY, QUARTILE, SteadyFoot

Days = dict[date, list[float]]


def on(days: Sequence[Sequence[float]], every: int = 1) -> Days:
    """Deviations by day, on every so many days of the calendar."""
    return {DAY + timedelta(days=every * n): list(one) for n, one in enumerate(days)}


def drawn(foot: SteadyFoot, seed: int) -> Days:
    """Six days of six deviations of a foot."""
    return on(foot.deviations(6, 6, np.random.default_rng(seed)))


def covered(foot: SteadyFoot, feet: int) -> tuple[float, float]:
    """Shares of intervals that cover steadiness: in all, and in the narrowest tenth."""
    true = foot.band(6)
    found = sorted(
        (steadiness_interval(drawn(foot, seed)) for seed in range(feet)),
        key=lambda ends: ends[1] / ends[0],
    )
    inside = [low <= true <= high for low, high in found]
    return float(np.mean(inside)), float(np.mean(inside[: feet // 10]))


def test_a_foot_that_never_varies_has_the_interval_of_usual_days() -> None:
    low, high = steadiness_interval(on([[8.0] * 6] * 6))

    # By hand: shrunk = 20 * 0.09 / 25 and 36 / 36^2 of each n[d]^2; 2.5 days old on average.
    error = sqrt(20 * 0.09 / 25 * 6 * 36 / 36**2)
    assert low == pytest.approx(8 * exp(-error - 0.02 * 2.5))
    assert high == pytest.approx(8 * exp(2.2 * error))


def test_days_that_differ_and_blips_that_vary_widen_it_as_by_hand() -> None:
    # Each day is three of 8 f and three of 8 / f with f = 1.1, times 1.2 or over 1.2 in turn.
    f, g = 1.1, 1.2
    days = [[8 * f * g**sign] * 3 + [8 / f * g**sign] * 3 for sign in (1, -1) * 3]

    low, high = steadiness_interval(on(days))

    within = 36 * np.log(f) ** 2 / 30
    between = (36 * np.log(g) ** 2 / 5 - within) / 6
    shrunk = (20 * 0.09 + 5 * between) / 25
    f_of_quartile = np.exp(-(QUARTILE**2) / 2) / np.sqrt(2 * np.pi)
    error = np.sqrt(0.1875 / f_of_quartile**2 * within / 36 + shrunk / 6)
    value = upper_quartile([one for day in days for one in day])
    assert low == pytest.approx(min(value * np.exp(-error - 0.05), 8 / f * g))
    assert high == pytest.approx(value * np.exp(2.2 * error))


def test_older_blips_lower_the_low_end_by_a_fiftieth_a_day_and_leave_the_high_one() -> None:
    daily, rare = (steadiness_interval(on([[8.0] * 6] * 6, every)) for every in (1, 2))

    assert rare[0] / daily[0] == pytest.approx(exp(-0.02 * 2.5))
    assert rare[1] == daily[1]


def test_blips_from_before_a_break_count_as_two_weeks_old() -> None:
    days = [[8.0] * 6] * 6
    weeks, years = (steadiness_interval(on(days, every)) for every in (14, 400))

    assert weeks == years


@pytest.mark.parametrize("few", [0.0, 3.0])
def test_where_steadiness_is_zero_it_is_the_order_interval(few: float) -> None:
    days = on([[0.0] * 5 + [few]] * 6)

    assert steadiness_interval(days) == (0.0, few)


def test_a_blip_that_moved_nothing_is_a_tenth_of_the_steadiness() -> None:
    days = on([[0.0, 6, 7, 8, 9, 10]] * 6)
    value = upper_quartile([one for day in days.values() for one in day])
    tenth = on([[value / 10, 6, 7, 8, 9, 10]] * 6)

    assert steadiness_interval(days) == pytest.approx(steadiness_interval(tenth))


@given(st.lists(st.floats(0, 100), min_size=36, max_size=36), st.sampled_from([4, 6, 9]))
def test_it_contains_the_order_interval_and_the_steadiness(
    all_of_it: list[float], day: int
) -> None:
    low, high = steadiness_interval(on([all_of_it[n : n + day] for n in range(0, 36, day)]))

    inner = order_interval(all_of_it)
    assert low <= inner[0] <= inner[1] <= high
    assert low <= upper_quartile(all_of_it) <= high


@given(seed=st.integers(0, 1000), factor=st.floats(0.01, 100))
def test_it_scales_with_the_deviations(seed: int, factor: float) -> None:
    days = drawn(SteadyFoot(day_spread=0.2), seed)
    scaled = {day: [factor * one for one in of_day] for day, of_day in days.items()}

    ends = steadiness_interval(days)

    assert steadiness_interval(scaled) == pytest.approx([factor * end for end in ends])


@given(seed=st.integers(0, 1000))
def test_neither_order_within_a_day_nor_order_of_days_changes_a_digit(seed: int) -> None:
    days = drawn(SteadyFoot(day_spread=0.2), seed)
    turned = {day: days[day][::-1] for day in reversed(days)}

    assert steadiness_interval(days) == steadiness_interval(turned)


@pytest.mark.parametrize("spread", [0.0, 0.15, 0.3])
def test_it_covers_nine_of_ten_feet_and_of_the_narrowest_tenth(spread: float) -> None:
    feet = 1500

    inside, narrowest = covered(SteadyFoot(day_spread=spread), feet)

    for share, count in ((inside, feet), (narrowest, feet // 10)):
        hits = round(share * count)
        assert stats.binomtest(hits, count, 0.9, alternative="less").pvalue > 0.01


def test_the_order_interval_does_not_where_days_differ() -> None:
    # The test above would find it: at 30 % it covers in about 0.86.
    foot, feet = SteadyFoot(day_spread=0.3), 1500
    true = foot.band(6)
    ends = (order_interval([*chain(*drawn(foot, seed).values())]) for seed in range(feet))

    hits = sum(low <= true <= high for low, high in ends)

    assert stats.binomtest(hits, feet, 0.9, alternative="less").pvalue < 0.01
