"""What the counts of one axis show, against theory."""

import numpy as np
import pytest

from drills.calibration import COUNTS
from drills.health.axis import held_noise, rest_noise, step_of
from drills.health.reports import report_timing, reports
from drills.trace import STEP


@pytest.mark.parametrize("noise", [0.5, 0.7, 1.0, 3.0])
def test_a_converter_adds_a_twelfth_of_its_squared_step_to_noise(noise: float) -> None:
    """Widrow & Kollar 2008, chapter 4: for noise of half a step or more."""
    rng = np.random.default_rng(7)
    exact = 100.3 + noise * rng.standard_normal(200_000)

    measured = rest_noise(np.rint(exact))

    assert measured == pytest.approx(np.sqrt(noise**2 + 1 / 12), rel=0.01)


def test_a_quickening_press_through_a_converter_has_the_noise_of_its_steps() -> None:
    """IEEE Std 1241: an ideal converter has an error of its step / sqrt(12)."""
    ramp = np.rint(np.sqrt(2) * np.arange(20_000, dtype=np.float64) ** 2 / 10_000)

    assert held_noise([ramp]) == pytest.approx(1 / np.sqrt(12), rel=0.02)


def test_noise_is_told_from_creep_and_from_one_jump() -> None:
    rng = np.random.default_rng(3)
    values = np.linspace(0, 50, 2000) + rng.standard_normal(2000)
    values[700] += 300

    assert rest_noise(values) == pytest.approx(1, rel=0.05)


def test_too_few_reports_have_no_noise() -> None:
    assert rest_noise(np.zeros(19)) is None
    assert held_noise([np.zeros(12), np.zeros(12)]) is None


@pytest.mark.parametrize("bits", range(6, 14))
def test_the_step_is_found_where_only_some_values_were_seen_and_are_rounded(bits: int) -> None:
    step = (2 * COUNTS - 1) / (2**bits - 1)
    codes = np.random.default_rng(bits).integers(0, 2**bits, 600)

    found = step_of(np.floor(codes * step - COUNTS).astype(np.int64))

    assert found == pytest.approx(step, rel=0.01)


def test_an_axis_that_never_moved_has_no_step() -> None:
    assert step_of(np.full(5, 3)) is None


def test_a_few_values_far_apart_without_a_common_step_have_that_of_a_count() -> None:
    assert step_of(np.array([0, 997, 2006, 3037])) == 1.0


def test_every_report_is_rebuilt_also_where_it_brought_no_change() -> None:
    time = np.arange(40, dtype=np.int64) * STEP
    counts = np.repeat([5, 5, 6, 6, 6, 7, 7, 7, 7, 8], 4)

    assert reports(time, counts, 0.004).tolist() == [5, 5, 6, 6, 6, 7, 7, 7, 7, 8]


def test_a_still_axis_says_nothing_of_its_reports() -> None:
    time = np.arange(1000, dtype=np.int64) * STEP

    assert report_timing(time, np.zeros(1000, dtype=np.int64), [2.0]) is None
