"""Home, choosing a stage by walking the ladder, and choosing one of its levels."""

from typing import Any

import pytest

from drills.trace import Pedal
from engine.game.entry import LEAVE
from engine.kit.base import Menu
from engine.ladder.ladder import ladder_stages
from engine.ladder.level_list import Back, Ladder, LevelList
from engine.stage.actions import Action
from tests.engine.five.pictures import retentions
from tests.engine.kit.test_choices import shown
from tests.engine.ladder.pictures import at_home, home, label_of, ladder, level_list
from tests.engine.ladder.stages import SIZES, TWO, ids, made_levels
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


def chosen_stage(screen: Menu[Any], *actions: Action) -> str | None:
    """The name of the stage that is entered, if one is."""
    outcome = do(screen, *actions)
    return getattr(outcome, "name", None)


@pytest.mark.parametrize(
    ("moves", "label"),
    [(0, "Practise: A blip"), (1, "Choose a level"), (2, "More"), (3, "Leave")],
)
def test_home_leads_everywhere_and_practice_comes_first(moves: int, label: str) -> None:
    screen = at_home(level())

    assert label_of(do(screen, *[Action.NEXT] * moves, Action.GO)) == label


def test_the_last_choice_of_home_leaves_the_game() -> None:
    assert do(at_home(level()), Action.PREVIOUS, Action.GO) is LEAVE


def test_finding_a_place_is_offered_after_practice_where_it_is_wanted() -> None:
    screen = at_home(level(), placing=True)

    assert screen.details()["choices"][:3] == [  # type: ignore[index]
        "Practise: A blip",
        "Find my place",
        "Choose a level",
    ]
    assert "up to 12 repetitions, stage by stage" in said(screen)
    assert label_of(do(screen, Action.NEXT, Action.GO)) == "Find my place"


def test_home_counts_what_is_passed_and_says_so_where_some_was_placed() -> None:
    assert "10 of 34 passed" in said(home(LEVELS, passed=10))
    assert "10 of 34 passed or placed" in said(home(LEVELS, passed=7, placed=3))


def test_the_ladder_says_what_the_marks_of_another_day_mean_where_there_are_any() -> None:
    kept = ladder_stages(LEVELS, ids(LEVELS[:8]), retention=retentions(LEVELS, 4))

    words = {"kept: clean again on a later day", "kept well: and after a week too"}
    assert {"passed", *words} <= set(said(Ladder(kept, LEVELS[8])))
    assert words.isdisjoint(said(ladder(LEVELS, passed=8)))


def test_a_level_says_its_state_and_when_it_is_due_again() -> None:
    stages = ladder_stages(LEVELS, ids(LEVELS[:4]), retention=retentions(LEVELS, 3))
    due = {LEVELS[0].id: "again in 5 days", LEVELS[3].id: "again tomorrow"}

    texts = said(LevelList(stages[0], stages, due=due))

    stands = ("kept well, again in 5 days: ", "kept well: ", "kept: ", "passed, again tomorrow: ")
    notes = [text for text in texts if "Keep the brake" in text]
    assert len(notes) == len(stands)
    assert all(note.startswith(stand) for note, stand in zip(notes, stands, strict=True))


def test_a_level_that_is_partly_luck_is_marked_and_the_others_are_not() -> None:
    lucky = frozenset({"stillness-1", "stillness-2"})

    passed, opened, *_ = [
        text for text in said(level_list(LEVELS, passed=1, lucky=lucky)) if "partly luck" in text
    ]
    unmarked = said(level_list(LEVELS, passed=1))

    assert passed.startswith("passed, partly luck: ")
    assert opened.startswith("partly luck: ")
    assert not any("luck" in text for text in unmarked)


def test_a_closed_level_that_is_partly_luck_is_marked_too() -> None:
    texts = said(level_list(LEVELS, lucky=frozenset({"stillness-2"})))

    assert "Stillness 2 (partly luck): opens after Stillness 1" in texts
    assert "Stillness 3: opens after Stillness 2" in texts


def test_the_walk_offers_every_stage_and_begins_where_the_player_stands() -> None:
    screen = ladder(LEVELS, passed=12)

    assert screen.details() == {"choices": [*SIZES, "Back"], "selected": 2}
    assert chosen_stage(screen, Action.GO) == "quiet blip"


def test_a_stage_that_was_passed_can_be_walked_back_to() -> None:
    assert chosen_stage(ladder(LEVELS, passed=12), Action.PREVIOUS, Action.GO) == "first blip"


def test_every_step_of_the_walk_moves_the_mark_one_stage_up_and_back_marks_none() -> None:
    plain = boxes_around_names(ladder(LEVELS, moves=len(SIZES)))

    marked = [
        {name for name, boxes in boxes_around_names(walked).items() if boxes > plain[name]}
        for walked in (ladder(LEVELS, moves=moves) for moves in range(len(SIZES)))
    ]

    assert marked == [{stage} for stage in SIZES]


def boxes_around_names(screen: Menu[Any]) -> dict[str, int]:
    """How many boxes are drawn around the name of each stage on its step."""
    canvas = shown(screen, WIDE)
    names = {text.text: text.ink for text in reversed(canvas.texts) if text.text in SIZES}
    return {name: sum(box.contains(ink) for box in canvas.boxes) for name, ink in names.items()}


def test_a_closed_stage_cannot_be_entered_and_says_what_opens_it() -> None:
    screen = ladder(LEVELS)

    assert do(screen, Action.NEXT, Action.GO) is None
    assert "opens after Stillness 4" in said(screen)
    assert do(screen, Action.PREVIOUS, Action.GO) is not None


def test_a_stage_without_its_pedal_cannot_be_entered_even_where_it_was_passed() -> None:
    screen = ladder(LEVELS, passed=len(LEVELS), pedals=TWO)

    assert do(screen, Action.PREVIOUS, Action.GO) is None
    assert "needs a clutch" in said(screen)


def test_a_branch_says_that_no_other_stage_needs_it() -> None:
    screen = ladder(LEVELS, passed=30)

    assert "1 of 2 passed, no other stage needs it" in said(screen)


@pytest.mark.parametrize("size", [(640, 360), (1280, 720), (1080, 1920)])
@pytest.mark.parametrize("stage", ["stillness", "first blip", "everything"])
def test_a_click_on_a_step_enters_its_stage(size: tuple[int, int], stage: str) -> None:
    screen = ladder(LEVELS, passed=len(LEVELS))
    step = next(text for text in shown(screen, size).texts if text.text == stage)

    screen.on_pointer(step.ink.center, pressed=True)

    assert getattr(screen.outcome, "name", None) == stage


def test_a_click_on_the_words_of_the_stage_enters_it_and_one_on_back_leads_home() -> None:
    entering, leaving = ladder(LEVELS, passed=12), ladder(LEVELS, passed=12)
    words = [text for text in shown(entering).texts if text.text == "quiet blip"][-1]
    back = next(text for text in shown(leaving).texts if text.text == "Back")

    entering.on_pointer(words.ink.center, pressed=True)
    leaving.on_pointer(back.ink.center, pressed=True)

    assert getattr(entering.outcome, "name", None) == "quiet blip"
    assert leaving.outcome is Back.HOME


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

    assert texts[0] == "Stillness"
    trains = [level.purpose for level in LEVELS[:4]]
    assert notes == [
        f"placed: {trains[0]}",
        f"placed: {trains[1]}",
        f"passed: {trains[2]}",
        trains[3],
    ]


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


def test_more_stages_than_have_room_come_into_sight_as_the_walk_reaches_them() -> None:
    many = [level(id=f"a-{n}", title=f"A {n}", stage=f"stage {n}") for n in range(12)]
    screen = ladder(many)
    seen = []

    for _ in many:
        canvas = shown(screen, WIDE)
        seen.append([text.text for text in canvas.texts])
        screen.on_action(Action.NEXT)

    for number, texts in enumerate(seen):
        assert texts.count(f"stage {number}") == 2
