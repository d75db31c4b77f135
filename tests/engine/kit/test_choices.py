"""Menus: choosing by keys, wheel buttons and mouse, and where choices lead."""

from dataclasses import replace
from typing import Any

import pygame
import pytest

from engine.drill.interruptions import Unplugged
from engine.drill.set_end import SetEnd, Then
from engine.drill.tally import Tally
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Fonts
from engine.setup.no_pedals import NoPedals, NoPedalsChoice, NothingPlugged
from engine.stage.actions import action_of
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.made import level


def key(code: int) -> pygame.event.Event:
    """Event of a key press."""
    return pygame.event.Event(pygame.KEYDOWN, key=code)


def button(number: int) -> pygame.event.Event:
    """Event of a wheel button press."""
    return pygame.event.Event(pygame.JOYBUTTONDOWN, button=number)


def menu() -> Menu[object]:
    """Menu of three choices with a back outcome."""
    return Menu([Choice("One", 1), Choice("Two", 2), Choice("Three", 3)], back="back")


def shown(screen: Menu[Any], size: tuple[int, int] = (1280, 720)) -> RecordingCanvas:
    """The screen after it was drawn, so that the mouse can point at its choices."""
    pygame.font.init()
    canvas = RecordingCanvas(size, Fonts())
    screen.paint(canvas, 0.0)
    return canvas


def do(screen: Menu[Any], *events: pygame.event.Event) -> object:
    """Outcome of the screen after some events."""
    for event in events:
        action = action_of(event)
        assert action is not None
        screen.on_action(action)
    return screen.outcome


ENTER, TAB, UP, ESCAPE = pygame.K_RETURN, pygame.K_TAB, pygame.K_UP, pygame.K_ESCAPE


@pytest.mark.parametrize(
    ("keys", "outcome"),
    [
        ([ENTER], 1),
        ([pygame.K_SPACE], 1),
        ([pygame.K_DOWN, ENTER], 2),
        ([TAB, pygame.K_RIGHT, ENTER], 3),
        ([TAB, TAB, TAB, ENTER], 1),
        ([UP, ENTER], 3),
        ([TAB, pygame.K_LEFT, pygame.K_KP_ENTER], 1),
        ([TAB, ESCAPE], "back"),
        ([TAB, UP], None),
    ],
)
def test_keys_choose(keys: list[int], outcome: object) -> None:
    assert do(menu(), *map(key, keys)) == outcome


@pytest.mark.parametrize(
    ("buttons", "outcome"), [([0], 1), ([1, 0], 2), ([1, 1, 1, 0], 1), ([1, 2], "back")]
)
def test_wheel_buttons_choose(buttons: list[int], outcome: object) -> None:
    assert do(menu(), *map(button, buttons)) == outcome


@pytest.mark.parametrize(
    "event",
    [key(pygame.K_q), button(7), pygame.event.Event(pygame.KEYUP, key=ENTER)],
    ids=["letter", "button", "key let go"],
)
def test_other_events_are_no_action(event: pygame.event.Event) -> None:
    assert action_of(event) is None


@pytest.mark.parametrize("size", [(640, 360), (1280, 720), (1080, 1920)])
@pytest.mark.parametrize("number", [0, 1, 2])
def test_a_click_on_a_choice_chooses_it(size: tuple[int, int], number: int) -> None:
    screen = menu()
    label = shown(screen, size).texts[number].ink

    screen.on_pointer(label.center, pressed=True)

    assert screen.outcome == number + 1


@pytest.mark.parametrize("size", [(640, 360), (1280, 720), (1080, 1920)])
def test_the_label_of_a_choice_is_inside_the_place_to_click(size: tuple[int, int]) -> None:
    canvas = shown(menu(), size)

    places = [box.contains(text.ink) for box, text in zip(canvas.boxes, canvas.texts, strict=False)]

    assert places == [True] * 3


def test_pointing_selects_without_choosing() -> None:
    screen = menu()
    label = shown(screen).texts[2].ink
    before = screen.movement()

    screen.on_pointer(label.center, pressed=False)

    assert screen.outcome is None
    assert screen.movement() != before
    assert do(screen, key(ENTER)) == 3


def test_a_click_beside_the_choices_does_nothing() -> None:
    screen = menu()
    shown(screen)

    screen.on_pointer((640, 100), pressed=True)

    assert screen.outcome is None


def test_a_menu_without_a_back_outcome_stays_open() -> None:
    screen = Menu([Choice("One", 1)])

    assert do(screen, key(ESCAPE)) is None


def test_the_mark_fills_from_left_to_right_while_the_brake_is_held() -> None:
    pygame.font.init()
    widths = []

    for press in (0.25, 0.5, 1.0):
        canvas = RecordingCanvas((1920, 1080), Fonts())
        menu().paint(canvas, press)
        chosen, fill = canvas.boxes[0], canvas.boxes[1]
        assert fill.topleft == chosen.topleft
        widths.append(fill.width / chosen.width)

    assert widths == pytest.approx([0.25, 0.5, 1.0], abs=0.001)


@pytest.mark.parametrize(
    ("plugged", "first"),
    [(0, NoPedalsChoice.MOUSE), (1, NoPedalsChoice.BIND), (2, NoPedalsChoice.BIND)],
)
def test_without_pedals_what_is_plugged_in_is_offered_first(
    plugged: int, first: NoPedalsChoice
) -> None:
    assert do(NoPedals(saved=False, plugged=plugged), key(ENTER)) is first
    assert do(NoPedals(saved=False, plugged=plugged), key(ESCAPE)) is NoPedalsChoice.QUIT


def test_plugging_in_a_device_ends_the_screen_that_waits_for_one() -> None:
    looking, waiting, nothing = NoPedals(saved=True, plugged=0), Unplugged(), NothingPlugged()

    looking.on_devices(cut=False)
    waiting.on_devices(cut=False)
    nothing.on_devices(cut=False)

    assert looking.outcome is NoPedalsChoice.PLUGGED
    assert waiting.outcome is True
    assert nothing.outcome is True


@pytest.mark.parametrize(("following", "labels"), [("a-blip", 2), ("another", 3)])
def test_the_end_of_a_set_offers_the_next_level(following: str, labels: int) -> None:
    screen = SetEnd(level(), tally(), level(id=following))

    assert len(screen.details()["choices"]) == labels  # type: ignore[arg-type]
    assert do(screen, key(ENTER)) == level(id=following)
    assert do(SetEnd(level(), tally(), level()), key(ESCAPE)) is Then.HOME


def tally(**changes: Any) -> Tally:
    """Tally of a set, with some of its fields changed."""
    usual = Tally(10, 8, 0, 70.0, 8, 8, True)
    return replace(usual, **changes)
