"""Easing off along a ramp."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.measures.easing import measure_release


def ramp(start: float, points: int) -> np.ndarray:
    """A ramp from `start` % to nothing over `points` ms."""
    return start * (1 - np.arange(points) / points)


def test_a_perfect_ramp_has_no_error_and_no_reversals() -> None:
    release = measure_release(ramp(60, 1500), 60)

    assert (release.ramp_error, release.ramp_worst, release.reversals) == (0, 0, 0)


def test_a_ramp_that_begins_between_two_grid_points_has_no_error() -> None:
    late, seconds = 0.0004, 1.5003
    brake = 60 * (1 - (late + np.arange(1500) / 1000) / seconds)

    release = measure_release(brake, 60, seconds, late)

    assert release.ramp_worst == pytest.approx(0, abs=1e-9)


def test_a_ramp_that_sits_high_is_off_by_as_much_everywhere() -> None:
    release = measure_release(ramp(60, 1500) + 4, 60)

    assert release.ramp_error == pytest.approx(4)
    assert release.ramp_worst == pytest.approx(4)


def test_a_sine_about_the_ramp_has_an_error_of_its_amplitude_over_root_two() -> None:
    # The root mean square of a sine over whole periods (closed form).
    wave = 1.5 * np.sin(2 * math.pi * np.arange(2000) / 500)

    release = measure_release(ramp(50, 2000) + wave, 50)

    assert release.ramp_error == pytest.approx(1.5 / math.sqrt(2), rel=1e-9)
    assert release.ramp_worst == pytest.approx(1.5, rel=1e-9)


@pytest.mark.parametrize(
    ("brake", "reversals"),
    [
        pytest.param([60, 50, 52, 40, 20], 0, id="a rise of exactly 2 is none"),
        pytest.param([60, 50, 52.1, 40, 20], 1, id="a rise over 2 is one"),
        pytest.param([60, 50, 51.5, 53, 20], 1, id="a rise in two parts is one"),
        pytest.param([60, 50, 55, 54, 56, 20], 1, id="a small fall does not part a rise"),
        pytest.param([60, 50, 55, 53, 56, 20], 1, id="a fall of exactly 2 does not"),
        pytest.param([60, 50, 55, 52, 56, 20], 2, id="a fall over 2 does"),
        pytest.param([60, 40, 45, 30, 35, 10, 14], 3, id="three"),
    ],
)
def test_upward_turns_of_more_than_2_percent_are_counted(
    brake: list[float], reversals: int
) -> None:
    release = measure_release(np.array(brake, dtype=float), 60)

    assert release.reversals == reversals


@given(st.lists(st.floats(0, 100), min_size=1, max_size=60), st.integers(2, 4))
def test_holding_every_value_longer_changes_no_reversal(values: list[float], times: int) -> None:
    once = measure_release(np.array(values), 60)

    longer = measure_release(np.repeat(values, times), 60)

    assert longer.reversals == once.reversals


def test_an_empty_window_is_refused() -> None:
    with pytest.raises(
        ValueError, match=r"^a release needs a window of at least one grid point, found none$"
    ):
        measure_release(np.array([]), 60)
