"""Guesses in a set: asked only with feet, stored, and shown beside the measured value."""

from dataclasses import replace

import pytest

from drills.level import Feedback
from engine.drill.guesses import mean_error
from engine.drill.saved import guesses_on
from engine.drill.set import end_set, run_set
from engine.drill.set_end import SetEnd
from engine.stage.actions import Action
from engine.stage.scene import Attended
from engine.store import History
from tests.engine.five.learning_foot import BY_ID, Learning
from tests.engine.walking import Step

GUESSED = replace(BY_ID["quiet-guess"], repetitions=3)


def says(taps: int) -> Step:
    """Step that taps the throttle some times and confirms the guess."""

    def step(screen: Attended) -> None:
        for _ in range(taps):
            screen.on_action(Action.NEXT)
        screen.on_action(Action.GO)

    return step


def test_every_measured_repetition_is_guessed_and_the_guess_stored(history: History) -> None:
    learning = Learning(history, 0.9)

    played = learning.walk(
        run_set(GUESSED, learning.setting, 3),
        ("guess", says(0)),
        ("guess", says(1)),
        ("guess", says(2)),
    )

    guesses = guesses_on(history, GUESSED.id)
    dips = [record.verdict.measures["dip"] for record in played.log.records]
    assert guesses == list(zip([0.0, 3.0, 6.0], dips, strict=True))
    assert learning.seen.index("guess") < learning.seen.index("reveal")


def test_a_guess_is_asked_before_any_sound_of_the_verdict(history: History) -> None:
    learning = Learning(history, 0.9)
    announced: list[int] = []

    def looks(screen: Attended) -> None:
        announced.append(len(learning.audience.records))
        screen.on_action(Action.GO)

    learning.walk(run_set(GUESSED, learning.setting, 1), ("guess", looks))

    assert announced == [0]
    assert len(learning.audience.records) == 1


def test_a_guess_is_revealed_even_on_levels_that_reveal_only_misses(history: History) -> None:
    learning = Learning(history, 1.0)
    outside = replace(GUESSED, feedback=Feedback.OUTSIDE)

    records = learning.walk(run_set(outside, learning.setting, 1), ("guess", says(1))).log.records

    assert [record.verdict.clean for record in records] == [True]
    assert learning.seen == ["repetition", "guess", "reveal"]


def test_leaving_at_the_guess_stores_the_repetition_and_no_guess(history: History) -> None:
    learning = Learning(history, 0.9)

    played = learning.walk(
        run_set(GUESSED, learning.setting, 3),
        ("guess", lambda screen: screen.on_action(Action.MENU)),
        ("menu", "Leave the set"),
    )

    assert len(played.log.records) == 1
    assert guesses_on(history, GUESSED.id) == []
    assert len(learning.audience.records) == 1


def test_a_try_out_asks_for_no_guess(history: History) -> None:
    learning = Learning(history, 0.9)

    learning.walk(run_set(GUESSED, replace(learning.setting, history=None), 1))

    assert "guess" not in learning.seen


def test_the_end_of_a_set_shows_the_mean_error_of_the_guesses(history: History) -> None:
    learning = Learning(history, 0.9)
    played = learning.walk(run_set(GUESSED, learning.setting, 1), ("guess", says(3)))
    screens: list[SetEnd] = []

    def store(screen: Attended) -> None:
        assert isinstance(screen, SetEnd)
        screens.append(screen)
        screen.on_action(Action.BACK)

    learning.walk(end_set(GUESSED, GUESSED, played.log, learning.setting), ("set end", store))

    off = mean_error(guesses_on(history, GUESSED.id))
    assert screens[0].details()["guessed_off"] == pytest.approx(off)
