"""Screens that search for pedals: their outcomes, whatever feet and devices do."""

from typing import Any

import pygame
import pytest

from drills.calibration import Range
from drills.trace import Pedal
from engine.kit.base import Screen
from engine.kit.canvas import Fonts
from engine.pedals.finder import Found
from engine.pedals.identity import Axis
from engine.setup.finding_screens import FeetOff, FindPedal, Rested, Retry
from engine.setup.search import SearchEnd
from engine.setup.words import TWO_PEDALS
from engine.stage.actions import Action
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.setup.pictures import (
    AXIS,
    SECOND_AXIS,
    WHEEL,
    WHOLE,
    fed,
    feet_off,
    finding,
    search,
)


def texts_of(screen: Screen[Any], size: tuple[int, int] = (1280, 720)) -> list[str]:
    """Texts on a screen."""
    return [text.text for text in drawn(screen, size).texts]


def drawn(screen: Screen[Any], size: tuple[int, int]) -> RecordingCanvas:
    """Canvas with a drawn screen."""
    pygame.font.init()
    canvas = RecordingCanvas(size, Fonts())
    screen.paint(canvas, 0.0)
    return canvas


def test_finding_a_pedal_goes_from_press_to_found() -> None:
    screen = finding(Pedal.BRAKE, (-1.0, 1.0, -1.0, 1.0, -1.0))

    assert screen.outcome == Found(AXIS, WHOLE)


def test_feet_off_ends_once_the_feet_are_off() -> None:
    assert feet_off((-1.0,)).outcome == Rested()


def test_feet_off_stores_the_noise_and_leaves_out_axes_that_keep_moving() -> None:
    values = {AXIS: 0.0, WHEEL: 0.0}
    state = search(values)
    screen = FeetOff(state, "Set up the brake")

    for number in range(70):
        values.update({AXIS: 0.01 * (number % 2), WHEEL: 0.3 * (number % 2)})
        if screen.outcome is None:
            screen.on_sample(None, number * 100_000_000)

    assert screen.outcome == Rested()
    assert (state.noise, state.left_out) == ({AXIS: 0.01}, [WHEEL])


@pytest.mark.parametrize(
    ("place", "fixed", "rest"),
    [
        (-0.9, frozenset(), -0.9),
        (-0.9, frozenset({Pedal.BRAKE}), -0.8),
        (-0.85, frozenset(), -0.8),
        (-0.7, frozenset(), -0.8),
    ],
    ids=["farther out", "to stay as it is", "hardly", "farther in"],
)
def test_a_pedal_that_rests_farther_out_than_when_it_was_released_gets_that_rest(
    place: float, fixed: frozenset[Pedal], rest: float
) -> None:
    state = search({AXIS: place}, Range(-0.8, 1.0))
    state.fixed = fixed
    screen = FeetOff(state, "Set up the throttle")

    fed(screen, {}, [{}], seconds=1.2)

    assert screen.outcome == Rested()
    assert state.found[Pedal.BRAKE].range == Range(rest, 1.0)


def test_a_pedal_that_reads_as_pressed_with_the_feet_off_restarts_the_search() -> None:
    screen = feet_off((1.0, 1.0, 1.0, 1.0), found_range=WHOLE)

    assert screen.outcome is SearchEnd.PRESSED


def resting() -> FeetOff:
    """A screen that waits for the feet to be off."""
    return feet_off(())


def looking() -> FindPedal:
    """A screen that searches for the brake."""
    return finding(Pedal.BRAKE, (-1.0,))


@pytest.mark.parametrize("make", [resting, looking])
def test_going_back_before_anything_is_found_ends_the_search(make: object) -> None:
    assert callable(make)
    screen = make()

    screen.on_action(Action.BACK)

    assert screen.outcome is SearchEnd.BACK


@pytest.mark.parametrize(
    "screen",
    [feet_off((), found_range=WHOLE), finding(Pedal.BRAKE, (-1.0, 1.0))],
    ids=["brake known", "axis found"],
)
def test_going_back_opens_the_menu_once_something_is_found(screen: FeetOff | FindPedal) -> None:
    screen.on_action(Action.BACK)

    assert screen.outcome is SearchEnd.MENU


@pytest.mark.parametrize(("pedal", "outcome"), [("brake", None), ("clutch", SearchEnd.SKIPPED)])
def test_only_an_optional_pedal_can_be_left_out(pedal: str, outcome: SearchEnd | None) -> None:
    screen = finding(Pedal(pedal), (-1.0,))

    screen.on_action(Action.GO)

    assert screen.outcome is outcome


def test_pressing_the_brake_leaves_the_clutch_out() -> None:
    screen = finding(Pedal.CLUTCH, (-1.0, 1.0), taken=WHOLE)

    assert screen.outcome is SearchEnd.SKIPPED


def test_brushing_the_brake_does_not_leave_the_clutch_out() -> None:
    screen = finding(Pedal.CLUTCH, (-1.0, -0.6), taken=WHOLE)

    assert screen.outcome is None


def test_pressing_the_brake_leaves_no_throttle_out() -> None:
    screen = finding(Pedal.THROTTLE, (-1.0, 1.0), taken=WHOLE)

    assert screen.outcome is None


@pytest.mark.parametrize("there", [{}, {Axis(7, 0): -1.0}], ids=["unplugged", "plugged anew"])
def test_a_found_pedal_that_is_unplugged_restarts_the_search(
    there: dict[Axis, float],
) -> None:
    waiting = FeetOff(search(there, WHOLE), "Set up the throttle")
    looking = FindPedal(Pedal.THROTTLE, search(there, WHOLE))

    waiting.on_sample(None, 1)
    looking.on_sample(None, 1)

    assert (waiting.outcome, looking.outcome) == (SearchEnd.LOST, SearchEnd.LOST)


@pytest.mark.parametrize(("came", "outcome"), [(False, None), (True, SearchEnd.CAME)])
def test_plugging_in_the_saved_pedals_ends_the_search(
    came: bool, outcome: SearchEnd | None
) -> None:
    screen = FeetOff(search({AXIS: 0.0}, came=came), "Set up the brake")

    screen.on_devices(cut=False)

    assert screen.outcome is outcome


def test_the_axis_that_was_found_is_named_and_can_be_refused() -> None:
    screen = finding(Pedal.BRAKE, [{AXIS: -1.0, WHEEL: 0.02}, {WHEEL: 0.9}])
    named = texts_of(screen)

    screen.on_action(Action.NEXT)

    name = "axis 1 of Quiet Works Wheel Base (nine Newton m..."
    assert {name, "Tab: not the brake"} <= set(named)
    assert screen.outcome == Retry(f"A{name[1:]} is left out.")
    assert screen._search.refused == {WHEEL}


def test_a_wheel_that_went_on_through_its_start_begins_with_the_feet_off_again() -> None:
    values = {AXIS: -1.0, WHEEL: 0.02}
    screen = FindPedal(Pedal.BRAKE, search(values))

    fed(screen, values, [{}, {WHEEL: 0.9}, {WHEEL: -0.9}, {WHEEL: 0.9}], seconds=0.3)

    assert isinstance(screen.outcome, Retry)
    assert screen.outcome.note.startswith("Axis 1 of Quiet Works Wheel Base")
    assert screen._search.refused == set()


def test_two_pedals_together_open_the_menu_which_knows_the_axis_found() -> None:
    values = {AXIS: -1.0, SECOND_AXIS: -1.0}
    state = search(values)
    screen = FindPedal(Pedal.BRAKE, state)

    fed(screen, values, [{}, {AXIS: 1.0}, {SECOND_AXIS: 1.0}])

    assert screen.outcome is SearchEnd.MENU
    assert state.doubted == AXIS


def test_without_the_focus_the_axes_are_ignored() -> None:
    values = {AXIS: -1.0}
    screen = FindPedal(Pedal.BRAKE, search(values))
    screen.on_focus(False, 0)

    fed(screen, values, [{AXIS: -1.0}, {AXIS: 1.0}])

    assert screen.axis is None
    assert "Click here to go on" in texts_of(screen)


def test_time_without_the_focus_does_not_count_as_rest() -> None:
    values = {AXIS: -1.0}
    screen = FeetOff(search(values), "Set up the brake")
    screen.on_focus(True, 0)
    screen.on_sample(None, 0)
    screen.on_focus(False, 1)
    screen.on_sample(None, 30_000_000_000)
    screen.on_focus(True, 60_000_000_000)

    screen.on_sample(None, 60_000_000_000)
    soon = screen.outcome
    screen.on_sample(None, 61_000_000_000)

    assert (soon, screen.outcome) == (None, Rested())


def test_switching_to_another_window_restarts_the_search_for_the_pedal() -> None:
    screen = finding(Pedal.BRAKE, (-1.0, 1.0))
    screen.on_focus(True, 0)
    opened = screen.outcome

    screen.on_focus(False, 1)
    screen.on_focus(True, 2)

    assert (opened, screen.outcome) == (None, Retry(""))


@pytest.mark.parametrize("size", [(800, 600), (1280, 720), (1920, 1080)])
@pytest.mark.parametrize(
    ("label", "outcome"), [(TWO_PEDALS, SearchEnd.MENU), ("Tab: not the brake", Retry)]
)
def test_the_mouse_alone_can_leave_and_refuse(
    size: tuple[int, int], label: str, outcome: object
) -> None:
    screen = finding(Pedal.BRAKE, (-1.0, 1.0))
    (place,) = [text.ink for text in drawn(screen, size).texts if text.text == label]

    screen.on_pointer(place.center, pressed=False)
    pointed = screen.outcome
    screen.on_pointer(place.center, pressed=True)

    assert pointed is None
    assert screen.outcome is outcome or type(screen.outcome) is outcome


def test_the_bubble_follows_the_pedal() -> None:
    places = []

    for course in ((-1.0,), (-1.0, -0.85), (-1.0, 1.0)):
        screen = finding(Pedal.BRAKE, course)
        places.append(drawn(screen, (1920, 1080)).discs[0][0][0])

    left, right = 360, 1560
    assert places == pytest.approx([left, left + 0.3 * (right - left), right], abs=1)
