"""Timed screens: when they end, and what keeps them open."""

import pytest

from drills.trace import SECOND, Sample, nanoseconds
from engine.kit.looks import Look, Looks
from engine.kit.timed_screen import TimedScreen
from engine.pedals.rig import Means
from engine.stage.actions import Action
from tests.engine.kit.recording_canvas import recorded

STEP = nanoseconds(0.010)


class Sat:
    """Timed screen of two seconds, fed every 10 ms."""

    def __init__(self) -> None:
        self.screen: TimedScreen[str] = TimedScreen("on", "menu", 2.0)
        self.now = nanoseconds(100.0)

    def sit(self, seconds: float, throttle: float | None = 0.0) -> None:
        """Feed the screen for some time with the throttle at a value; None: no pedals."""
        for _ in range(round(seconds * 100)):
            self.now += STEP
            sample = None if throttle is None else Sample(self.now, 60.0, throttle)
            self.screen.on_sample(sample, self.now)


@pytest.mark.parametrize("throttle", [0.0, 24.9, None])
def test_a_timed_screen_ends_by_itself_after_its_time(throttle: float | None) -> None:
    sat = Sat()

    sat.sit(2.0, throttle)
    before = sat.screen.outcome
    sat.sit(0.02, throttle)

    assert (before, sat.screen.outcome) == (None, "on")


def test_holding_the_throttle_keeps_the_screen_open() -> None:
    sat = Sat()

    sat.sit(10.0, throttle=25.0)
    held = sat.screen.outcome
    sat.sit(0.02)

    assert (held, sat.screen.outcome) == (None, "on")


def test_without_the_focus_the_screen_waits_and_then_starts_its_time_over() -> None:
    sat = Sat()

    sat.sit(1.0)
    sat.screen.on_focus(False, sat.now)
    sat.sit(10.0)
    sat.screen.on_focus(True, sat.now)
    sat.sit(1.9)
    waiting = sat.screen.outcome
    sat.sit(0.2)

    assert (waiting, sat.screen.outcome) == (None, "on")


@pytest.mark.parametrize(("after", "outcome"), [(0.5, None), (1.1, "on")])
def test_a_click_ends_the_screen_once_it_cannot_be_a_late_blip(
    after: float, outcome: str | None
) -> None:
    sat = Sat()
    sat.sit(after)

    sat.screen.on_pointer((5, 5), pressed=True)

    assert sat.screen.outcome == outcome


@pytest.mark.parametrize(
    ("action", "outcome"),
    [(Action.GO, "on"), (Action.BACK, "menu"), (Action.MENU, "menu"), (Action.NEXT, None)],
)
def test_the_player_can_end_the_screen_at_once_or_open_the_menu(
    action: Action, outcome: str | None
) -> None:
    sat = Sat()

    sat.screen.on_action(action)

    assert sat.screen.outcome == outcome


def test_the_hint_says_how_to_read_on() -> None:
    sat = Sat()
    sat.screen.on_means(Means(feet=True))

    sat.sit(0.5)
    said = sat.screen.hint
    sat.sit(0.1, throttle=60.0)

    assert said == "hold the throttle to read on"
    assert sat.screen.hint == "let the throttle go when you are done"


def test_the_ring_gets_shorter_as_time_passes() -> None:
    sat = Sat()
    shares = [sat.screen.share]

    for _ in range(4):
        sat.sit(0.5)
        shares.append(sat.screen.share)

    assert shares == pytest.approx([1.0, 0.755, 0.505, 0.255, 0.005])


class Detailed(TimedScreen[str]):
    """Timed screen of two seconds with details."""

    def __init__(self) -> None:
        super().__init__("on", "menu", 2.0)
        self.looks = Looks([Look.FIGURES])


def detailed(*, feet: bool = True, buttons: bool = False) -> Sat:
    """Timed screen with details."""
    sat = Sat()
    sat.screen = Detailed()
    sat.screen.on_means(Means(feet=feet, buttons=buttons))
    return sat


def test_holding_the_throttle_shows_the_details_until_it_is_let_go_and_then_it_goes_on() -> None:
    sat, seen = detailed(), []

    for seconds, throttle in ((0.5, 0.0), (0.2, 26.0), (4.8, 26.0), (1.1, 0.0), (0.2, 0.0)):
        sat.sit(seconds, throttle)
        seen.append((sat.screen.shows_more, sat.screen.outcome))

    assert seen == [(False, None), (False, None), (True, None), (False, None), (False, "on")]


@pytest.mark.parametrize(("before", "left"), [(0.5, 0.60), (1.6, 0.5)])
def test_the_time_left_waits_while_more_is_shown_and_a_second_of_it_is_left_at_least(
    before: float, left: float
) -> None:
    sat = detailed()
    sat.sit(before)
    sat.sit(0.32, throttle=60.0)
    shown = sat.screen.share

    sat.sit(20.0, throttle=60.0)

    assert shown == pytest.approx(left, abs=0.01)
    assert sat.screen.share == pytest.approx(shown, abs=0.01)


def test_the_time_for_which_more_is_shown_is_measured() -> None:
    sat = detailed()

    for seconds, throttle in ((0.5, 0.0), (5.3, 60.0), (0.5, 0.0)):
        sat.sit(seconds, throttle)
    looked_into = sat.screen.looked_into / SECOND

    assert looked_into == pytest.approx(5.0, abs=0.03)


def test_a_late_blip_shows_no_details() -> None:
    sat = detailed()

    sat.sit(0.3, throttle=80.0)
    late = sat.screen.shows_more
    sat.sit(0.1)
    sat.screen.on_action(Action.NEXT)

    assert not late
    assert not sat.screen.shows_more


def test_a_key_or_a_wheel_button_opens_the_details_and_closes_them() -> None:
    sat = detailed(feet=False)
    sat.sit(1.0, throttle=None)

    sat.screen.on_action(Action.NEXT)
    sat.sit(30.0, throttle=None)
    opened = sat.screen.shows_more, sat.screen.outcome
    sat.screen.on_action(Action.NEXT)
    sat.sit(0.9, throttle=None)
    closed = sat.screen.shows_more, sat.screen.outcome
    sat.sit(0.2, throttle=None)

    assert (opened, closed) == ((True, None), (False, None))
    assert sat.screen.outcome == "on"


def test_a_click_on_the_hint_opens_the_details_and_one_elsewhere_goes_on() -> None:
    sat = detailed(feet=False)
    sat.sit(1.1, throttle=None)
    canvas = recorded(sat.screen)
    [hint] = [text for text in canvas.texts if text.text == sat.screen.hint]

    sat.screen.on_pointer(hint.ink.center, pressed=False)
    pointed = sat.screen.shows_more
    sat.screen.on_pointer(hint.ink.center, pressed=True)
    clicked = sat.screen.shows_more, sat.screen.outcome
    sat.screen.on_pointer((300, 300), pressed=True)

    assert (pointed, clicked) == (False, (True, None))
    assert sat.screen.outcome == "on"


def test_a_screen_without_details_opens_none() -> None:
    sat = Sat()
    sat.sit(0.5)

    sat.screen.on_action(Action.NEXT)
    sat.sit(0.5, throttle=60.0)

    assert not sat.screen.shows_more


@pytest.mark.parametrize(
    ("feet", "buttons", "hint"),
    [
        (True, False, "hold the throttle, Tab: all figures"),
        (True, True, "hold the throttle, Tab, button 2: all figures"),
        (False, False, "click here, Tab: all figures"),
    ],
)
def test_the_hint_names_the_ways_to_the_details(feet: bool, buttons: bool, hint: str) -> None:
    sat = detailed(feet=feet, buttons=buttons)
    sat.sit(0.5)

    assert sat.screen.hint == hint


@pytest.mark.parametrize(
    ("feet", "buttons", "hint"),
    [
        (True, False, "Tab: back    Enter: go on"),
        (True, True, "Tab, button 2: back    Enter, button 1: go on"),
        (False, False, "click here, Tab: back    Enter: go on"),
    ],
)
def test_the_hint_names_the_ways_back_from_the_details(
    feet: bool, buttons: bool, hint: str
) -> None:
    sat = detailed(feet=feet, buttons=buttons)
    sat.sit(0.5)

    sat.screen.on_action(Action.NEXT)
    sat.sit(0.5)

    assert sat.screen.hint == hint


def test_a_click_on_the_way_back_closes_the_details() -> None:
    sat = detailed(feet=False)
    sat.sit(1.1, throttle=None)
    sat.screen.on_action(Action.NEXT)
    canvas = recorded(sat.screen)
    [hint] = [text for text in canvas.texts if text.text == sat.screen.hint]

    sat.screen.on_pointer(hint.ink.center, pressed=True)

    assert (sat.screen.shows_more, sat.screen.outcome) == (False, None)
