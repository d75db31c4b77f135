"""Mann-Kendall and Theil-Sen, against a worked example, every order there is, and scipy."""

from itertools import permutations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from engine.practice.statistics import MannKendall, chance_of_fall, rises, slope

# Worked with pymannkendall and scipy (Hussain & Mahmud 2019).
WORKED = [12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7]

ROWS = st.lists(st.integers(-20, 20).map(float), min_size=2, max_size=20)


def test_the_worked_example_comes_out() -> None:
    found = MannKendall.of(WORKED)

    assert found.s == 54
    assert found.variance == pytest.approx(332.6667, abs=1e-4)
    assert found.z == pytest.approx(2.905837, abs=1e-6)
    assert found.p == pytest.approx(0.0036627, abs=1e-6)
    assert found.p_falling == pytest.approx(1 - 0.0036627 / 2, abs=1e-6)
    assert slope(WORKED) == pytest.approx(0.5666667, abs=1e-6)


def test_a_fall_is_a_rise_seen_from_the_end() -> None:
    found = MannKendall.of(WORKED[::-1])

    assert found.s == -54
    assert found.z == pytest.approx(-2.905837, abs=1e-6)
    assert found.p_falling == pytest.approx(0.0036627 / 2, abs=1e-6)


def test_values_that_are_all_the_same_show_nothing() -> None:
    assert MannKendall.of([5.0] * 12) == MannKendall(0, 0.0, 0.0, 1.0, 0.5)
    assert chance_of_fall([5.0] * 12) == 1.0
    assert slope([5.0] * 12) == 0.0


@pytest.mark.parametrize("values", [[1, 2, 3, 4, 5, 6], [1, 1, 2, 2, 2, 3], [0, 0, 0, 0, 7, 9]])
def test_the_exact_chance_of_a_fall_is_that_of_every_order_there_is(values: list[int]) -> None:
    orders = [[float(one) for one in order] for order in permutations(values)]
    found = np.array([rises(order) for order in orders])

    for order in orders[::37]:
        assert chance_of_fall(order) == pytest.approx(np.mean(found <= rises(order)))


@pytest.mark.parametrize(
    ("count", "s", "p"),
    # Gilbert 1987, table A18 (from memory): chance of S as high where there is no trend.
    [(4, 6, 0.042), (5, 8, 0.042), (6, 11, 0.028), (7, 15, 0.015), (8, 16, 0.031), (10, 21, 0.036)],
)
def test_the_exact_chance_of_a_fall_is_what_the_tables_print(count: int, s: int, p: float) -> None:
    row = [float(count - place) for place in range(count)]
    while rises(row) < -s:
        place = next(place for place in range(count) if row[place] > row[place + 1])
        row[place], row[place + 1] = row[place + 1], row[place]

    assert rises(row) == -s
    assert round(chance_of_fall(row), 3) == p


def test_it_is_what_scipy_says_of_rows_of_twelve() -> None:
    rng = np.random.default_rng(5)

    for row in rng.normal(0, 1, (40, 12)).tolist():
        exact = stats.kendalltau(range(12), row, method="exact", alternative="less")
        assert chance_of_fall(row) == pytest.approx(exact.pvalue)
        assert rises(row) / 66 == pytest.approx(exact.statistic)


def test_it_is_what_scipy_says_of_rows_with_ties() -> None:
    rng = np.random.default_rng(6)

    for row in rng.integers(0, 5, (40, 15)).astype(float).tolist():
        found = MannKendall.of(row)
        # scipy takes no step nearer to none: its z is S over the same deviation.
        plain = stats.kendalltau(range(15), row, method="asymptotic")
        z = found.s / np.sqrt(found.variance)
        assert 2 * stats.norm.sf(abs(z)) == pytest.approx(plain.pvalue)
        assert slope(row) == pytest.approx(stats.theilslopes(row).slope)


def test_of_fewer_than_two_values_there_is_no_slope() -> None:
    with pytest.raises(ValueError, match="values: expected at least two, found 1"):
        slope([1.0])


@given(row=ROWS)
def test_turning_the_row_about_turns_s_and_the_slope(row: list[float]) -> None:
    assert rises(row[::-1]) == -rises(row)
    assert slope(row[::-1]) == pytest.approx(-slope(row))


@given(row=ROWS)
def test_s_and_its_chance_know_only_which_is_higher(row: list[float]) -> None:
    stretched = [one**3 + 2 * one for one in row]

    assert rises(stretched) == rises(row)
    assert chance_of_fall(stretched) == chance_of_fall(row)
    assert MannKendall.of(stretched) == MannKendall.of(row)


@given(row=ROWS, up=st.integers(-50, 50), steeper=st.integers(-5, 5))
def test_the_slope_goes_with_a_line_that_is_added(row: list[float], up: int, steeper: int) -> None:
    moved = [one + up + steeper * place for place, one in enumerate(row)]

    assert slope(moved) == pytest.approx(slope(row) + steeper)


@given(row=ROWS)
def test_a_fall_and_a_rise_share_all_the_chance_there_is(row: list[float]) -> None:
    both = chance_of_fall(row) + chance_of_fall(row[::-1])

    assert 1.0 <= both <= 2.0
    assert (chance_of_fall(row) < chance_of_fall(row[::-1])) == (rises(row) < 0)
