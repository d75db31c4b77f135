"""The rest of all pedals, or the full of the brake, taken anew from calibrated samples."""

from collections.abc import Sequence

import pytest

from drills.calibration import Calibration, Range
from drills.trace import Pedal, Sample
from engine.pedals.moved_ends import End, MovedEnd
from engine.pedals.set_anew import FullAnew, RestAnew
from engine.pedals.trouble import Motion

OLD = Calibration(Range(-1.0, 0.5), Range(1.0, -1.0))
STEP = 2_000_000
THROTTLE_OFF = MovedEnd(Pedal.THROTTLE, End.REST, 6.0)


def fed(anew: RestAnew | FullAnew, places: Sequence[tuple[float, float]], seconds: float) -> None:
    """Feed brake and throttle in %, each place for some seconds."""
    each = round(seconds * 500)
    for number in range(each * len(places)):
        anew.feed(Sample(number * STEP, *places[number // each]))


def test_the_rest_of_every_pedal_is_taken_after_two_seconds() -> None:
    anew = RestAnew(OLD, THROTTLE_OFF)

    fed(anew, [(1.0, 6.0)], 1.9)
    early = anew.found
    fed(anew, [(1.0, 6.0)], 2.1)

    assert early is None
    assert anew.found is not None
    assert anew.found.brake.rest == pytest.approx(OLD.brake.raw(1.0), abs=1e-4)
    assert anew.found.throttle.rest == pytest.approx(OLD.throttle.raw(6.0), abs=1e-4)
    assert (anew.found.brake.full, anew.found.throttle.full) == (0.5, -1.0)


def test_a_pedal_that_is_pressed_is_named_and_nothing_is_taken() -> None:
    anew = RestAnew(OLD, THROTTLE_OFF)

    fed(anew, [(40.0, 6.0)], 5.0)

    assert (anew.found, anew.pressed) == (None, Pedal.BRAKE)


def test_a_rest_that_moved_past_a_quarter_can_be_taken_too() -> None:
    anew = RestAnew(OLD, MovedEnd(Pedal.BRAKE, End.REST, 28.0))

    fed(anew, [(28.0, 0.0)], 2.5)

    assert anew.found is not None
    assert anew.found.brake.rest == pytest.approx(OLD.brake.raw(28.0), abs=1e-4)


def test_a_pedal_in_motion_has_no_rest() -> None:
    anew = RestAnew(OLD, THROTTLE_OFF)

    fed(anew, [(brake, 6.0) for brake in (0.0, 10.0, 0.0, 10.0, 0.0)], 1.0)

    assert anew.found is None


@pytest.mark.parametrize("wide", [3.0, 4.5])
def test_the_rest_of_a_noisy_pedal_is_the_median_of_its_noise(wide: float) -> None:
    anew, longer = RestAnew(OLD, THROTTLE_OFF), RestAnew(OLD, THROTTLE_OFF)
    noise = [(0.0, 6.0 + step) for step in (-wide / 2, 0.0, 0.0, 0.0, wide / 2, 0.0)]

    fed(anew, noise * 125, 0.002)
    first = anew.restless, anew.found
    fed(longer, noise * 450, 0.002)

    assert first == (None, None)
    assert longer.found is not None
    assert longer.found.throttle.rest == pytest.approx(OLD.throttle.raw(6.0), abs=1e-4)


def test_a_pedal_that_does_not_come_to_rest_is_named_after_three_seconds() -> None:
    anew = RestAnew(OLD, THROTTLE_OFF)

    fed(anew, [(0.0, 2.0), (0.0, 12.0)] * 14, 0.1)
    early = anew.restless
    fed(anew, [(0.0, 2.0), (0.0, 12.0)] * 20, 0.1)

    assert early is None
    assert (anew.restless, anew.found) == (Pedal.THROTTLE, None)


def test_a_rest_that_leaves_too_little_travel_keeps_the_old_one() -> None:
    short = Calibration(Range(-1.0, -0.79), OLD.throttle)
    anew = RestAnew(short, MovedEnd(Pedal.BRAKE, End.REST, 20.0))

    fed(anew, [(20.0, 0.0)], 2.5)

    assert anew.found == short


def test_two_full_presses_that_agree_give_the_new_full() -> None:
    anew = FullAnew(OLD)

    fed(anew, [(0.0, 0.0), (118.0, 0.0), (0.0, 0.0), (122.0, 0.0)], 1.0)
    held = (anew.found, anew.motion)
    fed(anew, [(0.0, 0.0)], 1.0)

    assert held == (None, Motion.RELEASE)
    assert anew.found is not None
    assert anew.found.brake.full == pytest.approx(OLD.brake.raw(120.0), abs=1e-4)
    assert (anew.found.brake.rest, anew.found.throttle) == (-1.0, OLD.throttle)


def test_presses_that_differ_are_asked_for_until_two_in_a_row_agree() -> None:
    anew = FullAnew(OLD)

    fed(anew, [(0.0, 0.0), (80.0, 0.0), (0.0, 0.0), (120.0, 0.0), (0.0, 0.0)], 1.0)
    unlike = (anew.differ, anew.motion, anew.found)
    fed(anew, [(118.0, 0.0), (0.0, 0.0)], 1.0)

    assert unlike == (True, Motion.FULL, None)
    assert anew.found is not None
    assert anew.found.brake.full == pytest.approx(OLD.brake.raw(119.0), abs=1e-4)


def test_a_brake_that_is_pressed_as_it_begins_must_be_let_go_first() -> None:
    anew = FullAnew(OLD)

    fed(anew, [(110.0, 0.0)], 3.0)

    assert (anew.motion, anew.presses) == (Motion.RELEASE, [])


def test_a_full_beyond_the_end_of_the_axis_is_the_end_of_the_axis() -> None:
    anew = FullAnew(Calibration(Range(-1.0, 0.9), OLD.throttle))

    fed(anew, [(0.0, 0.0), (108.0, 0.0), (0.0, 0.0), (108.0, 0.0), (0.0, 0.0)], 1.0)

    assert anew.found is not None
    assert anew.found.brake.full == 1.0
