"""Troubles of the search: each is reported within five seconds, and none is final."""

import math

import pytest

from engine.pedals.identity import Axis
from engine.pedals.trouble import Motion, Trouble
from tests.engine.pedals.feet import Rig
from tests.engine.pedals.searching import BRAKE, THROTTLE, WHEEL, about, at_full, ends, rig

SOON = 5.0  # s, in which everything must be told


def test_the_player_is_told_when_nothing_moves() -> None:
    one = rig()

    one.stay(3.8)
    before = one.said
    one.stay(SOON - 3.8)

    assert (before, one.said) == ((Motion.FIND, None), (Motion.FIND, Trouble.NOTHING))
    assert one.finder.about is None


def test_noise_does_not_count_as_movement() -> None:
    one = Rig({BRAKE: -1.0, THROTTLE: -1.0}, noise={BRAKE: 0.09})
    one.noise[BRAKE] = lambda time: 0.09 * math.sin(97 * time)

    one.stay(SOON)

    assert one.said == (Motion.FIND, Trouble.NOTHING)


def test_an_axis_that_moves_too_little_is_named() -> None:
    one = rig()

    one.move(BRAKE, -0.85, then=SOON)

    assert one.said == (Motion.FIND, Trouble.TINY)
    assert one.finder.about == BRAKE


@pytest.mark.parametrize(
    ("axis", "to", "then", "motion"),
    [
        (BRAKE, -0.79, 1.1, Motion.RELEASE),
        (BRAKE, -0.79, 0.9, Motion.FIND),
        (BRAKE, -0.81, 4.0, Motion.FIND),
        (WHEEL, 0.4, 4.0, Motion.FIND),
    ],
    ids=["kept", "brushed", "too little", "from the middle"],
)
def test_a_pedal_of_little_travel_is_found_when_it_is_held_down(
    axis: Axis, to: float, then: float, motion: Motion
) -> None:
    one = rig()

    one.move(axis, to, then)

    assert one.finder.motion is motion


def test_a_soft_pedal_is_set_up_to_its_end() -> None:
    one = rig()

    for to in (-0.7, -1.0, -0.7, -1.0):
        one.move(BRAKE, to, then=1.2)

    assert ends(one) == (BRAKE, -1.0, about(-0.7))


def test_a_pedal_that_ends_up_with_too_little_travel_for_a_scale_is_named() -> None:
    one = rig()

    for to, then in ((-0.7, 1.2), (-1.0, 1.0), (-0.81, 3.2), (-1.0, 1.0)):
        one.move(BRAKE, to, then)

    assert one.said == (Motion.FIND, Trouble.TINY)
    assert one.finder.about == BRAKE


def test_an_axis_that_keeps_moving_is_left_out_until_it_rests() -> None:
    one = Rig({BRAKE: -1.0})
    one.values[WHEEL] = -0.5
    one.noise[WHEEL] = lambda time: 0.4 * math.sin(97 * time)
    one.stay(3.0)
    floating = one.said

    del one.noise[WHEEL]
    one.stay(1.1)
    one.move(WHEEL, 0.5)

    assert floating == (Motion.FIND, None)
    assert (one.finder.motion, one.finder.axis) == (Motion.RELEASE, WHEEL)


@pytest.mark.parametrize(
    ("to", "trouble", "share"), [(0.5, Trouble.WEAK, 75), (0.1, Trouble.TOO_WEAK, 55)]
)
def test_a_full_press_weaker_than_the_first_is_reported_with_its_share(
    to: float, trouble: Trouble, share: int
) -> None:
    one = at_full(to)

    assert one.said == (Motion.FULL, trouble)
    assert round(100 * one.finder.share) == share


def test_half_a_second_at_six_tenths_is_not_full() -> None:
    one = at_full(0.2)

    one.move(BRAKE, 1.0)
    one.move(BRAKE, -1.0)

    assert ends(one) == (BRAKE, -1.0, about(1.0))


def test_a_held_press_far_too_weak_starts_the_search_over() -> None:
    one = at_full(0.0)

    one.stay(8.0)
    begun = one.said
    one.move(BRAKE, -1.0)
    one.press(BRAKE, -1.0, 0.0)

    assert begun == (Motion.FIND, Trouble.TOO_WEAK)


def test_a_leg_that_trembles_on_a_stiff_pedal_counts_as_still() -> None:
    one = at_full()
    one.noise[BRAKE] = lambda time: 0.07 * math.sin(37 * time)

    one.move(BRAKE, 0.9)

    assert one.finder.motion is Motion.AGAIN


def test_a_pedal_that_does_not_come_to_rest_is_reported_and_then_read_with_more_tolerance() -> None:
    one = rig()
    one.noise[BRAKE] = lambda time: 0.04 * math.sin(97 * time)

    one.move(BRAKE, 1.0)
    one.move(BRAKE, -1.0, then=2.0)
    waits = one.said
    one.stay(0.4)
    told = one.said
    one.stay(1.0)

    assert waits == (Motion.RELEASE, None)
    assert told == (Motion.RELEASE, Trouble.UNSTEADY)
    assert one.finder.motion is Motion.FULL


def test_the_noise_that_was_measured_does_not_keep_a_pedal_from_being_read() -> None:
    one = Rig({BRAKE: -0.9}, noise={BRAKE: 0.07})
    one.noise[BRAKE] = lambda time: 0.035 * math.sin(97 * time)

    one.press(BRAKE, -0.9, 0.9)

    assert one.finder.found is not None


def test_a_pedal_that_sticks_at_seven_percent_is_reported_and_then_accepted() -> None:
    one = at_full(1.0)

    one.move(BRAKE, -0.86, then=2.0)
    told = (one.said, round(100 * one.finder.share))
    one.stay(1.2)

    assert told == ((Motion.AGAIN, Trouble.RETURNS), 7)
    assert ends(one) == (BRAKE, about(-0.86), about(1.0))


@pytest.mark.parametrize(
    ("course", "place", "wanted"),
    [
        ((), 0.0, (1.0, 1.0)),
        ((-0.9,), 0.2, (1.0, 1.0)),
        ((1.0,), 1.0, (0.0, 0.25)),
        ((1.0, 0.0), 0.5, (0.0, 0.25)),
        ((1.0, -1.0, 0.0), 0.5, (0.9, 1.0)),
        ((1.0, -1.0, 1.0, -0.8), 0.1, (0.0, 0.04)),
    ],
)
def test_the_position_and_its_zone_are_given_at_every_step(
    course: tuple[float, ...], place: float, wanted: tuple[float, float]
) -> None:
    one = rig()

    for to in course:
        one.move(BRAKE, to)

    position = one.finder.position
    assert position.place == pytest.approx(place)
    assert (position.low, position.high) == pytest.approx(wanted)
