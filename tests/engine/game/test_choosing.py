"""Choosing a level from home through the ladder, and going back the same way."""

from typing import Any

import pytest

from drills.level import PassRule
from drills.score import Reason, Verdict
from drills.trace import Pedal
from engine.ladder.ladder import YOUR_OWN
from engine.stage.actions import Action
from engine.stage.scene import Attended
from engine.store import ledger
from engine.store.repetitions import add_repetition
from tests.engine.game.rigged import LEVELS, READ, Rigged
from tests.engine.ladder.stages import SIZES, ids, made_levels
from tests.engine.pedals.joysticks import Pad
from tests.engine.walking import Step, back, choose
from tests.made import level, record
from tests.stored import all_results

LONG = made_levels("Three blips")
BY_MOUSE = [READ, ("no pedals", "Try with the mouse")]


def choices(seen: list[Any]) -> Step:
    """Step that stores the labels of the choices in `seen` and goes back."""

    def step(screen: Attended) -> None:
        seen.append(screen.details()["choices"])
        back(screen)

    return step


def begins(seen: list[Any]) -> Step:
    """Step that stores the label selected at first in `seen` and goes back."""

    def step(screen: Attended) -> None:
        labels, selected = screen.details()["choices"], screen.details()["selected"]
        assert isinstance(labels, list)
        seen.append(labels[selected])  # type: ignore[call-overload]
        back(screen)

    return step


def passes(game: Rigged, names: frozenset[str]) -> None:
    """Pass some levels by feet, with one clean repetition each."""
    clean = Verdict(Reason.CLEAN, 90.0)
    for name in sorted(names):
        add_repetition(
            game.history, record(level=name, verdict=clean, trace=None, rule=PassRule(1, 1))
        )


def test_a_try_out_with_the_mouse_stores_nothing_and_opens_every_level(bare: Rigged) -> None:
    opened: list[list[str]] = []
    playable = [level for level in LEVELS if Pedal.CLUTCH not in level.pedals]
    stages = list(dict.fromkeys(level.stage for level in playable))
    walks: list[tuple[str, Step]] = []
    for stage in stages:
        walks += [("ladder", stage), ("levels", choices(opened))]

    bare.walk(*BY_MOUSE, ("home", "Practise"), *walks, ("ladder", "Back"), ("home", "Leave"))

    assert [name for labels in opened for name in labels if name != "Back"] == [
        level.title for level in playable
    ]
    assert bare.rig.means.label == "Try-out: nothing is saved"
    assert list(all_results(bare.history)) == []


def test_back_leads_from_the_levels_to_their_stage_and_from_there_home(bare: Rigged) -> None:
    bare.levels = LONG
    seen: list[str] = []

    bare.walk(
        *BY_MOUSE,
        ("home", "Practise"),
        ("ladder", "quiet blip"),
        ("levels", "Back"),
        ("ladder", begins(seen)),
        ("home", "Leave"),
    )

    assert seen == ["quiet blip"]


def test_the_next_level_is_practised_at_once(bare: Rigged) -> None:
    playing = bare.flow()
    steps = dict([*BY_MOUSE, ("home", "Practise")])
    seen: list[str] = []

    for scene in playing:
        seen.append(scene.screen.name)
        if scene.screen.name == "repetition" or len(seen) > len(steps) + 2:
            break
        if scene.screen.name in steps:
            choose(scene.screen, str(steps[scene.screen.name]))
        else:
            scene.screen.on_action(Action.GO)
    playing.close()

    assert seen == [*steps, "ladder", "lesson", "repetition"]


def test_find_my_place_is_a_tap_from_the_next_level_of_a_new_player(game: Rigged, pad: Pad) -> None:
    def finds_a_place(screen: Attended) -> None:
        screen.on_action(Action.NEXT)
        screen.on_action(Action.GO)

    game.walk(
        READ,
        *game.set_up(pad),
        ("home", "Practise"),
        ("ladder", finds_a_place),
        ("before placing", "Back"),
        ("home", "Leave"),
    )


def test_a_level_that_is_chosen_is_practised(bare: Rigged) -> None:
    bare.levels = [level(id="one", title="One"), level(id="two", title="Two")]
    stage = bare.levels[0].stage or YOUR_OWN
    steps = dict([*BY_MOUSE, ("home", "Practise"), ("ladder", stage), ("levels", "Two")])
    playing = bare.flow()
    seen: list[str] = []

    for scene in playing:
        seen.append(scene.screen.name)
        if scene.screen.name == "repetition" or len(seen) > len(steps) + 2:
            break
        if scene.screen.name in steps:
            choose(scene.screen, str(steps[scene.screen.name]))
        else:
            scene.screen.on_action(Action.GO)
    playing.close()

    assert seen == [*steps, "way", "lesson", "repetition"]


def test_a_closed_stage_cannot_be_entered_and_an_open_one_can(game: Rigged, pad: Pad) -> None:
    game.levels = LONG
    passes(game, ids(LONG[: SIZES["stillness"]]))
    seen: list[Any] = []

    def tries_the_next_one_too(screen: Attended) -> None:
        for action in (Action.NEXT, Action.NEXT, Action.GO):
            screen.on_action(action)
        seen.append(screen.outcome)
        for action in (Action.PREVIOUS, Action.GO):
            screen.on_action(action)

    game.walk(
        READ,
        *game.set_up(pad),
        ("home", "Practise"),
        ("ladder", tries_the_next_one_too),
        ("levels", choices(seen)),
        ("ladder", "Back"),
        ("home", "Leave"),
    )

    assert seen == [None, ["First blip 1", "Back"]]


@pytest.mark.parametrize("played", [0, 4])
def test_levels_skipped_by_a_placing_set_open_the_levels_after_them(
    game: Rigged, pad: Pad, played: int
) -> None:
    game.levels = LONG
    passes(game, ids(LONG[:played]))
    ledger.keep_placed(game.history, ids(LONG[:10]))
    seen: list[Any] = []

    def names_the_next(screen: Attended) -> None:
        seen.append(screen.details()["next"])
        back(screen)

    game.walk(
        READ,
        *game.set_up(pad),
        ("home", "Practise"),
        ("ladder", names_the_next),
        ("home", "Leave"),
    )

    assert seen == ["quiet-blip-1"]
