"""Practising the next level from the ladder, and choosing a stage by walking it."""

from typing import Any

import pytest

from engine.kit import theme
from engine.kit.base import Menu
from engine.ladder.ladder import ladder_stages
from engine.ladder.ladder_screen import ABOVE_BAR, Ladder
from engine.ladder.level_list import Instead
from engine.stage.actions import Action
from tests.engine.five.pictures import retentions
from tests.engine.kit.test_choices import shown
from tests.engine.ladder.pictures import ladder
from tests.engine.ladder.stages import (
    ASIDE,
    SIZES,
    TWO,
    climbed,
    ids,
    made_levels,
    ten_stages,
)
from tests.made import level

LEVELS = made_levels()
WIDE = (1920, 1080)
CLIMB_BOTTOM = theme.BAR - ABOVE_BAR


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


def test_the_ladder_offers_to_find_a_place_after_the_next_level_where_it_is_wanted() -> None:
    stages, following = climbed(LEVELS)
    offered = Ladder(stages, following, placing=True)

    assert do(offered, Action.NEXT, Action.GO) is Instead.FIND_PLACE
    assert "Up to 12 repetitions show which stage to begin at." in said(offered)
    assert "Find my place" not in said(Ladder(stages, following))


def test_the_next_level_is_selected_first_with_its_purpose_and_limit() -> None:
    screen = ladder(LEVELS, passed=12)

    texts = said(screen)

    assert {LEVELS[12].title, LEVELS[12].purpose, "Dip: at most 15 points"} <= set(texts)
    assert do(screen, Action.GO) is LEVELS[12]


def test_the_ladder_leads_back_to_the_stage_it_was_left_at() -> None:
    stages, following = climbed(LEVELS, 12)

    assert do(Ladder(stages, following, begin=stages[0]), Action.GO) is stages[0]


def test_the_ladder_says_what_the_marks_of_another_day_mean_where_there_are_any() -> None:
    kept = ladder_stages(LEVELS, ids(LEVELS[:8]), retention=retentions(LEVELS, 4))

    words = {"retained: on a later day", "well retained: after a week"}
    assert {"passed", *words} <= set(said(Ladder(kept, LEVELS[8])))
    assert words.isdisjoint(said(ladder(LEVELS, passed=8)))


def test_the_walk_offers_every_stage_and_begins_where_the_player_stands() -> None:
    screen = ladder(LEVELS, passed=12)

    names = list(SIZES)
    assert screen.details() == {
        "choices": [*names[:2], "Practise", *names[2:], "Back"],
        "selected": 2,
        "next": LEVELS[12].id,
    }
    assert chosen_stage(screen, Action.NEXT, Action.GO) == "quiet blip"


def test_a_stage_that_was_passed_can_be_walked_back_to() -> None:
    assert chosen_stage(ladder(LEVELS, passed=12), Action.PREVIOUS, Action.GO) == "first blip"


def test_every_step_of_the_walk_moves_the_mark_one_stage_up_and_back_marks_none() -> None:
    marked = [stages_marked(ladder(LEVELS, moves=moves)) for moves in range(len(SIZES) + 2)]

    assert marked == [set(), *({stage} for stage in SIZES), set()]


def stages_marked(screen: Menu[Any]) -> set[str]:
    """Names of the stages whose step is filled as the selected one is."""
    canvas = shown(screen, WIDE)
    names = {text.text: text.ink.left + 10 for text in canvas.texts if text.text in SIZES}
    return {
        name
        for name, x in names.items()
        if canvas.surface.get_at((x, CLIMB_BOTTOM - 20))[:3] == theme.BAND
    }


def test_a_closed_stage_cannot_be_entered_and_says_what_opens_it() -> None:
    screen = ladder(LEVELS)

    assert do(screen, Action.NEXT, Action.NEXT, Action.GO) is None
    assert "Opens after Stillness 4." in said(screen)
    assert do(screen, Action.PREVIOUS, Action.GO) is not None


def test_a_stage_without_its_pedal_cannot_be_entered_even_where_it_was_passed() -> None:
    stages, following = climbed(LEVELS, len(LEVELS), pedals=TWO)
    clutch = next(stage for stage in stages if stage.name == ASIDE)
    screen = Ladder(stages, following, TWO, clutch)

    assert do(screen, Action.GO) is None
    assert "Needs a clutch." in said(screen)


def test_a_branch_says_that_no_other_stage_needs_it() -> None:
    screen = ladder(LEVELS, passed=30, moves=1)

    assert "1 of 2 passed, no other stage needs it." in said(screen)


@pytest.mark.parametrize("size", [(640, 360), (1280, 720), (1080, 1920)])
@pytest.mark.parametrize("stage", ["stillness", "first blip", "everything"])
def test_a_click_on_a_step_enters_its_stage(size: tuple[int, int], stage: str) -> None:
    screen = ladder(LEVELS, passed=len(LEVELS))
    canvas = shown(screen, size)
    name = next(text for text in canvas.texts if text.text == stage)

    screen.on_pointer(name.ink.center, pressed=True)

    assert getattr(screen.outcome, "name", None) == stage


@pytest.mark.parametrize(
    ("label", "outcome"),
    [
        ("Practise", LEVELS[0]),
        ("Find my place", Instead.FIND_PLACE),
        ("Back", Instead.HOME),
    ],
)
def test_a_click_on_a_button_of_the_ladder_takes_it(label: str, outcome: object) -> None:
    screen = Ladder(*climbed(LEVELS), placing=True)
    button = next(text for text in shown(screen).texts if text.text == label)

    screen.on_pointer(button.ink.center, pressed=True)

    assert screen.outcome is outcome


def test_more_stages_than_have_room_come_into_sight_as_the_walk_reaches_them() -> None:
    many = [level(id=f"a-{n}", title=f"A {n}", stage=f"stage {n}") for n in range(12)]
    screen = ladder(many)
    seen = []

    for _ in range(len(many) + 1):
        canvas = shown(screen, WIDE)
        seen.append([text.text for text in canvas.texts])
        screen.on_action(Action.NEXT)

    for number, texts in enumerate(seen[1:]):
        assert f"stage {number}" in texts
        assert f"Stage {number}" in texts


@pytest.mark.parametrize("passed", [0, 9, 21, 30, 36, 42])
@pytest.mark.parametrize("moves", [0, 1, 2, 3, 5, 8, 9])
def test_the_ladder_names_all_of_ten_stages_wherever_one_walks_on_it(
    passed: int, moves: int
) -> None:
    levels = ten_stages()

    written = " ".join(said(ladder(levels, passed, moves=moves)))

    for stage in {one.stage or "your own" for one in levels}:
        assert stage in written or set(stage.split()) <= set(written.split()), stage
