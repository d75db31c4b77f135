"""Noise of the brake in a recording: against a plain reading, and what it must not take for it."""

from dataclasses import replace

import numpy as np
import pytest

from drills.measures.noise import FEWEST, brake_noise, noise_warning
from drills.measures.runs import throttle_floor
from drills.trace import Trace, nanoseconds
from tests.drills.measures.drive import drive
from tests.drills.shapes import Values

NORMAL = 0.6745 * 2**0.5
"""Median distance of two independent normal draws of spread 1."""


def held(brake: Values, throttle: Values | float = 0.0, every: float = 0.005) -> Trace:
    """A trace of these brakes, a report every so many s."""
    time = np.arange(brake.size, dtype=np.int64) * nanoseconds(every)
    return Trace(time, brake, np.broadcast_to(throttle, brake.shape).astype(float))


def noise_of(spread: float, count: int = 4000) -> Values:
    """Noise of a pedal, normal, independent from report to report."""
    return np.random.default_rng(5).normal(0, spread, count)


@pytest.mark.parametrize("spread", [0.2, 1.0, 3.0])
@pytest.mark.parametrize("slope", [0.0, -0.3])
def test_it_is_the_median_step_of_noise_also_while_the_brake_eases_off(
    spread: float, slope: float
) -> None:
    at = np.arange(4000) % 100
    trace = held(60 + slope * at + noise_of(spread))

    assert brake_noise(trace, 0.0) == pytest.approx(NORMAL * spread, rel=0.05)


def test_it_agrees_with_the_plain_reading_of_its_definition() -> None:
    made = drive(3, 1, 250).trace
    trace = replace(made, brake=np.round(made.brake + 0.7 * noise_of(1.0, made.brake.size), 1))
    floor = throttle_floor(trace)

    reports = [
        (float(brake), float(throttle))
        for k, (brake, throttle) in enumerate(zip(trace.brake, trace.throttle, strict=True))
        if k == 0 or brake != trace.brake[k - 1]
    ]
    steps = [
        abs(middle[0] - (before[0] + after[0]) / 2) * (2 / 1.5) ** 0.5
        for before, middle, after in zip(reports, reports[1:], reports[2:], strict=False)
        if all(one[0] >= 10 and one[1] < floor + 5 for one in (before, middle, after))
    ]

    assert brake_noise(trace, floor) == pytest.approx(float(np.median(steps)), abs=1e-12)


@pytest.mark.parametrize("rate", [1000, 250, 100, 60])
@pytest.mark.parametrize("step", [0.0, 0.4, 1.0])
def test_neither_easing_off_nor_coarse_counts_are_noise(rate: int, step: float) -> None:
    trace = drive(4, 2, rate).trace
    brake = np.round(trace.brake / step) * step if step else trace.brake

    noise = brake_noise(replace(trace, brake=brake), throttle_floor(trace))

    assert noise is not None
    assert noise < 0.2


def test_a_row_that_repeats_the_last_report_changes_nothing() -> None:
    brake = 60 + noise_of(1.0, 400)

    assert brake_noise(held(np.repeat(brake, 5)), 0.0) == brake_noise(held(brake), 0.0)


def test_only_a_held_brake_with_the_throttle_at_rest_counts() -> None:
    loud, quiet = 60 + noise_of(3.0), 60 + noise_of(0.1)
    pressed = np.concatenate((np.full(4000, 5.0), np.full(4000, 4.9)))

    trace = held(np.concatenate((loud, quiet, noise_of(0.2))), np.append(pressed, np.zeros(4000)))

    assert brake_noise(trace, 0.0) == pytest.approx(NORMAL * 0.1, rel=0.05)


def test_too_few_steps_tell_no_noise() -> None:
    assert brake_noise(held(60 + noise_of(1.0, FEWEST + 1)), 0.0) is None
    assert brake_noise(held(60 + noise_of(1.0, FEWEST + 2)), 0.0) is not None
    assert brake_noise(held(np.full(900, 60.0)), 0.0) is None


@pytest.mark.parametrize(("noise", "warned"), [(None, False), (0.5, False), (0.51, True)])
def test_over_half_a_point_is_warned_of(noise: float | None, warned: bool) -> None:
    assert (noise_warning(noise) is not None) is warned
