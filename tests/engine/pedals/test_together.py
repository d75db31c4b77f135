"""Foot gestures with uncalibrated pedals: opening the menu and choosing in it."""

from collections.abc import Mapping

import pytest

from drills.calibration import Range
from engine.pedals.gestures import Gesture
from engine.pedals.identity import Axis
from engine.pedals.together import Presses, TapOrStay, Together
from tests.engine.pedals.feet import Feet

BRAKE = Axis(device=3, axis=1)
THROTTLE = Axis(device=3, axis=2)
CLUTCH = Axis(device=9, axis=0)
LOOK = 0.004
AT_REST = {BRAKE: -1.0, THROTTLE: 1.0, CLUTCH: 0.02}


class Heard(Feet):
    """Feet on axes at rest, with the gestures that a search and its menu detect."""

    def __init__(self, known: dict[Axis, Range] | None = None) -> None:
        super().__init__(AT_REST)
        self.presses = Presses(known)
        self.presses.rest(AT_REST, tuple(AT_REST))
        self.together = Together()
        self.chosen = TapOrStay()
        self.asked = False
        self.said: list[Gesture] = []
        self.fed.append(self)

    def feed(self, time: int, values: Mapping[Axis, float]) -> None:
        """Record the gestures."""
        shares = self.presses.shares(values)
        self.asked = self.asked or self.together.feed(time, shares)
        gesture = self.chosen.feed(time, shares)
        self.said += [] if gesture is None else [gesture]


def test_two_pedals_held_past_half_for_a_second_open_the_menu() -> None:
    heard = Heard()
    heard.move(BRAKE, 1.0)
    heard.move(THROTTLE, -0.8, then=0.88)

    before = heard.asked
    heard.stay(0.12)

    assert (before, heard.asked) == (False, True)


@pytest.mark.parametrize("axis", [THROTTLE, CLUTCH])
def test_a_single_pedal_does_not_open_the_menu(axis: Axis) -> None:
    heard = Heard()

    heard.move(axis, -0.9, then=5.0)

    assert not heard.asked


def test_a_pedal_at_less_than_half_of_its_farthest_press_does_not_open_the_menu() -> None:
    heard = Heard()
    heard.move(BRAKE, 1.0)

    heard.move(BRAKE, -0.1)
    heard.move(THROTTLE, -1.0, then=5.0)

    assert not heard.asked


def test_two_axes_of_one_device_that_pass_half_at_once_are_one_pedal() -> None:
    heard = Heard()

    heard.values[BRAKE] = 1.0
    heard.jump(THROTTLE, -1.0, then=5.0)

    assert not heard.asked


def test_two_axes_of_two_devices_may_pass_half_at_once() -> None:
    heard = Heard()

    heard.values[CLUTCH] = 1.0
    heard.jump(BRAKE, 1.0, then=1.1)

    assert heard.asked


def test_a_calibrated_pedal_is_measured_by_its_ends() -> None:
    heard = Heard({BRAKE: Range(-1.0, -0.6)})

    heard.move(BRAKE, -0.75)
    heard.move(THROTTLE, -1.0, then=1.1)

    assert heard.asked


def test_a_pedal_that_has_not_reported_yet_is_not_pressed() -> None:
    presses = Presses({BRAKE: Range(-1.0, 1.0)})
    presses.rest({BRAKE: 0.0}, [BRAKE])

    shares = [presses.shares({BRAKE: value})[BRAKE] for value in (0.0, 0.5, 0.0)]

    assert shares == [0.0, 0.75, 0.5]


def test_the_farthest_press_is_remembered_when_the_feet_are_off_again() -> None:
    heard = Heard()
    heard.move(BRAKE, 1.0)
    heard.move(BRAKE, -1.0)
    heard.presses.rest(heard.values, tuple(AT_REST))

    heard.move(BRAKE, -0.2)
    shares = heard.presses.shares(heard.values)

    assert shares[BRAKE] == pytest.approx(0.4)


def test_an_axis_that_does_not_rest_is_not_followed() -> None:
    heard = Heard()

    heard.presses.rest(heard.values, [BRAKE])

    assert heard.presses.shares(heard.values).keys() == {BRAKE}


@pytest.mark.parametrize("axis", [BRAKE, THROTTLE])
def test_a_tap_of_any_pedal_selects_the_next_choice_and_a_hold_chooses(axis: Axis) -> None:
    heard = Heard()
    rest = AT_REST[axis]
    heard.stay(0.5)

    heard.move(axis, -rest, then=0.3)
    heard.move(axis, rest, then=0.1)
    tapped = list(heard.said)
    heard.move(axis, -rest, then=2.0)

    assert tapped == [Gesture.NEXT]
    assert heard.said == [Gesture.NEXT, Gesture.GO]


def test_a_press_too_long_for_a_tap_and_too_short_for_a_hold_does_nothing() -> None:
    heard = Heard()
    heard.stay(0.5)

    heard.move(BRAKE, 1.0, then=0.65)
    heard.move(BRAKE, -1.0)

    assert heard.said == []


def test_gestures_count_only_after_all_pedals_were_released_for_a_moment() -> None:
    heard = Heard()
    heard.move(BRAKE, 1.0, then=0.3)
    heard.move(THROTTLE, -1.0, then=1.0)
    heard.move(BRAKE, -1.0, then=1.0)
    heard.move(THROTTLE, 1.0, then=0.2)

    heard.move(THROTTLE, -1.0, then=2.0)
    early = list(heard.said)
    heard.move(THROTTLE, 1.0, then=0.5)
    heard.move(THROTTLE, -1.0, then=2.0)

    assert (early, heard.said) == ([], [Gesture.GO])


def test_a_wheel_that_stays_turned_does_not_block_gestures() -> None:
    heard = Heard()
    heard.move(CLUTCH, 0.9, then=3.5)

    heard.move(BRAKE, 1.0, then=1.0)
    heard.move(BRAKE, -1.0)
    heard.move(CLUTCH, 0.02)
    heard.move(CLUTCH, 0.9, then=1.0)

    assert heard.said == [Gesture.GO, Gesture.GO]


def test_progress_grows_while_a_pedal_is_held() -> None:
    heard = Heard()
    heard.stay(0.5)
    seen = [heard.chosen.progress]

    heard.jump(BRAKE, 1.0, then=0.4 + LOOK)
    seen.append(heard.chosen.progress)
    heard.move(BRAKE, -1.0)
    seen.append(heard.chosen.progress)

    assert seen == [0.0, pytest.approx(0.5), 0.0]
