"""Confirming with any pedal, before pedals are bound."""

import pytest

from engine.pedals.gestures import AnyPedal, Gesture
from engine.pedals.identity import Axis

PEDAL = Axis(0, 0)
SECOND_PEDAL = Axis(1, 2)


def test_any_pedal_confirms_once_for_each_press() -> None:
    pedals = AnyPedal()

    gestures = [pedals.feed({PEDAL: raw}) for raw in (-1.0, 1.0, -1.0, -1.0, 1.0, -1.0, -1.0)]

    go = Gesture.GO
    assert gestures == [None, None, go, None, None, go, None]


def test_after_a_pressed_pedal_is_unplugged_others_still_confirm() -> None:
    pedals, other = AnyPedal(), Axis(9, 0)
    both = [{PEDAL: raw, other: -1.0} for raw in (-1.0, 1.0)]

    gone = [pedals.feed(values) for values in (*both, {other: -1.0})]
    heard = [pedals.feed({other: raw}) for raw in (1.0, -1.0)]

    assert gone == [None] * 3
    assert heard == [None, Gesture.GO]


@pytest.mark.parametrize(("to", "gesture"), [(-0.5, Gesture.GO), (-0.501, None)])
def test_an_axis_must_move_half_a_unit_to_confirm(to: float, gesture: Gesture | None) -> None:
    pedals = AnyPedal()

    gestures = [pedals.feed({PEDAL: raw}) for raw in (-1.0, to, -1.0)]

    assert gestures == [None, None, gesture]


@pytest.mark.parametrize(("rest", "full"), [(-1.0, 1.0), (1.0, -1.0), (0.0, 1.0), (0.0, -1.0)])
def test_any_pedal_pressed_and_released_confirms(rest: float, full: float) -> None:
    pedals = AnyPedal()
    started = rest + 0.1 * (full - rest)

    said = [
        pedals.feed({PEDAL: -1.0, SECOND_PEDAL: raw}) for raw in (rest, started, full, full, rest)
    ]

    assert said == [None, None, None, None, Gesture.GO]


def test_a_half_axis_that_first_reports_late_in_the_press_confirms_on_release() -> None:
    pedals = AnyPedal()

    said = [pedals.feed({PEDAL: raw}) for raw in (0.0, 0.4, 1.0, 0.0, 0.0)]

    assert Gesture.GO in said


def test_a_pedal_that_is_silent_until_moved_confirms_on_release() -> None:
    pedals = AnyPedal()

    said = [pedals.feed({PEDAL: raw}) for raw in (0.0, 0.0, -0.95, 0.9, 0.1, -1.0)]

    assert said == [None, None, None, None, None, Gesture.GO]


def test_a_pedal_that_hardly_moves_does_not_confirm() -> None:
    pedals = AnyPedal()

    said = [pedals.feed({PEDAL: raw}) for raw in (-1.0, -0.6, -1.0, -0.55, -1.0)]

    assert said == [None] * 5


def test_a_pedal_that_moves_while_another_is_pressed_does_not_end_the_press() -> None:
    pedals = AnyPedal()
    course = [(-1.0, 0.0), (1.0, 0.0), (1.0, 0.3), (1.0, 0.0), (-1.0, 0.0)]

    said = [pedals.feed({PEDAL: one, SECOND_PEDAL: other}) for one, other in course]

    assert said == [None, None, None, None, Gesture.GO]
