"""Holding still, against published statistics and reference libraries."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import signal

from drills.measures.hold import measure_hold

values = st.lists(st.floats(0, 100), min_size=1, max_size=200).map(np.array)


@given(values, st.floats(10, 95))
def test_total_error_is_made_of_constant_and_variable_error(
    brake: np.ndarray, target: float
) -> None:
    # E^2 = CE^2 + VE^2 holds with divisor n (Henry 1975, abstract).
    hold = measure_hold(brake, target, 5)

    parts = hold.constant_error**2 + hold.variable_error**2
    assert hold.total_error**2 == pytest.approx(parts, abs=1e-9)


def test_a_worked_example_of_errors() -> None:
    # e = -3, 1, 4, -2, 0, 6: CE 1, VE 3.16227766, E 3.31662479 (computed).
    brake = 50 + np.array([-3.0, 1, 4, -2, 0, 6])

    hold = measure_hold(brake, 50, 3)

    assert hold.constant_error == pytest.approx(1)
    assert hold.variable_error == pytest.approx(3.16227766, abs=1e-8)
    assert hold.total_error == pytest.approx(3.31662479, abs=1e-8)
    assert hold.swing == 9
    assert hold.in_band == pytest.approx(4 / 6)


def test_a_sine_spreads_by_its_amplitude_over_root_two() -> None:
    # Amplitude 2 about 50: SD 1.414214, coefficient of variation 2.828427 % (computed).
    brake = 50 + 2 * np.sin(2 * np.pi * np.arange(2000) / 1000)

    hold = measure_hold(brake, 50, 5)

    assert hold.variable_error == pytest.approx(1.414214, abs=1e-6)
    assert hold.cv == pytest.approx(0.02828427, abs=1e-8)


# NIST Statistical Reference Datasets, univariate summary statistics (read): mean, SD (n - 1).
NIST = [
    pytest.param([10000001.0, 10000003, 10000002], 10000002.0, 1.0, 0.0, id="NumAcc1"),
    pytest.param([1.2] + [1.1, 1.3] * 500, 1.2, 0.1, 1e-13, id="NumAcc2"),
    pytest.param([1000000.2] + [1000000.1, 1000000.3] * 500, 1000000.2, 0.1, 1e-8, id="NumAcc3"),
    pytest.param(
        [10000000.2] + [10000000.1, 10000000.3] * 500, 10000000.2, 0.1, 1e-7, id="NumAcc4"
    ),
]


@pytest.mark.parametrize(("data", "mean", "deviation", "allow"), NIST)
def test_mean_and_spread_keep_their_accuracy(
    data: list[float], mean: float, deviation: float, allow: float
) -> None:
    hold = measure_hold(np.array(data), mean, 1)

    n = len(data)
    assert hold.mean == pytest.approx(mean, rel=1e-12)
    sample = hold.variable_error * math.sqrt(n / (n - 1))
    assert sample == pytest.approx(deviation, abs=max(allow, 1e-12 * deviation))


@pytest.mark.parametrize("points", [1000, 1001, 1537, 4000])
def test_tremor_is_the_power_of_a_periodogram_from_8_to_12_hz(points: int) -> None:
    rng = np.random.default_rng(8)
    brake = 40 + np.cumsum(rng.normal(0, 0.05, points)) + rng.normal(0, 0.4, points)
    frequency, power = signal.periodogram(brake, 1000, detrend="constant", scaling="spectrum")
    expected = math.sqrt(power[(frequency >= 8) & (frequency <= 12)].sum())

    hold = measure_hold(brake, 40, 5)

    assert hold.tremor == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize(("hertz", "seen"), [(7, 0.0), (8, 1.0), (10, 1.0), (12, 1.0), (13, 0.0)])
def test_tremor_sees_its_band_with_both_ends_and_nothing_else(hertz: float, seen: float) -> None:
    # Physiological tremor lies at 8-12 Hz (Novak & Newell 2017, read).
    brake = 50 + math.sqrt(2) * np.sin(2 * np.pi * hertz * np.arange(1000) / 1000)

    hold = measure_hold(brake, 50, 5)

    assert hold.tremor == pytest.approx(seen, abs=1e-9)


def test_drift_is_the_slope_of_a_least_squares_line() -> None:
    rng = np.random.default_rng(4)
    time = np.arange(3000) / 1000
    brake = 50 - 1.3 * time + rng.normal(0, 1, time.size)

    hold = measure_hold(brake, 50, 5)

    assert hold.drift == pytest.approx(np.polyfit(time, brake, 1)[0], rel=1e-9)


def test_two_grid_points_have_a_drift_and_one_has_none() -> None:
    assert measure_hold(np.array([50.0, 50.25]), 50, 5).drift == pytest.approx(250)
    assert measure_hold(np.array([50.0]), 50, 5).drift == 0


def test_a_window_under_a_second_has_no_tremor() -> None:
    assert measure_hold(np.full(999, 50.0), 50, 5).tremor is None
    assert measure_hold(np.full(1000, 50.0), 50, 5).tremor == 0


def test_a_brake_that_is_not_on_has_no_coefficient_of_variation() -> None:
    assert measure_hold(np.zeros(10), 50, 5).cv is None
    assert measure_hold(np.array([0.25, 0.75]), 50, 5).cv == 0.5


def test_the_limits_of_the_band_belong_to_it() -> None:
    hold = measure_hold(np.array([44.9, 45, 50, 55, 55.1]), 50, 5)

    assert hold.in_band == pytest.approx(3 / 5)


def test_an_empty_window_is_refused() -> None:
    with pytest.raises(
        ValueError, match=r"^a hold needs a window of at least one grid point, found none$"
    ):
        measure_hold(np.array([]), 50, 5)
