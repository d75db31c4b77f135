"""Mann-Kendall test, against a worked example, all orders, and scipy."""

import math
from itertools import combinations, permutations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from engine.practice.statistics import chance_of_fall, rises

# Worked with pymannkendall and scipy (Hussain & Mahmud 2019).
WORKED = [12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7]

VALUES = st.lists(st.integers(-20, 20).map(float), min_size=2, max_size=20)


def test_the_worked_example_has_its_published_s_and_chance() -> None:
    # The published p of 0.0036627 is two-sided, and of the normal law: the exact one is near it.
    assert rises(WORKED) == 54
    assert chance_of_fall(WORKED[::-1]) == pytest.approx(0.0036627 / 2, abs=7e-4)
    assert chance_of_fall(WORKED) == pytest.approx(1 - 0.0036627 / 2, abs=1.1e-3)


def test_values_that_are_all_the_same_show_no_trend() -> None:
    assert rises([5.0] * 12) == 0
    assert chance_of_fall([5.0] * 12) == 1.0


@pytest.mark.parametrize("values", [[1, 2, 3, 4, 5, 6], [1, 1, 2, 2, 2, 3], [0, 0, 0, 0, 7, 9]])
def test_the_chance_of_a_fall_is_the_share_of_all_orders_that_fall_as_much(
    values: list[int],
) -> None:
    orders = [[float(value) for value in order] for order in permutations(values)]
    found = np.array([rises(order) for order in orders])

    for order in orders[::37]:
        assert chance_of_fall(order) == pytest.approx(np.mean(found <= rises(order)))


@pytest.mark.parametrize(
    ("count", "s", "p"),
    # Gilbert 1987, table A18 (from memory): chance of S as high where there is no trend.
    [(4, 6, 0.042), (5, 8, 0.042), (6, 11, 0.028), (7, 15, 0.015), (8, 16, 0.031), (10, 21, 0.036)],
)
def test_the_chance_of_a_fall_agrees_with_a_printed_table(count: int, s: int, p: float) -> None:
    row = [float(count - place) for place in range(count)]
    while rises(row) < -s:
        place = next(place for place in range(count) if row[place] > row[place + 1])
        row[place], row[place + 1] = row[place + 1], row[place]

    assert rises(row) == -s
    assert round(chance_of_fall(row), 3) == p


def test_the_chance_of_a_fall_agrees_with_scipy_for_twelve_untied_values() -> None:
    rng = np.random.default_rng(5)

    for row in rng.normal(0, 1, (40, 12)).tolist():
        exact = stats.kendalltau(range(12), row, method="exact", alternative="less")
        assert chance_of_fall(row) == pytest.approx(exact.pvalue)
        assert rises(row) / 66 == pytest.approx(exact.statistic)


def test_s_agrees_with_scipy_where_values_are_tied() -> None:
    rng = np.random.default_rng(6)

    for values in rng.integers(0, 5, (40, 15)).astype(float).tolist():
        untied = [
            sum(first != second for first, second in combinations(row, 2))
            for row in (values, range(len(values)))
        ]
        tau = stats.kendalltau(range(len(values)), values).statistic
        assert rises(values) / math.sqrt(math.prod(untied)) == pytest.approx(tau)


@given(values=VALUES)
def test_reversing_the_values_negates_s(values: list[float]) -> None:
    assert rises(values[::-1]) == -rises(values)


@given(values=VALUES)
def test_s_and_its_chance_depend_only_on_which_value_is_higher(values: list[float]) -> None:
    stretched = [value**3 + 2 * value for value in values]

    assert rises(stretched) == rises(values)
    assert chance_of_fall(stretched) == chance_of_fall(values)


@given(values=VALUES)
def test_the_chances_of_a_fall_and_of_a_rise_add_up_to_at_least_one(values: list[float]) -> None:
    both = chance_of_fall(values) + chance_of_fall(values[::-1])

    assert 1.0 <= both <= 2.0
    assert (chance_of_fall(values) < chance_of_fall(values[::-1])) == (rises(values) < 0)
