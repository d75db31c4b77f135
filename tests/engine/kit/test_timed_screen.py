"""Timed screens: when they end, and what keeps them open."""

import pytest

from drills.trace import Sample, nanoseconds
from engine.kit.timed_screen import TimedScreen
from engine.pedals.rig import Means
from engine.stage.actions import Action

STEP = nanoseconds(0.010)


class Sat:
    """Timed screen of two seconds, fed every 10 ms."""

    def __init__(self) -> None:
        self.screen = TimedScreen("on", "menu", 2.0)
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


def test_the_hint_gives_the_seconds_left_and_how_to_read_on() -> None:
    sat = Sat()
    sat.screen.on_means(Means(feet=True))

    sat.sit(0.5)
    said = sat.screen.hint
    sat.sit(0.1, throttle=60.0)

    assert said == (
        "Next in 2 s    hold the throttle to read on    brake and throttle: menu    "
        "Enter: at once    Esc: menu"
    )
    assert sat.screen.hint == "Reading on: let the throttle go when you are done"
