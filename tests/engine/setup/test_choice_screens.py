"""Menus of the setup: any pedal operates them, and the last shows the pedals as they move."""

import pygame
import pytest

from drills.trace import Pedal, Sample
from engine.kit.canvas import Fonts
from engine.pedals.identity import Axis
from engine.setup.any_pedal_menu import SetUpChoice
from engine.setup.choice_screens import PedalMenu, PedalsFound, WhichPedals
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.setup.pictures import AXIS, asked, found, search


def written(screen: PedalsFound) -> list[str]:
    """Texts on a screen."""
    pygame.font.init()
    canvas = RecordingCanvas((1280, 720), Fonts())
    screen.paint(canvas, 0.0)
    return [text.text for text in canvas.texts]


def tap_and_stay(menu: PedalMenu, values: dict[Axis, float], taps: int) -> object:
    """Outcome of a menu after a pedal was tapped and then held down."""
    now = 0
    course = [-1.0] * 60 + ([1.0] * 20 + [-1.0] * 20) * taps + [1.0] * 100
    for place in course:
        values[AXIS] = place
        now += 10_000_000
        if menu.outcome is None:
            menu.on_sample(None, now)
    return menu.outcome


@pytest.mark.parametrize(
    ("taps", "outcome"),
    [
        (0, SetUpChoice.GO_ON),
        (1, SetUpChoice.REFUSE),
        (2, SetUpChoice.ALL),
        (3, SetUpChoice.STOP),
        (4, SetUpChoice.GO_ON),
    ],
)
def test_any_pedal_chooses_in_the_menu(taps: int, outcome: SetUpChoice) -> None:
    values = {AXIS: -1.0}
    state = search(values)
    state.doubted = AXIS
    menu = PedalMenu(state, Pedal.BRAKE)

    assert tap_and_stay(menu, values, taps) is outcome


def test_feet_choose_nothing_in_the_menu_without_the_focus() -> None:
    values = {AXIS: -1.0}
    menu = PedalMenu(search(values), Pedal.BRAKE)
    menu.on_focus(False, 0)

    assert tap_and_stay(menu, values, 1) is None


def test_without_an_axis_found_none_can_be_refused() -> None:
    assert asked().details() == {
        "choices": ["Go on", "Set up again from the start", "Stop setting up"]
    }


@pytest.mark.parametrize(
    ("lines", "labels"),
    [
        (2, ["All pedals", "Brake only", "Throttle only", "Add a clutch", "Back"]),
        (3, ["All pedals", "Brake only", "Throttle only", "Clutch only", "Back"]),
    ],
)
def test_each_pedal_can_be_set_up_by_itself(lines: int, labels: list[str]) -> None:
    screen = WhichPedals(dict.fromkeys(list(Pedal)[:lines], "axis 1 of Pedals"))

    assert screen.details() == {"choices": labels}


@pytest.mark.parametrize(("percent", "said"), [(2.9, False), (7.0, True), (26.0, False)])
def test_a_pedal_that_does_not_rest_at_its_end_gets_a_note(percent: float, said: bool) -> None:
    screen = found(dict.fromkeys([Pedal.BRAKE, Pedal.THROTTLE], "axis 1 of Pedals"), percent)

    notes = [text for text in written(screen) if "rests at" in text]

    expected = (
        f"The throttle rests at {percent:.0f} %. Does it stick, or is a foot on it? "
        "If it stays, set the throttle up again."
    )
    assert notes == ([expected] if said else [])


def test_a_moving_throttle_does_not_count_as_resting() -> None:
    screen = PedalsFound(dict.fromkeys([Pedal.BRAKE, Pedal.THROTTLE], "axis 1 of Pedals"))

    for step in range(200):
        screen.on_sample(Sample(step * 10_000_000, 0.0, 4.0 + step / 10), step * 10_000_000)

    assert not [text for text in written(screen) if "rests at" in text]
