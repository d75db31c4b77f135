"""Extra stopping distance, against a textbook, closed forms and a general law."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.measures.distance import DT, Stop, extra_distance
from tests.drills.shapes import Shape, Values, half_sine, seconds

HELD = 70.0
TO_REST = Stop(v0=30.0, v1=0.0, deceleration=7.0)


def rectangle(length: float) -> Shape:
    """1 over `length` s."""
    return lambda t: np.where((t >= 0) & (t < length), 1.0, 0.0)


def sawtooth(length: float) -> Shape:
    """1 falling to 0 over `length` s."""
    return lambda t: np.where((t >= 0) & (t < length), 1 - t / length, 0.0)


def missing(depth: float, shape: Shape, rate: int = 1000) -> Values:
    """Brake that lacks a share of what is held, from 1 s on, sampled amid each step and held."""
    middle = np.floor(seconds(3) * rate + 1e-6) / rate + 0.5 / rate
    return HELD * (1 - depth * shape(middle - 1))


@pytest.mark.parametrize(("deceleration", "metres"), [(7.00, 64.3), (5.00, 90.0)])
def test_stopping_takes_the_distance_of_a_textbook(deceleration: float, metres: float) -> None:
    # OpenStax College Physics, stopping from 30.0 m/s on dry and on wet concrete (read).
    asked = Stop(v0=30.0, v1=0.0, deceleration=10.0)
    undisturbed = 30.0**2 / 20.0

    cost = extra_distance(np.full(9000, deceleration), 10.0, 30.0, asked)

    assert undisturbed + cost.distance == pytest.approx(metres, abs=0.05)
    assert cost.speed == 0


# From 30 m/s at 7 m/s², 1 s in, 0.3 s long, 2.1 m/s² deep (derived, computed).
COSTS = [
    pytest.param(0.3, rectangle(0.3), 2.003850, id="rectangle"),
    pytest.param(0.3, half_sine(0.3), 1.269132, id="half-sine"),
    pytest.param(0.3, sawtooth(0.3), 1.010588, id="falling sawtooth"),
    pytest.param(1.0, rectangle(0.3), 6.9, id="full release"),
]


@pytest.mark.parametrize(("depth", "shape", "metres"), COSTS)
def test_a_dip_costs_what_its_shape_says(depth: float, shape: Shape, metres: float) -> None:
    cost = extra_distance(missing(depth, shape), HELD, 30.0, TO_REST)

    assert cost.distance == pytest.approx(metres, abs=1e-3)


@pytest.mark.parametrize(("depth", "shape", "metres"), COSTS)
def test_a_dip_read_at_125_hz_costs_the_same_within_2_percent(
    depth: float, shape: Shape, metres: float
) -> None:
    cost = extra_distance(missing(depth, shape, rate=125), HELD, 30.0, TO_REST)

    assert cost.distance == pytest.approx(metres, rel=0.02)


@given(st.floats(0.05, 1.0), st.integers(10, 400), st.integers(0, 600))
def test_a_rectangular_notch_costs_its_closed_form(depth: float, length: int, start: int) -> None:
    # k T (v' - (1 - k) a0 T / 2), v' the speed where the notch begins (derived).
    brake = np.full(1000, HELD)
    brake[start : start + length] *= 1 - depth
    gravity = Stop().deceleration
    entry, lasted = 40 - gravity * start * DT, length * DT
    expected = depth * lasted * (entry - (1 - depth) * gravity * lasted / 2)

    cost = extra_distance(brake, HELD, 40.0, Stop())

    assert cost.distance == pytest.approx(expected, abs=1e-9)


@given(st.lists(st.floats(0, 1), min_size=1, max_size=500))
def test_a_dip_of_any_shape_costs_by_its_integral_and_centroid(depths: list[float]) -> None:
    # J (T - tc) + J² / (2 a), with J the integral of the shortfall, tc its centroid and T = v0 / a
    # (derived). Steps of constant shortfall have their centroid in their middle.
    lacks = 7.0 * np.array(depths)
    impulse = float(lacks.sum()) * DT
    moment = float(lacks @ (np.arange(lacks.size) + 0.5)) * DT**2
    expected = impulse * 30.0 / 7.0 - moment + impulse**2 / (2 * 7.0)

    cost = extra_distance(HELD * (1 - np.array(depths)), HELD, 30.0, TO_REST)

    assert cost.distance == pytest.approx(expected, abs=1e-9)


@given(st.lists(st.floats(70, 100), min_size=1, max_size=300))
def test_more_brake_than_was_held_gains_nothing(brake: list[float]) -> None:
    cost = extra_distance(np.array(brake), HELD, 40.0, Stop())

    assert cost.distance == pytest.approx(0, abs=1e-9)
    assert cost.speed == pytest.approx(40 - Stop().deceleration * DT * len(brake))


def test_half_the_brake_all_the_way_takes_twice_the_distance() -> None:
    undisturbed = (40.0**2 - 20.0**2) / (2 * Stop().deceleration)

    cost = extra_distance(np.full(9000, HELD / 2), HELD, 40.0, Stop())

    assert cost.distance == pytest.approx(undisturbed, abs=1e-9)
    assert cost.speed == 20


def test_no_brake_at_all_costs_the_way_rolled_in_the_window() -> None:
    cost = extra_distance(np.zeros(500), HELD, 40.0, Stop())

    assert cost.distance == pytest.approx(0.5 * 40)
    assert cost.speed == 40


@pytest.mark.parametrize("speed", [20.0, 12.5])
def test_a_window_entered_when_the_braking_is_over_costs_nothing(speed: float) -> None:
    cost = extra_distance(np.zeros(500), HELD, speed, Stop())

    assert (cost.distance, cost.speed) == (0.0, speed)


def test_an_early_dip_costs_more_than_the_same_dip_late() -> None:
    early, late = np.full(1500, HELD), np.full(1500, HELD)
    early[:200] = late[1300:] = 30

    sooner = extra_distance(early, HELD, 40.0, Stop()).distance
    later = extra_distance(late, HELD, 40.0, Stop()).distance

    assert sooner > later > 0
    share = 1 - 30 / HELD
    assert sooner - later == pytest.approx(share * 0.2 * Stop().deceleration * 1.3)
