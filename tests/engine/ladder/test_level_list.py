"""Lists of the levels of a stage, and home without feet on pedals."""

from dataclasses import replace
from typing import Any

import pytest

from drills.trace import Pedal
from engine.game.entry import LEAVE
from engine.kit.base import Menu
from engine.ladder.ladder import ladder_stages
from engine.ladder.ladder_words import due_words, limit_words
from engine.ladder.level_list import LevelList
from engine.practice.personal_limit import PersonalLimit
from engine.stage.actions import Action
from tests.engine.five.pictures import retentions
from tests.engine.kit.test_choices import shown
from tests.engine.ladder.pictures import at_home, label_of, level_list
from tests.engine.ladder.stages import TWO, ids, made_levels
from tests.made import level

LEVELS = made_levels()
WIDE = (1920, 1080)


def do(screen: Menu[Any], *actions: Action) -> object:
    """What a screen ends with."""
    for action in actions:
        screen.on_action(action)
    return screen.outcome


def said(screen: Menu[Any]) -> list[str]:
    """Every text on a screen."""
    return [text.text for text in shown(screen, WIDE).texts]


@pytest.mark.parametrize(("moves", "label"), [(0, "Practise"), (1, "More"), (2, "Leave")])
def test_home_without_feet_leads_everywhere_and_practice_comes_first(
    moves: int, label: str
) -> None:
    screen = at_home(level())

    assert label_of(do(screen, *[Action.NEXT] * moves, Action.GO)) == label


def test_the_last_choice_of_home_leaves_the_game() -> None:
    assert do(at_home(level()), Action.PREVIOUS, Action.GO) is LEAVE


def test_a_limit_that_the_purpose_names_is_not_written_twice() -> None:
    told = level(purpose="Keep the brake within 15 points.")

    assert limit_words(told) == ""
    assert limit_words(replace(told, purpose="Keep the brake within 150 points.")) != ""


def test_a_value_with_a_least_limit_says_so() -> None:
    assert limit_words(replace(level(), limits={"in_band": 0.9})) == "In the band: at least 0.9"


def test_a_level_says_its_state_and_when_it_is_due_again() -> None:
    stages = ladder_stages(LEVELS, ids(LEVELS[:4]), retention=retentions(LEVELS, 3))
    due = {LEVELS[0].id: due_words(5), LEVELS[3].id: due_words(1)}

    texts = said(LevelList(stages[0], stages, due=due))

    assert [texts[texts.index(level.title) + 1] for level in LEVELS[:4]] == [
        "well retained, check-up in 5 days",
        "well retained",
        "retained",
        "passed, check-up tomorrow",
    ]


@pytest.mark.parametrize("days", [0, -3])
def test_a_check_up_that_is_overdue_is_due_today(days: int) -> None:
    assert due_words(days) == "check-up today"


def test_a_level_that_is_partly_luck_is_marked_and_the_others_are_not() -> None:
    lucky = frozenset({"stillness-1", "stillness-2"})

    passed, opened, *_ = [
        text for text in said(level_list(LEVELS, passed=1, lucky=lucky)) if "partly luck" in text
    ]
    unmarked = said(level_list(LEVELS, passed=1))

    assert passed == "passed, partly luck"
    assert opened == "partly luck"
    assert not any("luck" in text for text in unmarked)


def test_a_closed_level_that_is_partly_luck_is_marked_too() -> None:
    texts = said(level_list(LEVELS, lucky=frozenset({"stillness-2"})))

    assert "Stillness 2 (partly luck): opens after Stillness 1" in texts
    assert "Stillness 3: opens after Stillness 2" in texts


def test_closed_levels_cannot_be_chosen_and_say_what_opens_them() -> None:
    first = level(id="first", title="First")
    second = level(id="second", title="Second", needs=("first",))
    screen = level_list([first, second])

    assert screen.details() == {"choices": ["First", "Back"]}
    assert "Second: opens after First" in said(screen)


def test_a_level_may_be_opened_by_one_of_another_stage() -> None:
    screen = level_list(LEVELS, stage=2)

    assert "Quiet blip 1: opens after First blip 6" in said(screen)


def test_a_level_of_the_list_says_what_it_trains_and_whether_it_is_passed_or_was_placed() -> None:
    canvas = shown(level_list(LEVELS, passed=1, placed=2), WIDE)
    texts = [text.text for text in canvas.texts]

    notes = [texts[texts.index(f"Stillness {number}") + 1] for number in (1, 2, 3, 4)]

    assert texts[:2] == ["Stillness", LEVELS[0].purpose]
    assert notes == ["placed", "placed", "passed", "Back"]


def test_the_list_says_what_the_selected_level_asks_and_back_keeps_the_last_one() -> None:
    one, other = level(id="one", purpose="Hold."), level(id="two", purpose="Blip.")
    screen = level_list([one, other])

    first = said(screen)
    do(screen, Action.NEXT)
    then = said(screen)
    do(screen, Action.NEXT)

    assert ("Hold." in first, "Blip." in first) == (True, False)
    assert ("Hold." in then, "Blip." in then) == (False, True)
    assert "Blip." in said(screen)


def test_every_open_level_can_be_chosen() -> None:
    levels = [level(id=f"level-{number}", title=f"Level {number}") for number in range(12)]
    chosen = set()

    for moves in range(len(levels) + 1):
        outcome = do(level_list(levels), *[Action.NEXT] * moves, Action.GO)
        chosen.add(getattr(outcome, "id", None))

    assert {one.id for one in levels} <= chosen


def test_a_level_whose_pedals_are_not_there_is_closed_and_says_which() -> None:
    three = level(id="three", title="Three", pedals=(Pedal.BRAKE, Pedal.CLUTCH))
    playable = level(id="two", title="Two")

    without = level_list([playable, three], pedals=TWO)
    complete = level_list([playable, three])

    assert "Three: needs a clutch" in said(without)
    assert without.details() == {"choices": ["Two", "Back"]}
    assert complete.details() == {"choices": ["Two", "Three", "Back"]}


def test_the_personal_limit_of_a_retained_level_stands_beside_its_mark() -> None:
    passed = ids(LEVELS[:3])
    stages = ladder_stages(LEVELS, passed, retention=retentions(LEVELS, 2))
    limit = PersonalLimit((0.62,) * 36, 0.58)
    personal = {one.id: limit for one in LEVELS[:3]} | {LEVELS[1].id: PersonalLimit((0.5,) * 12)}

    texts = said(LevelList(stages[0], stages, personal=personal))

    notes = [text for text in texts if "of the limit" in text or "of 36" in text]
    assert [note.partition(", ")[2] for note in notes] == [
        "0.62 of the limit, best 0.58",
        "personal limit: 12 of 36",
    ]
