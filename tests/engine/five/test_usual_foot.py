"""Today's foot and the usual one; rates are a small version of `python tests/bench/rates.py`."""

from datetime import date, timedelta
from functools import partial
from math import log

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from engine.five.usual_foot import (
    FootToday,
    FootVerdict,
    earlier_days,
    expected,
    foot_today,
    warm_up_value,
)
from engine.five.warm_up_words import noticed_words
from tests.bench.rates import hits
from tests.bench.usual_feet import (
    Medians,
    learning,
    less_steady,
    of_days,
    said_of_worse,
    steady,
    unusual,
)

TODAY = date(2024, 3, 31)
EARLIER = [8.1, 6.9, 9.4, 7.7, 8.8, 7.2, 9.9, 8.3, 7.5, 8.6]

DAYS = st.lists(st.floats(0.5, 50), min_size=8, max_size=40)


def test_the_interval_is_that_of_one_new_value_about_a_line() -> None:
    # The same by the matrices of ordinary least squares, and the t of scipy.
    logs = np.log(EARLIER)
    design = np.column_stack([np.ones(10), np.arange(10)])
    line, off, *_ = np.linalg.lstsq(design, logs, rcond=None)
    new = np.array([1.0, 10.0])
    spread = off[0] / 8 * (1 + new @ np.linalg.inv(design.T @ design) @ new)
    half = stats.t.ppf(0.975, 8) * np.sqrt(spread)

    usual = expected(EARLIER)

    assert log(usual.value) == pytest.approx(new @ line)
    assert log(usual.low) == pytest.approx(new @ line - half)
    assert log(usual.high) == pytest.approx(new @ line + half)
    shift = log(1.5) / np.sqrt(spread)
    assert usual.notices == pytest.approx(stats.t.sf(stats.t.ppf(0.975, 8) - shift, 8))


def test_a_foot_is_usual_inside_the_interval_and_steadier_or_less_steady_outside() -> None:
    usual = expected(EARLIER)

    said = [foot_today(one, EARLIER) for one in (usual.low - 0.1, usual.low + 0.1, usual.value)]
    worse = [foot_today(one, EARLIER) for one in (usual.high - 0.1, usual.high + 0.1)]

    assert [one.word for one in said] == [
        FootVerdict.STEADIER,
        FootVerdict.USUAL,
        FootVerdict.USUAL,
    ]
    assert [one.word for one in worse] == [FootVerdict.USUAL, FootVerdict.LESS_STEADY]
    assert {one.usual for one in [*said, *worse]} == {usual}


@pytest.mark.parametrize(("days", "missing"), [(0, 8), (1, 7), (7, 1)])
def test_before_eight_earlier_days_it_says_how_many_are_missing(days: int, missing: int) -> None:
    assert foot_today(8.0, EARLIER[:days]) == FootToday(FootVerdict.NOT_ENOUGH, missing=missing)
    with pytest.raises(ValueError, match=f"earlier: expected at least 8, found {days}"):
        expected(EARLIER[:days])


def test_with_eight_earlier_days_there_is_a_verdict() -> None:
    assert foot_today(8.0, EARLIER[:8]).word is FootVerdict.USUAL


def test_only_the_newest_twenty_days_are_looked_at() -> None:
    assert expected([40.0, 1.0, 30.0, *EARLIER, *EARLIER]) == expected([*EARLIER, *EARLIER])
    assert expected([40.0, *EARLIER]) != expected(EARLIER)


def test_a_foot_that_learns_is_expected_to_go_on() -> None:
    falling = [12.0 * 0.97**day for day in range(20)]

    usual = expected(falling)

    assert usual.value == pytest.approx(12.0 * 0.97**20)


def test_the_expected_value_is_never_below_the_smallest_deviation() -> None:
    assert expected([12.0 * 0.5**day for day in range(8)]).value == pytest.approx(0.1)


@pytest.mark.parametrize("value", [0.0, 0.05, 6.0])
def test_a_foot_that_is_the_same_every_day_is_usual(value: float) -> None:
    assert foot_today(value, [value] * 10).word is FootVerdict.USUAL


def test_the_value_of_a_day_is_its_first_warm_up_and_today_is_left_out() -> None:
    yesterday = TODAY - timedelta(days=1)
    before = TODAY - timedelta(days=5)

    done = [(before, 9.0), (yesterday, 8.0), (yesterday, 4.0), (TODAY, 7.0), (TODAY, 6.0)]

    assert earlier_days(done, TODAY) == [9.0, 8.0]
    assert earlier_days([], TODAY) == []


def test_the_value_of_a_warm_up_is_the_mean_of_its_eight_blips() -> None:
    assert warm_up_value([4.0, 6.0, 5.0, 5.0, 9.0, 1.0, 5.0, 5.0]) == 5.0
    assert warm_up_value([5.0] * 7) is None


@given(earlier=st.lists(st.floats(2, 50), min_size=8, max_size=40), times=st.floats(0.5, 4))
def test_scaling_the_values_scales_the_interval(earlier: list[float], times: float) -> None:
    usual, scaled = expected(earlier), expected([one * times for one in earlier])

    assert scaled.value == pytest.approx(usual.value * times)
    assert scaled.low == pytest.approx(usual.low * times)
    assert scaled.high == pytest.approx(usual.high * times)


@given(earlier=DAYS, today=st.floats(0.1, 50), more=st.floats(0, 50))
def test_a_day_that_is_worse_is_never_called_steadier(
    earlier: list[float], today: float, more: float
) -> None:
    order = [FootVerdict.STEADIER, FootVerdict.USUAL, FootVerdict.LESS_STEADY]

    said, worse = foot_today(today, earlier).word, foot_today(today + more, earlier).word

    assert order.index(said) <= order.index(worse)


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (0.0, "It would hardly ever notice a foot worse by half."),
        (0.06, "On 1 of 10 days it notices a foot worse by half."),
        (0.42, "On 4 of 10 days it notices a foot worse by half."),
        (0.94, "On 9 of 10 days it notices a foot worse by half."),
        (0.96, "It would nearly always notice a foot worse by half."),
    ],
)
def test_it_says_on_how_many_of_ten_days_a_worse_foot_is_noticed(chance: float, words: str) -> None:
    assert noticed_words(chance) == words


@pytest.mark.parametrize("medians", [steady, of_days])
def test_a_foot_worse_by_half_is_noticed_about_as_often_as_is_said(medians: Medians) -> None:
    for days in (10, 20):
        found = hits(partial(less_steady, worse=0.5, medians=medians, days=days), 400) / 400
        told = hits(partial(said_of_worse, medians=medians, days=days), 400) / 400
        assert abs(found - told) < 0.12


@given(earlier=DAYS)
def test_the_usual_value_is_usual(earlier: list[float]) -> None:
    usual = expected(earlier)

    assert usual.low < usual.value < usual.high
    assert foot_today(usual.value, earlier).word is FootVerdict.USUAL


@pytest.mark.parametrize("medians", [steady, learning, of_days])
def test_a_usual_foot_is_called_unusual_at_most_6_times_in_100(medians: Medians) -> None:
    wrong = sum(hits(partial(unusual, medians=medians, days=days), 600) for days in (8, 15, 30))

    assert 0.02 < wrong / 1800 <= 0.06


@pytest.mark.parametrize(("days", "worse"), [(8, 1.5), (15, 1.0), (30, 0.9)])
def test_a_day_that_much_worse_is_found_in_8_of_10(days: int, worse: float) -> None:
    found = hits(partial(less_steady, worse=worse, medians=steady, days=days), 300)

    assert found >= 0.8 * 300
