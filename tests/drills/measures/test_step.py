"""Squeezing on to a target, against closed forms of control theory and a control library."""

import math

import control
import numpy as np
import pytest

from drills.measures.step import measure_step

GRID = 0.001  # s, one grid step
TIME = np.arange(0, 8, GRID)


def second_order(damping: float, frequency: float) -> np.ndarray:
    """Unit step response of a second-order system, closed form (any control textbook)."""
    root = math.sqrt(1 - damping**2)
    damped = frequency * root
    decay = np.exp(-damping * frequency * TIME)
    return 1 - decay * (np.cos(damped * TIME) + damping / root * np.sin(damped * TIME))


# Ogata, Modern Control Engineering, and Nise, Control Systems Engineering (cases from memory);
# values computed on a fine grid with control 0.10.2. Overshoot in % of the final value.
TEXTBOOK = [
    pytest.param(0.6, 5, 9.478022, 0.785398, 0.370810, 1.188599, 1.045811, id="Ogata"),
    pytest.param(0.75, 10, 2.837544, 0.474964, 0.228754, 0.574261, 0.312504, id="Nise"),
]


@pytest.mark.parametrize(("damping", "frequency", "over", "peak", "rise", "two", "five"), TEXTBOOK)
def test_a_second_order_squeeze_has_its_textbook_measures(
    damping: float, frequency: float, over: float, peak: float, rise: float, two: float, five: float
) -> None:
    brake = 60 * second_order(damping, frequency)

    at_two, at_five = measure_step(brake, 60, 0.02 * 60), measure_step(brake, 60, 0.05 * 60)

    assert at_two.overshoot / 60 * 100 == pytest.approx(over, abs=0.01)
    assert at_two.peak_time == pytest.approx(peak, abs=GRID)
    assert at_two.rise == pytest.approx(rise, abs=2 * GRID)
    assert at_two.settle == pytest.approx(two, abs=GRID)
    assert at_five.settle == pytest.approx(five, abs=GRID)


@pytest.mark.parametrize("damping", [0.3, 0.6, 0.9])
def test_a_squeeze_agrees_with_the_step_info_of_a_control_library(damping: float) -> None:
    # control.step_info says settled at the sample after the last one outside, as here.
    brake = 50 * second_order(damping, 6)
    info = control.step_info(brake, TIME, yfinal=50, SettlingTimeThreshold=0.05)

    step = measure_step(brake, 50, 0.05 * 50)

    assert step.rise == pytest.approx(info["RiseTime"], abs=2 * GRID)
    assert step.settle == pytest.approx(info["SettlingTime"], abs=GRID)
    assert step.overshoot == pytest.approx(info["Overshoot"] / 100 * 50, abs=0.01)
    assert step.peak_time == pytest.approx(info["PeakTime"], abs=GRID)


def test_a_first_order_squeeze_rises_in_ln_9_and_settles_in_ln_50_and_ln_20() -> None:
    # Closed forms for tau = 1 s (computed): ln 9 = 2.197225, ln 50 = 3.912023, ln 20 = 2.995732.
    brake = 40 * (1 - np.exp(-TIME))

    at_two, at_five = measure_step(brake, 40, 0.8), measure_step(brake, 40, 2.0)

    assert at_two.rise == pytest.approx(math.log(9), abs=GRID)
    assert at_two.settle == pytest.approx(math.log(50), abs=GRID)
    assert at_five.settle == pytest.approx(math.log(20), abs=GRID)
    assert at_two.overshoot == 0


def test_the_reaction_is_the_time_to_a_tenth_of_the_target() -> None:
    brake = np.concatenate([np.zeros(230), np.full(400, 6.0), np.full(400, 60.0)])

    step = measure_step(brake, 60, 3)

    assert (step.reaction, step.rise, step.settle) == (0.230, 0.4, 0.63)


def test_a_target_never_reached_has_neither_reaction_nor_rise_nor_settling() -> None:
    step = measure_step(np.full(1000, 3.0), 60, 3)

    assert (step.reaction, step.rise, step.settle) == (None, None, None)


@pytest.mark.parametrize(("stay", "settle"), [(249, None), (250, 0.5)])
def test_a_stay_in_the_band_of_a_quarter_second_counts_and_less_does_not(
    stay: int, settle: float | None
) -> None:
    brake = np.concatenate([np.zeros(500), np.full(stay, 60.0)])

    step = measure_step(brake, 60, 3)

    assert step.settle == settle


def test_the_edge_of_the_band_belongs_to_it() -> None:
    brake = np.concatenate([np.zeros(500), np.full(300, 57.0)])

    assert measure_step(brake, 60, 3).settle == 0.5
    assert measure_step(brake, 60, 2.9).settle is None


def test_an_empty_window_is_refused() -> None:
    with pytest.raises(
        ValueError, match=r"^a step needs a window of at least one grid point, found none$"
    ):
        measure_step(np.array([]), 60, 3)
