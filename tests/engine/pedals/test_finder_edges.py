"""The limits of the finder, each tested right at the limit."""

import pytest

from drills.calibration import Range
from engine.pedals.identity import Axis
from engine.pedals.travel import Travel
from engine.pedals.trouble import Motion, Trouble
from tests.engine.pedals.feet import Rig

BRAKE = Axis(device=3, axis=1)

LOOK = 0.004
"""s from one look of the rig to the next; an axis is still since the first look that saw it so."""


def moved(*places: float, opening: float = -1.0) -> Rig:
    """Rig whose brake was held at each of these places for 0.6 s."""
    rig = Rig({BRAKE: opening})
    for place in places:
        rig.jump(BRAKE, place, then=0.6)
    return rig


@pytest.mark.parametrize(("to", "motion"), [(-0.5, Motion.RELEASE), (-0.501, Motion.FIND)])
def test_a_movement_of_half_a_unit_identifies_a_pedal(to: float, motion: Motion) -> None:
    rig = moved(to)

    assert rig.finder.motion is motion


@pytest.mark.parametrize(("far", "motion"), [(0.04, Motion.FULL), (0.0401, Motion.RELEASE)])
def test_an_axis_within_four_hundredths_is_still(far: float, motion: Motion) -> None:
    rig = moved(1.0, opening=0.0)

    for _ in range(200):
        rig.jump(BRAKE, 0.0, then=LOOK)
        rig.jump(BRAKE, far, then=LOOK)

    assert rig.finder.motion is motion


def test_an_axis_that_swings_to_both_sides_is_not_still() -> None:
    rig = moved(1.0, opening=0.0)
    rig.jump(BRAKE, 0.0, then=LOOK)

    for _ in range(200):
        rig.jump(BRAKE, 0.03, then=LOOK)
        rig.jump(BRAKE, -0.03, then=LOOK)

    assert rig.finder.motion is Motion.RELEASE


def test_an_axis_that_creeps_is_not_still_though_each_step_is_small() -> None:
    rig = moved(1.0)

    for step in range(200):
        rig.jump(BRAKE, -1.0 + 0.002 * step, then=2 * LOOK)

    assert rig.finder.motion is Motion.RELEASE


def test_an_end_is_read_after_half_a_second_of_stillness() -> None:
    rig = moved(1.0)

    rig.jump(BRAKE, -1.0, then=0.5)
    before = rig.finder.motion
    rig.stay(LOOK)

    assert (before, rig.finder.motion) == (Motion.RELEASE, Motion.FULL)


@pytest.mark.parametrize(("to", "motion"), [(-0.5, Motion.FULL), (-0.499, Motion.RELEASE)])
def test_within_a_quarter_of_its_travel_a_pedal_counts_as_released(
    to: float, motion: Motion
) -> None:
    rig = moved(1.0, to)

    assert rig.finder.motion is motion


@pytest.mark.parametrize(
    ("to", "then", "motion"),
    [
        (-0.92, 0.6, Motion.FOUND),
        (-0.919, 0.6, Motion.AGAIN),
        (-0.5, 3.1, Motion.FOUND),
        (-0.499, 3.1, Motion.AGAIN),
    ],
)
def test_within_a_twenty_fifth_of_its_range_it_is_back_at_once_and_within_a_quarter_in_a_while(
    to: float, then: float, motion: Motion
) -> None:
    rig = moved(1.0, -1.0, 1.0)

    rig.jump(BRAKE, to, then)

    assert rig.finder.motion is motion


@pytest.mark.parametrize(
    ("to", "then", "motion"),
    [
        (0.8, 0.6, Motion.AGAIN),
        (0.799, 0.6, Motion.FULL),
        (0.799, 2.9, Motion.FULL),
        (0.2, 3.1, Motion.AGAIN),
        (0.199, 3.1, Motion.FULL),
    ],
)
def test_a_full_press_reaches_nine_tenths_of_the_first_or_six_for_three_seconds(
    to: float, then: float, motion: Motion
) -> None:
    rig = moved(1.0, -1.0)

    rig.jump(BRAKE, to, then)

    assert rig.finder.motion is motion


def test_a_full_press_the_other_way_than_the_first_is_no_pedal() -> None:
    rig = moved(1.0, 0.0, opening=0.0)

    rig.jump(BRAKE, -1.0)

    assert rig.said == (Motion.FIND, Trouble.THROUGH)


@pytest.mark.parametrize(("to", "motion"), [(0.002, Motion.FULL), (0.00201, Motion.RELEASE)])
def test_a_silent_axis_that_first_reports_its_far_end_is_released_at_zero(
    to: float, motion: Motion
) -> None:
    rig = moved(1.0, 0.4, to, opening=0.0)

    assert rig.finder.motion is motion


@pytest.mark.parametrize(("to", "trouble"), [(-0.25, Trouble.TAKEN), (-0.26, Trouble.SHARED)])
def test_a_quarter_of_its_range_past_its_rest_a_bound_axis_is_shared(
    to: float, trouble: Trouble
) -> None:
    rig = Rig({BRAKE: 0.3}, taken={BRAKE: Range(0.0, 1.0)})

    rig.jump(BRAKE, to)

    assert rig.finder.trouble is trouble


@pytest.mark.parametrize(
    ("places", "way"),
    [((0.1, 0.6), 1), ((0.1, -0.4), -1), ((0.3, -0.1, 0.4), 1), ((-0.3, 0.1, -0.4), -1)],
)
def test_the_direction_of_a_pedal_is_that_of_its_first_large_movement(
    places: tuple[float, ...], way: int
) -> None:
    travel = Travel(0.05)

    for place in (*places, -way * 2.0):
        travel.take(place)

    assert travel.way == way


@pytest.mark.parametrize(("opening", "start"), [(0.0, 0.3), (0.1, 0.1), (-1.0, -1.0)])
def test_an_axis_that_opens_at_zero_starts_where_it_first_moved_to(
    opening: float, start: float
) -> None:
    travel = Travel(opening)

    for value in (opening, 0.3, 0.5):
        travel.take(value)

    assert (travel.start, travel.low, travel.high) == (start, start, 0.5)
