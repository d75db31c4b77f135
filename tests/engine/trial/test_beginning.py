"""Beginning a trial: two set-ups that differ, their names, the level and the length."""

from collections.abc import Callable

import pytest

from engine.kit.text_entry import TextEntry
from engine.stage.actions import Action
from engine.stage.scene import Attended
from engine.store import History
from engine.trial.beginning import levels_for
from engine.trial.saved import all_trials
from engine.trial.screen_words import THE_SAME
from engine.trial.setup_screens import PositionMenu
from engine.trial.trial import Ball, Heel, SetUp, Shoes, Spacing
from tests.engine.five.learning_foot import passes
from tests.engine.trial.two_positions import BAND, BY_ID, LEVELS, Trying
from tests.engine.walking import Step, back, choose

PASSED = LEVELS[: [level.id for level in LEVELS].index("run-3-even")]
GO: tuple[str, Step] = ("set-up", "Go on")


@pytest.fixture
def trying(history: History) -> Trying:
    """A player without a trial, who has passed the levels up to the runs."""
    passes(history, *PASSED)
    return Trying(history)


def types(text: str, then: str = "Keep it") -> Step:
    """A step that types a text."""

    def step(screen: Attended) -> None:
        assert isinstance(screen, TextEntry)
        for letter in text:
            screen.on_text(letter)
        choose(screen, then)

    return step


def changes(*labels: str) -> Callable[[Attended], None]:
    """A step that changes some rows of a set-up and goes on."""

    def step(screen: Attended) -> None:
        assert isinstance(screen, PositionMenu)
        for label in labels:
            while selected(screen) != label:
                screen.on_action(Action.NEXT)
            screen.on_action(Action.GO)
        choose(screen, "Go on")

    return step


def selected(screen: PositionMenu) -> str:
    """Label of the selected row."""
    choices, place = screen.details()["choices"], screen.details()["selected"]
    assert isinstance(choices, list)
    assert isinstance(place, int)
    return str(choices[place])


def begun(trying: Trying, *steps: tuple[str, Step]) -> tuple[SetUp, SetUp]:
    """The two set-ups of a trial that some steps begin, and that is stopped at once."""
    trying.walk(*steps, ("change over", "Stop for now"))
    return trying.trial.a, trying.trial.b


def test_each_row_takes_its_next_word_and_the_first_after_the_last(trying: Trying) -> None:
    rows: list[str] = ["On the brake", "Heel", "Shoes", "Shoes", "Pedals", "Pedals", "Pedals"]

    a, b = begun(trying, GO, ("set-up", changes(*rows)))

    assert b == SetUp(b.name, Ball.TOES, Heel.FLOATING, Shoes.OTHER, Spacing.AS_IT_IS)
    assert (a.name, b.name) == ("ball of the foot, heel planted", "toes, heel floating")


def test_set_up_b_begins_as_a_and_is_refused_until_it_differs(trying: Trying) -> None:
    said = []

    def goes_on_at_once(screen: Attended) -> None:
        choose(screen, "Go on")
        said.append(screen.details()["said"])
        changes("Heel")(screen)

    a, b = begun(trying, ("set-up", changes("On the brake")), ("set-up", goes_on_at_once))

    assert said == [THE_SAME]
    assert (a.ball, b.ball) == (Ball.TOES, Ball.TOES)
    assert (a.name, b.name) == ("heel planted", "heel floating")


def test_names_and_notes_are_typed_and_a_name_alone_makes_a_difference(trying: Trying) -> None:
    a, b = begun(
        trying,
        ("set-up", "Note"),
        ("typing", types("seat back")),
        GO,
        ("set-up", "Name"),
        ("typing", types("x", then="Leave it as it was")),
        ("set-up", "Name"),
        ("typing", types("seat  fre\bont ")),
        GO,
    )

    assert a == SetUp("as I do it now", note="seat back")
    assert b == SetUp("seat  front")


def test_going_back_leads_to_the_set_ups_as_they_were_left(trying: Trying) -> None:
    trying.walk(
        GO,
        ("set-up", changes("Heel")),
        ("trial level", "Good company"),
        ("trial length", "Back"),
        ("trial level", "Back"),
        GO,
        ("set-up", back),
        ("set-up", back),
        ("about trial", "Back"),
    )

    assert [(one["arm"], one["heel"]) for one in trying.details_of("set-up")] == [
        ("A", "heel planted"),
        ("B", "heel planted"),
        ("A", "heel planted"),
        ("B", "heel floating"),
        ("A", "heel planted"),
    ]
    assert all_trials(trying.history) == []


def test_the_level_worked_on_comes_first_then_those_passed_the_hardest_first(
    trying: Trying,
) -> None:
    offered = [level.id for level in levels_for(trying.setting, trying.history, BAND)]

    assert offered[:3] == ["run-3-even", "run-2-three", "run-1-two"]
    assert offered[-1] == "blip-0-roll"
    assert {BY_ID[name].kind.name for name in offered} == {"blip", "run"}
