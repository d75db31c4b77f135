"""Detection of feet off all pedals, and of bound pedals that contradict it."""

import math

import pytest

from drills.calibration import Range
from engine.pedals.at_rest import AtRest
from engine.pedals.identity import Axis
from tests.engine.pedals.feet import Feet

BRAKE = Axis(device=3, axis=1)
THROTTLE = Axis(device=3, axis=2)
WHEEL = Axis(device=9, axis=0)
KNOWN = {BRAKE: Range(-1.0, 1.0), THROTTLE: Range(1.0, -1.0)}
LOOK = 0.004


def looked_at(at_rest: AtRest, **places: float) -> Feet:
    """Values of all axes at rest, except for those given."""
    axes = {BRAKE: -1.0, THROTTLE: 1.0, WHEEL: 0.0}
    names = {"brake": BRAKE, "throttle": THROTTLE, "wheel": WHEEL}
    feet = Feet(axes | {names[name]: place for name, place in places.items()})
    feet.fed.append(at_rest)
    return feet


def says(at_rest: AtRest) -> tuple[bool, Axis | None, bool]:
    """All properties of the detector."""
    return at_rest.rested, at_rest.pressed, at_rest.contradicts


QUIET = (False, None, False)
RESTED = (True, None, False)


@pytest.mark.parametrize("known", [{}, KNOWN])
def test_the_feet_are_off_after_a_second_without_movement(known: dict[Axis, Range]) -> None:
    at_rest = AtRest(known)
    feet = looked_at(at_rest)

    unseen = says(at_rest)
    feet.stay(1.0)
    before = says(at_rest)
    feet.stay(LOOK)
    after = says(at_rest)
    feet.stay(20.0)

    assert (unseen, before, after, says(at_rest)) == (QUIET, QUIET, RESTED, RESTED)


def test_a_bound_pedal_that_stays_pressed_is_named_after_3_s_and_contradicts_after_6() -> None:
    at_rest = AtRest(KNOWN)
    feet = looked_at(at_rest, brake=0.9)
    seen = []

    feet.stay(3.0)
    for wait in (LOOK, 3.0 - LOOK, LOOK):
        seen.append(says(at_rest))
        feet.stay(wait)
    seen.append(says(at_rest))

    assert seen == [QUIET, (False, BRAKE, False), (False, BRAKE, False), (False, BRAKE, True)]


@pytest.mark.parametrize(
    ("places", "pressed"),
    [
        ({"brake": -0.5}, BRAKE),
        ({"brake": -0.51}, None),
        ({"throttle": 0.5}, THROTTLE),
        ({"throttle": 0.51}, None),
        ({"throttle": -1.0, "brake": 1.0}, BRAKE),
        ({"wheel": 1.0}, None),
    ],
)
def test_a_bound_pedal_counts_as_pressed_from_a_quarter_of_its_range(
    places: dict[str, float], pressed: Axis | None
) -> None:
    at_rest = AtRest(KNOWN)
    feet = looked_at(at_rest, **places)

    feet.stay(7.0)

    assert says(at_rest) == (pressed is None, pressed, pressed is not None)


@pytest.mark.parametrize(("far", "answer"), [(0.1, RESTED), (0.101, QUIET)])
def test_a_movement_of_up_to_a_tenth_of_a_unit_counts_as_rest(
    far: float, answer: tuple[bool, Axis | None, bool]
) -> None:
    at_rest = AtRest(KNOWN)
    feet = looked_at(at_rest)
    feet.noise[WHEEL] = lambda time: far if round(time * 250) % 2 else 0.0

    feet.stay(5.9)

    assert says(at_rest) == answer


def test_an_axis_that_creeps_is_not_at_rest() -> None:
    at_rest = AtRest(KNOWN)
    feet = looked_at(at_rest, wheel=-1.0)

    feet.move(WHEEL, 1.0, then=0.0, took=5.9)

    assert says(at_rest) == QUIET


def test_a_pedal_that_is_let_go_after_all_is_at_rest_a_second_later() -> None:
    at_rest = AtRest(KNOWN)
    feet = looked_at(at_rest, brake=0.9)
    feet.stay(7.0)
    pressed = says(at_rest)

    feet.move(BRAKE, -1.0, then=0.5)
    soon = says(at_rest)
    feet.stay(0.6)

    assert (pressed, soon, says(at_rest)) == ((False, BRAKE, True), QUIET, RESTED)


def test_the_time_starts_over_when_a_device_comes_or_goes() -> None:
    at_rest = AtRest(KNOWN)
    feet = looked_at(at_rest)
    feet.stay(0.9)

    del feet.values[WHEEL]
    feet.stay(0.9)
    without = says(at_rest)
    feet.values[WHEEL] = 0.0
    feet.stay(0.9)
    back = says(at_rest)
    feet.stay(0.2)

    assert (without, back, says(at_rest)) == (QUIET, QUIET, RESTED)


def test_an_unplugged_bound_pedal_is_ignored() -> None:
    at_rest = AtRest(KNOWN)
    feet = looked_at(at_rest, brake=0.9)

    del feet.values[BRAKE]
    feet.stay(7.0)

    assert says(at_rest) == RESTED


def test_without_any_device_nothing_is_at_rest() -> None:
    at_rest = AtRest({})
    feet = Feet({})
    feet.fed.append(at_rest)

    feet.stay(10.0)

    assert says(at_rest) == QUIET


def test_a_pressed_pedal_that_trembles_still_counts_as_pressed() -> None:
    at_rest = AtRest(KNOWN)
    feet = looked_at(at_rest, brake=0.5)
    feet.noise[BRAKE] = lambda time: 0.04 * math.sin(97 * time)

    feet.stay(7.0)

    assert says(at_rest) == (False, BRAKE, True)


def tremble(feet: Feet, axis: Axis, by: float) -> None:
    """Move an axis by so much between every two readings."""
    feet.noise[axis] = lambda time: by if round(time * 250) % 2 else 0.0


def test_an_axis_that_keeps_moving_is_named_after_3_s_and_left_out_after_6() -> None:
    at_rest = AtRest({})
    feet = looked_at(at_rest)
    tremble(feet, WHEEL, 0.4)
    seen = []

    feet.stay(3.0)
    for wait in (LOOK, 3.0 - LOOK, LOOK):
        seen.append((at_rest.moving, at_rest.left_out, at_rest.rested))
        feet.stay(wait)
    seen.append((at_rest.moving, at_rest.left_out, at_rest.rested))

    assert seen == [
        (None, frozenset(), False),
        (WHEEL, frozenset(), False),
        (WHEEL, frozenset(), False),
        (WHEEL, {WHEEL}, True),
    ]


def test_an_axis_that_stops_at_last_is_waited_for_again() -> None:
    at_rest = AtRest({})
    feet = looked_at(at_rest)
    tremble(feet, WHEEL, 0.4)
    feet.stay(7.0)

    del feet.noise[WHEEL]
    feet.stay(1.1)

    assert (at_rest.moving, at_rest.left_out, at_rest.rested) == (None, frozenset(), True)
    assert WHEEL in at_rest.noise


def test_the_noise_of_an_axis_is_its_range_at_rest() -> None:
    at_rest = AtRest({})
    feet = looked_at(at_rest)
    tremble(feet, BRAKE, 0.03)
    tremble(feet, WHEEL, 0.4)

    feet.stay(7.0)

    assert at_rest.noise == {BRAKE: pytest.approx(0.03), THROTTLE: 0.0}


def test_a_turned_wheel_does_not_hide_a_pressed_bound_pedal() -> None:
    at_rest = AtRest(KNOWN)
    feet = looked_at(at_rest, brake=0.9)
    tremble(feet, WHEEL, 0.4)

    feet.stay(7.0)

    assert says(at_rest) == (False, BRAKE, True)


def test_a_bound_pedal_that_has_not_reported_yet_is_not_pressed() -> None:
    at_rest = AtRest(KNOWN)
    feet = looked_at(at_rest, brake=0.0)

    feet.stay(7.0)
    silent = says(at_rest)
    feet.jump(BRAKE, 0.1, then=0.1)
    feet.jump(BRAKE, 0.0, then=7.0)

    assert (silent, says(at_rest)) == (RESTED, (False, BRAKE, True))
