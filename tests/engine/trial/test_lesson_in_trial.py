"""The lesson in a trial: before its first repetition, and from its pause menu."""

from dataclasses import replace

from engine.drill.lesson_saved import SEEN_KEY, Lessons
from engine.drill.lesson_words import SHOW_MOVEMENT
from engine.stage.actions import Action
from engine.stage.scene import Attended
from engine.store import History
from tests.engine.trial.two_positions import ON, Trying


def to_the_menu(screen: Attended) -> None:
    """Step that leaves a repetition for the menu."""
    screen.on_action(Action.MENU)


def test_a_trial_shows_the_lesson_first_and_again_from_its_pause(history: History) -> None:
    history.keep_setting(SEEN_KEY, [])
    trying = Trying(history)
    trying.setting = replace(trying.setting, lessons=Lessons(history))
    trying.begin()

    trying.walk(
        ON,
        ("repetition", to_the_menu),
        ("trial menu", SHOW_MOVEMENT),
        ("trial menu", "Go on"),
        ("repetition", to_the_menu),
        ("trial menu", "Stop for now"),
    )

    assert trying.names == [
        *("trial under way", "change over", "way", "lesson", "repetition"),
        *("trial menu", "lesson", "trial menu", "repetition", "trial menu"),
    ]
