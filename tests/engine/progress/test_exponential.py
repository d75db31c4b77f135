"""The exponential fit against exact curves and against scipy."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import curve_fit

from engine.progress.exponential import fit

N = np.arange(1.0, 101.0)
ONCE = np.ones((1, N.size))


def curve(n: np.ndarray, floor: float, gain: float, rate: float) -> np.ndarray:
    """The exponential learning curve of Heathcote, Brown & Mewhort 2000."""
    return floor + gain * np.exp(-rate * n)


def fitted(value: np.ndarray, weight: np.ndarray = ONCE) -> list[tuple[float, float, float]]:
    """A, B and a of the fit for each weighting."""
    found = fit(N, value, weight)
    return list(zip(found.floor, found.gain, found.rate, strict=True))


def test_a_curve_without_noise_comes_back() -> None:
    assert fitted(curve(N, 5, 20, 0.05)) == [pytest.approx((5, 20, 0.05), abs=1e-6)]


@settings(max_examples=30)
@given(
    floor=st.floats(0.5, 20),
    gain=st.floats(1, 40),
    rate=st.floats(0.01, 0.3),
)
def test_every_curve_without_noise_comes_back(floor: float, gain: float, rate: float) -> None:
    assert fitted(curve(N, floor, gain, rate)) == [pytest.approx((floor, gain, rate), rel=1e-5)]


@pytest.mark.parametrize("seed", range(5))
def test_with_noise_and_weights_it_is_what_scipy_finds(seed: int) -> None:
    rng = np.random.default_rng(seed)
    value = curve(N, 5, 20, 0.05) * np.exp(rng.normal(0, 0.2, N.size))
    weight = rng.uniform(0.2, 1, (3, N.size))

    found = fitted(value, weight)

    for one, of_one in zip(weight, found, strict=True):
        best, _ = curve_fit(
            curve, N, value, (4, 15, 0.04), one**-0.5, xtol=1e-15, ftol=1e-15, gtol=1e-15
        )
        assert of_one == pytest.approx(best, abs=1e-6, rel=1e-6)


def test_a_weight_of_0_leaves_a_point_out() -> None:
    value = curve(N, 5, 20, 0.05)
    value[40:60] = 1000.0
    weight = np.where((N > 40) & (N <= 60), 0.0, ONCE)

    assert fitted(value, weight) == [pytest.approx((5, 20, 0.05), abs=1e-6)]


def test_a_rise_is_fitted_by_its_mean_without_gain() -> None:
    ((floor, gain, _),) = fitted(N)

    assert (floor, gain) == pytest.approx((N.mean(), 0.0))


def test_a_straight_fall_ends_at_0_and_not_below() -> None:
    value = np.maximum(100.0 - 1.3 * N, 0.0)

    ((floor, gain, rate),) = fitted(value)

    (gain_, rate_), _ = curve_fit(lambda n, b, a: b * np.exp(-a * n), N, value, (100, 0.02))
    assert floor == 0.0
    assert (gain, rate) == pytest.approx((gain_, rate_), rel=1e-5)


@pytest.mark.parametrize("value", [0.0, 7.0])
def test_equal_values_are_a_floor_without_gain(value: float) -> None:
    ((floor, gain, _),) = fitted(np.full(N.size, value))

    assert floor == pytest.approx(value)
    assert gain == pytest.approx(0.0, abs=1e-9)
