"""Every choice of every menu can be reached by keys, wheel buttons, feet and the mouse alone."""

import copy
from collections.abc import Callable, Iterator
from typing import Any

import pygame

from drills.trace import Sample, nanoseconds
from engine.game.damage import NotRepaired, Repaired
from engine.game.home import Home
from engine.game.trouble import HistoryTrouble
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Fonts
from engine.pedals.gestures import Gestures
from engine.setup.rig_screens import WhichRig
from engine.stage.actions import Action, actions_of_gesture
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.pictures import every_screen

READ_EACH = nanoseconds(0.02)
"""Time between two readings of the pedals, in ns."""
TAP = ((0.5, 0.0, 0.0), (0.1, 0.0, 80.0))
"""A tap of the throttle after a pause: durations in s, brake and throttle in %."""
HOLD = ((0.5, 0.0, 0.0), (0.9, 75.0, 0.0))
"""A held brake after a pause, which chooses."""
BOTH = ((0.5, 0.0, 0.0), (1.1, 75.0, 80.0))
"""Brake and throttle held together after a pause, which leaves."""
CUT = "…"
"""End of a label that had no room."""


class Tried:
    """Copy of a menu that notes the choices made instead of acting on them."""

    def __init__(self, menu: Menu[Any]) -> None:
        self.menu = copy.copy(menu)
        self.made: list[Choice[Any]] = []
        vars(self.menu).update(choose=self.made.append, _selected=0)

    def do(self, *actions: Action) -> list[Choice[Any]]:
        """Take some actions; returns the choices made."""
        for action in actions:
            self.menu.on_action(action)
        return self.made

    def move(self, *steps: tuple[float, float, float]) -> list[Choice[Any]]:
        """Hold the pedals at each step for its time; returns the choices made."""
        gestures, now = Gestures(), 0
        for seconds, brake, throttle in (*steps, (0.1, 0.0, 0.0)):
            until = now + nanoseconds(seconds)
            while now < until:
                gesture = gestures.feed(Sample(now, brake, throttle))
                if gesture is not None:
                    self.do(*actions_of_gesture(gesture))
                now += READ_EACH
        return self.made

    def click(self, number: int) -> list[Choice[Any]]:
        """Click on a choice, from 0, on its label where that has room; returns the choices made."""
        canvas, label = RecordingCanvas((1280, 720), Fonts()), labels(self.menu)[number]
        self.menu.paint(canvas, 0.0)
        written = [text.ink for text in canvas.texts if is_label(text.text, label)]
        place = self.menu._places[number - self.menu._first]
        self.menu.on_pointer(written[-1].center if written else place.center, pressed=True)
        return self.made


def is_label(text: str, label: str) -> bool:
    """Whether a text on a screen is a label, or what a lack of room has left of it."""
    return text == label or (text.endswith(CUT) and label.startswith(text.removesuffix(CUT)))


def menus() -> dict[str, Menu[Any]]:
    """One menu of each class and list of labels, from all screens, by its name."""
    found: dict[tuple[type, tuple[str, ...]], tuple[str, Menu[Any]]] = {}
    for name, screen in every_screen().items():
        if isinstance(screen, Menu):
            found[type(screen), tuple(labels(screen))] = (name, screen)
    return dict(found.values())


def labels(menu: Menu[Any]) -> list[str]:
    """Labels of a menu, in order."""
    names = menu.details()["choices"]
    assert isinstance(names, list)
    return names


def places() -> Iterator[tuple[str, Menu[Any], int]]:
    """Every choice of every menu: name of the menu, the menu, and the number of the choice."""
    for name, menu in menus().items():
        for number in range(len(labels(menu))):
            yield name, menu, number


def chosen(made: list[Choice[Any]]) -> list[str]:
    """Labels of the choices made."""
    return [choice.label for choice in made]


def wrong(choose: Callable[[Tried, int], object], *, by_feet: bool = False) -> list[object]:
    """Menus and numbers of the choices that this way of choosing does not choose.

    `by_feet`: only of menus in which gestures of the feet choose.
    """
    found: list[object] = []
    for name, menu, number in places():
        tried = Tried(menu)
        choose(tried, number)
        if chosen(tried.made) != [labels(menu)[number]] and (menu.feet_choose or not by_feet):
            found.append((name, number))
    return found


def test_next_and_go_choose_every_choice_of_every_menu() -> None:
    assert wrong(lambda tried, number: tried.do(*[Action.NEXT] * number, Action.GO)) == []


def test_previous_and_go_choose_every_choice_of_every_menu() -> None:
    def choose(tried: Tried, number: int) -> None:
        back = -number % len(labels(tried.menu))
        tried.do(*[Action.PREVIOUS] * back, Action.GO)

    assert wrong(choose) == []


def test_taps_of_the_throttle_and_a_held_brake_choose_every_choice_of_every_menu() -> None:
    assert wrong(lambda tried, number: tried.move(*TAP * number, *HOLD), by_feet=True) == []


def test_a_click_chooses_every_choice_of_every_menu() -> None:
    pygame.font.init()

    def choose(tried: Tried, number: int) -> None:
        # A long list shows its choice once the selection has come there.
        tried.do(*[Action.NEXT] * number)
        tried.click(number)

    assert wrong(choose) == []


def test_a_key_goes_back_from_every_menu_but_those_whose_choices_are_all_that_there_is() -> None:
    stay = set()

    for menu in menus().values():
        tried = Tried(menu)
        tried.do(Action.BACK)
        if tried.menu.outcome is None:
            stay.add(type(menu))

    assert stay == {HistoryTrouble, Repaired, NotRepaired, WhichRig}


def test_both_pedals_go_back_wherever_a_key_does_but_from_home_which_would_leave_the_game() -> None:
    differ = set()

    for menu in menus().values():
        feet, keys = Tried(menu), Tried(menu)
        feet.move(*BOTH)
        keys.do(Action.BACK)
        if feet.menu.outcome != keys.menu.outcome:
            differ.add(type(menu))

    assert differ == {Home}
