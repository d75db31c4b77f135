"""The question at the first start whether the window fills the screen, asked once."""

from pathlib import Path

import pytest

from drills.trace import nanoseconds
from engine.game.fill_screen import FILL, IN_A_WINDOW, QUESTION, FillScreen
from engine.game.flow import FILL_ASKED
from engine.pedals.identity import Axis
from engine.stage.actions import Action
from engine.stage.headless import ManualClock
from engine.stage.scene import Attended
from engine.stage.window_shape import DEFAULT_SIZE, Shape
from tests.engine.game.rigged import READ, Rigged

BRAKE, THROTTLE = Axis(0, 0), Axis(0, 1)
NOT_NOW = ("no pedals", "Leave")


@pytest.fixture
def first(tmp_path: Path) -> Rigged:
    """A game at its first start, without pedals and without a size asked for."""
    rigged = Rigged(tmp_path)
    rigged.is_sized = False
    return rigged


@pytest.mark.parametrize(("answer", "full"), [(FILL, True), (IN_A_WINDOW, False)])
def test_it_is_asked_once_and_done(first: Rigged, answer: str, full: bool) -> None:
    first.walk(READ, ("fill the screen", answer), NOT_NOW)
    first.walk(NOT_NOW)

    assert first.lamp.full is full


def test_a_window_that_was_closed_at_the_question_asks_again(first: Rigged) -> None:
    playing = first.flow()
    next(playing).screen.on_action(Action.GO)
    assert next(playing).screen.name == "fill the screen"
    playing.close()

    assert first.history.setting(FILL_ASKED) is False
    first.walk(("fill the screen", IN_A_WINDOW), NOT_NOW)
    assert first.history.setting(FILL_ASKED) is True


def test_a_size_asked_for_puts_the_question_off_to_the_next_start(first: Rigged) -> None:
    first.is_sized = True
    first.walk(READ, NOT_NOW)

    first.is_sized = False
    first.walk(("fill the screen", IN_A_WINDOW), NOT_NOW)


def test_a_player_of_before_and_a_filled_screen_are_not_asked(first: Rigged) -> None:
    first.lamp.full = True
    first.walk(READ, NOT_NOW)
    assert first.lamp.full

    first.history.keep_setting(FILL_ASKED, None)
    first.lamp.full = False
    first.walk(NOT_NOW)


def test_a_screen_filled_by_a_key_at_the_question_follows_the_answer(first: Rigged) -> None:
    def fills_and_refuses(screen: Attended) -> None:
        first.lamp.toggle_full()
        screen.on_action(Action.BACK)

    first.walk(READ, ("fill the screen", fills_and_refuses), NOT_NOW)

    assert not first.lamp.full


class Asked:
    """The question while pedals move, each axis with a raw value."""

    def __init__(self, brake: float, throttle: float = -1.0) -> None:
        self.values = {BRAKE: brake, THROTTLE: throttle}
        self.screen, self._clock = FillScreen(lambda: self.values), ManualClock()

    def wait(self, seconds: float) -> None:
        """Read the pedals every 10 ms for so long, or until there is an answer."""
        for _ in range(round(100 * seconds)):
            self._clock.advance(nanoseconds(0.01))
            if self.screen.outcome is None:
                self.screen.on_sample(None, self._clock())


@pytest.mark.parametrize(("taps", "fills"), [(0, True), (1, False), (2, True)])
def test_any_pedal_answers_with_taps_and_a_hold(taps: int, fills: bool) -> None:
    asked = Asked(brake=1.0)
    values, wait = asked.values, asked.wait

    wait(0.6)
    for _ in range(taps):
        values[BRAKE] = -0.6
        wait(0.1)
        values[BRAKE] = 1.0
        wait(0.3)
    values[THROTTLE] = 0.8
    wait(2.0)

    assert asked.screen.outcome is fills


def test_the_pedal_that_confirmed_the_cautions_may_still_be_on_its_way_up() -> None:
    asked = Asked(brake=0.5)

    for brake in (0.6, 0.7, 0.8, 0.9, 1.0):
        asked.values[BRAKE] = brake
        asked.wait(0.02)
    asked.wait(0.6)
    asked.values[BRAKE] = -0.5
    asked.wait(1.0)

    assert asked.screen.outcome is True


def test_the_hint_names_pedals_only_where_there_are_some() -> None:
    hints = []
    for values in ({}, {BRAKE: 1.0}):
        screen = FillScreen(lambda values=values: values)  # type: ignore[misc]
        screen.on_sample(None, 0)
        hints.append(screen.hint)

    assert ["pedal" in hint for hint in hints] == [False, True]
    assert QUESTION.endswith("?")


@pytest.mark.parametrize(
    ("screens", "size"),
    [
        ([], DEFAULT_SIZE),
        ([(1366, 768)], DEFAULT_SIZE),
        ([(1920, 1080)], DEFAULT_SIZE),
        ([(3840, 2160), (1920, 1080)], (2560, 1440)),
        ([(5120, 1440)], (1707, 960)),
        ([(1080, 1920)], DEFAULT_SIZE),
    ],
)
def test_the_first_window_takes_two_thirds_of_a_screen_of_many_pixels(
    screens: list[tuple[int, int]], size: tuple[int, int]
) -> None:
    assert Shape.on(screens) == Shape(size)
