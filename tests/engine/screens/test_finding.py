"""The screens of setting up the pedals: what they end with, whatever the feet and plugs do."""

import pytest

from drills.trace import Pedal
from engine.pedals.calibration import Range
from engine.pedals.identity import Axis
from engine.screens.finding import FeetOff, FindPedal, Found, Gone
from engine.stage.actions import Action
from tests.engine.screens.pictures import AXIS, feet_off, finding

WHOLE = Range(-1.0, 1.0)


def test_finding_a_pedal_goes_from_press_to_found() -> None:
    screen = finding(Pedal.BRAKE, (-1.0, 1.0, -1.0, 1.0, -1.0))

    assert screen.outcome == Found(AXIS, WHOLE)


def test_feet_off_is_the_end_of_waiting_for_it() -> None:
    assert feet_off((-1.0,)).outcome is True


def test_pedals_that_keep_moving_are_waited_for() -> None:
    values = iter([{AXIS: 0.3 * (number % 2)} for number in range(50)])
    screen = FeetOff(lambda: next(values), {}, "Set up the brake")

    for number in range(50):
        screen.on_sample(None, number * 100_000_000)

    assert screen.outcome is None


def test_a_pedal_that_reads_as_pressed_with_the_feet_off_begins_everything_again() -> None:
    screen = feet_off((1.0, 1.0, 1.0, 1.0), known=WHOLE)

    assert screen.outcome is Gone.PRESSED


@pytest.mark.parametrize("screen", [feet_off(()), finding(Pedal.BRAKE, ())], ids=["rest", "find"])
def test_going_back_ends_the_search(screen: FeetOff | FindPedal) -> None:
    screen.on_action(Action.BACK)

    assert screen.outcome is Gone.BACK


@pytest.mark.parametrize(("pedal", "outcome"), [("brake", None), ("clutch", Gone.SKIPPED)])
def test_only_a_pedal_that_need_not_be_there_can_be_left_out(
    pedal: str, outcome: Gone | None
) -> None:
    screen = finding(Pedal(pedal), (-1.0,))

    screen.on_action(Action.GO)

    assert screen.outcome is outcome


def test_pressing_the_brake_leaves_the_clutch_out() -> None:
    screen = finding(Pedal.CLUTCH, (-1.0, 1.0), taken=WHOLE)

    assert screen.outcome is Gone.SKIPPED


@pytest.mark.parametrize("there", [{}, {Axis(7, 0): -1.0}], ids=["unplugged", "plugged anew"])
def test_a_pedal_found_before_that_is_plugged_out_begins_everything_again(
    there: dict[Axis, float],
) -> None:
    known = {Pedal.BRAKE: Found(AXIS, WHOLE)}
    resting = FeetOff(lambda: there, known, "Set up the throttle")
    looking = FindPedal(Pedal.THROTTLE, lambda: there, known, optional=False)

    resting.on_sample(None, 1)
    looking.on_sample(None, 1)

    assert (resting.outcome, looking.outcome) == (Gone.LOST, Gone.LOST)


def test_pressing_the_brake_leaves_no_throttle_out() -> None:
    screen = finding(Pedal.THROTTLE, (-1.0, 1.0), taken=WHOLE)

    assert screen.outcome is None
