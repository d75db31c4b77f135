"""`sense_of`: what is known of a foot from what was asked and what was pressed."""

import math
from dataclasses import replace
from datetime import timedelta

import pytest

from engine.practice.sense import LEAST, NEWEST, ErrorAt, Estimate, Sense, Squeeze, sense_of
from tests.engine.practice.squeezing import DAY, squeezes


def told(played: list[Squeeze]) -> Sense:
    """The sense of these squeezes, which are enough."""
    sense = sense_of(played)
    assert sense is not None
    return sense


def test_nothing_is_told_before_thirty_squeezes() -> None:
    played = squeezes(LEAST, gain=0.5)

    assert sense_of(played[1:]) is None
    assert told(played).squeezes == LEAST


def test_a_foot_without_spread_is_told_exactly() -> None:
    sense = told(squeezes(40, gain=0.85, offset=6.0, miss=0.0))

    assert sense.gain is not None
    assert sense.offset is not None
    assert sense.gain.value == pytest.approx(0.85)
    assert sense.offset.value == pytest.approx(6.0)
    assert sense.fault is not None
    assert sense.fault.weight == 75
    assert sense.fault.error.value == pytest.approx(-5.25)


def test_heavy_is_pressed_too_light_and_light_too_heavy_by_a_foot_that_contracts() -> None:
    first, *_, last = told(squeezes(60, gain=0.6, offset=22.0)).errors

    assert first.is_fault
    assert last.is_fault
    assert first.error.value > 0 > last.error.value


@pytest.mark.parametrize("miss", [0.02, 0.05])
def test_a_true_foot_has_no_fault(miss: float) -> None:
    sense = told(squeezes(60, miss=miss))

    assert sense.fault is None
    assert sense.asked_more is None
    assert all(one.error.low <= 0 <= one.error.high for one in sense.errors)


def test_a_true_foot_is_told_so_only_where_the_interval_says_it() -> None:
    sure, unsure = told(squeezes(60, miss=0.03)), told(squeezes(30, miss=0.15))

    assert sure.is_right
    assert sure.furthest <= 5
    assert not unsure.is_right
    assert unsure.fault is None


def test_a_sure_but_small_error_is_no_fault() -> None:
    sense = told(squeezes(60, offset=2.0, miss=0.01))

    assert all(one.error.low > 0 for one in sense.errors)
    assert sense.fault is None
    assert sense.is_right


def test_the_largest_sure_error_is_told_on_its_side() -> None:
    sense = told(squeezes(60, gain=1.15, offset=-4.0, miss=0.02))

    assert sense.fault is not None
    assert sense.fault.error.value > 0
    assert sense.asked_more == sense.fault.weight == 75


def test_of_one_weight_asked_only_the_error_there_is_known() -> None:
    sense = told(squeezes(40, offset=5.0, weights=(60, 60)))

    assert sense.gain is None
    assert sense.offset is None
    [error] = sense.errors
    assert error.weight == 60
    assert sense.fault == error
    assert sense.asked_more is None


def test_only_the_newest_squeezes_count() -> None:
    old, new = squeezes(200, gain=0.5), squeezes(NEWEST, miss=0.03)
    later = [replace(one, day=one.day + timedelta(days=100)) for one in new]

    assert sense_of([*old, *later]) == sense_of(later)


def test_more_squeezes_must_be_surer() -> None:
    # Of a foot so uneven that its errors may be chance: a player has looked more often.
    few = told(squeezes(30, miss=0.16, seed=4))
    many = told([*squeezes(30, miss=0.16, seed=4), *squeezes(30, miss=0.16, seed=5)])

    def reach(sense: Sense) -> float:
        """Half of the interval at the middle weight, times the square root of the squeezes."""
        error = sense.errors[len(sense.errors) // 2].error
        return (error.high - error.low) * math.sqrt(sense.squeezes)

    assert reach(many) > 1.2 * reach(few)


def test_one_squeeze_at_the_edge_does_not_carry_the_weight_told() -> None:
    middle = squeezes(39, weights=(50, 65), miss=0.02)
    alone = Squeeze(DAY, 20.0, 30.0)

    sense = told([alone, *middle])

    assert sense.errors[0].weight == 50


def error_at(weight: float, value: float, half: float = 1.0) -> ErrorAt:
    """An error at a weight with the same room on both sides."""
    return ErrorAt(weight, Estimate(value, value - half, value + half))


def sense_with(*errors: ErrorAt) -> Sense:
    """A sense of these errors, of a foot whose gain is known."""
    return Sense(40, 5, Estimate(1.0, 0.9, 1.1), Estimate(0.0, -3.0, 3.0), errors)


@pytest.mark.parametrize(
    ("value", "half", "is_fault", "furthest"),
    [
        (3.0, 2.5, True, 5.5),
        (-3.0, 2.5, True, 5.5),
        (2.5, 1.0, False, 3.5),
        (-2.5, 1.0, False, 3.5),
        (4.0, 4.0, False, 8.0),
        (-4.0, 4.0, False, 8.0),
    ],
)
def test_an_error_of_three_points_is_a_fault_where_its_interval_leaves_out_none(
    value: float, half: float, is_fault: bool, furthest: float
) -> None:
    error = error_at(75, value, half)

    assert error.is_fault is is_fault
    assert error.furthest == furthest


def test_the_fault_is_looked_for_at_the_ends_and_the_middle_alone() -> None:
    quiet, light = error_at(25, 0.0), error_at(20, -4.0)
    middle, between, heavy = error_at(45, 5.0), error_at(60, 9.0), error_at(70, -6.0)

    assert sense_with(light, between, middle, between, heavy).fault == heavy
    assert sense_with(light, between, middle, between, quiet).fault == middle
    assert sense_with(light, between, quiet, between, quiet).fault == light
    assert sense_with(quiet, between, quiet, between, quiet).fault is None


@pytest.mark.parametrize(("high", "furthest", "is_right"), [(4.2, 5, True), (5.1, 6, False)])
def test_a_foot_is_right_where_it_is_within_five_points_everywhere(
    high: float, furthest: int, is_right: bool
) -> None:
    off = ErrorAt(50, Estimate(1.0, -1.0, high))
    sense = sense_with(error_at(20, 0.0), off, error_at(80, 0.0))

    assert sense.furthest == furthest
    assert sense.is_right is is_right
