"""`clustered_fit`: the line of least squares, and how far days that differ widen its interval."""

import numpy as np
import pytest

from engine.practice.clustered import clustered_fit

RNG = np.random.default_rng(3)
X = RNG.uniform(0, 10, 40)
LINE = np.column_stack((np.ones(40), X))
NOISE = RNG.normal(size=40)
APART = list(range(40))


def test_the_line_is_that_of_least_squares() -> None:
    y = 2 + 3 * X + NOISE

    fit = clustered_fit(LINE, y, APART)

    assert fit.coefficients == pytest.approx(np.polyfit(X, y, 1)[::-1])
    assert fit.freedom == 38


def test_values_of_days_of_their_own_have_the_plain_standard_error() -> None:
    fit = clustered_fit(np.ones((40, 1)), NOISE, APART)

    assert fit.covariance[0, 0] == pytest.approx(np.var(NOISE, ddof=1) / 40)
    assert fit.spread == pytest.approx(np.std(NOISE, ddof=1))


def test_days_that_are_no_more_alike_count_as_the_usual_ones() -> None:
    # Each day holds a value and its opposite, so that no day is told from another.
    pairs = np.column_stack((NOISE[:20], -NOISE[:20])).ravel()
    fit = clustered_fit(np.ones((40, 1)), pairs, [number // 2 for number in APART])

    alike = 20 * 0.1 / (20 + 19)
    assert fit.covariance[0, 0] == pytest.approx(np.var(pairs, ddof=1) / 40 * (1 + alike))


def test_days_that_differ_widen_the_interval() -> None:
    days = [number // 4 for number in APART]
    alike = np.repeat(RNG.normal(size=10), 4) + 0.1 * NOISE

    widened = clustered_fit(np.ones((40, 1)), alike, days).covariance[0, 0]

    assert widened > 1.8 * clustered_fit(np.ones((40, 1)), alike, APART).covariance[0, 0]


def test_one_slip_is_drawn_in() -> None:
    slipped = NOISE.copy()
    slipped[7] = 100.0

    fit = clustered_fit(np.ones((40, 1)), slipped, APART)

    assert abs(fit.coefficients[0] - NOISE.mean()) < 0.5
    assert fit.spread < 2


def test_values_without_any_spread_have_a_finite_interval() -> None:
    fit = clustered_fit(np.ones((40, 1)), np.full(40, 5.0), [0] * 40)

    assert fit.coefficients[0] == pytest.approx(5.0)
    assert 0 < fit.covariance[0, 0] < 1e-9
