"""Falling scores are told as that, and stopping comes first."""

import pytest

from engine.five.fatigue_screen import FatigueScreen
from engine.stage.actions import Action
from tests.engine.kit.recording_canvas import said


@pytest.mark.parametrize(
    ("fall", "points", "words"),
    [(14.2, "14", "points lower, of 100"), (0.6, "1", "point lower, of 100")],
)
def test_it_says_what_has_fallen_and_by_how_much(fall: float, points: str, words: str) -> None:
    texts = said(FatigueScreen("First blip", fall))

    assert texts[:5] == [
        points,
        words,
        "Tired?",
        "Your scores fell over the last twelve.",
        'In "First blip". Stop, or go on: you decide.',
    ]


@pytest.mark.parametrize(
    ("actions", "stops"),
    [((Action.GO,), True), ((Action.NEXT, Action.GO), False), ((Action.BACK,), False)],
)
def test_stopping_is_the_obvious_choice_and_going_on_is_the_next(
    actions: tuple[Action, ...], stops: bool
) -> None:
    screen = FatigueScreen("runs", 9.0)

    for action in actions:
        screen.on_action(action)

    assert screen.outcome is stops


def test_the_hint_names_the_selected_choice() -> None:
    hint = said(FatigueScreen("runs", 9.0))[-1]

    assert "Enter: choose" in hint
    assert "Esc: go on" in hint


def test_the_events_file_has_the_kind_and_the_fall() -> None:
    assert FatigueScreen("runs", 9.0).details() == {
        "choices": ["Stop for today", "Go on"],
        "kind": "runs",
        "fall": 9.0,
    }
