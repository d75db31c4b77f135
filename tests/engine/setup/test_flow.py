"""Setup of all pedals, or of one while the others stay as they are."""

import json

import pytest

from engine.practice.changes import Changed
from engine.setup.choice_screens import WhichPedals
from engine.stage.actions import Action
from engine.stage.scene import Attended
from engine.store.changes import all_changes
from tests.engine.setup.plugged_devices import BRAKE, CLUTCH, REST, THROTTLE, WHOLE, Bench
from tests.engine.walking import Step, back


def test_all_three_pedals_are_set_up_and_saved(bench: Bench) -> None:
    done = bench.walk(*bench.everything())

    assert done
    assert bench.saved == WHOLE


@pytest.mark.parametrize(
    ("label", "axis", "name"),
    [
        ("Brake only", BRAKE, "brake"),
        ("Throttle only", THROTTLE, "throttle"),
        ("Clutch only", CLUTCH, "clutch"),
    ],
)
def test_a_single_pedal_is_set_up_again_and_the_others_stay(
    ready: Bench, label: str, axis: int, name: str
) -> None:
    done = ready.walk(
        ("which pedals", label),
        ("pedals", ready.rest),
        ("pedals", ready.presses(axis, full=0.5)),
        ("pedals", ready.rest),
        ("pedals found", "Keep them"),
    )

    assert done
    assert ready.saved == {**WHOLE, name: (axis, REST, 0.5)}


def test_the_choice_of_pedals_shows_device_and_axis_of_each(ready: Bench) -> None:
    seen: list[str] = []

    def look(screen: Attended) -> None:
        assert isinstance(screen, WhichPedals)
        seen.extend(choice.note for choice in screen._choices)
        back(screen)

    done = ready.walk(("which pedals", look))

    assert not done
    assert seen == ["", "axis 1 of Pedals", "axis 2 of Pedals", "axis 3 of Pedals", ""]
    assert ready.rig.is_feet


def test_one_pedal_can_be_set_up_again_before_all_are_saved(ready: Bench) -> None:
    ready.walk(
        ("which pedals", "Brake only"),
        ("pedals", ready.rest),
        ("pedals", ready.presses(BRAKE, full=0.25)),
        ("pedals", ready.rest),
        ("pedals found", "Throttle again"),
        ("pedals", ready.rest),
        ("pedals", ready.presses(THROTTLE, full=0.625)),
        ("pedals", ready.rest),
        ("pedals found", "Keep them"),
    )

    assert ready.saved == {
        **WHOLE,
        "brake": (BRAKE, REST, 0.25),
        "throttle": (THROTTLE, REST, 0.625),
    }


def test_a_single_pedal_that_was_found_and_not_saved_changes_nothing(ready: Bench) -> None:
    done = ready.walk(
        ("which pedals", "Brake only"),
        ("pedals", ready.rest),
        ("pedals", ready.presses(BRAKE, full=0.25)),
        ("pedals", ready.rest),
        ("pedals found", back),
        ("pedals menu", "Go on"),
        ("pedals found", back),
        ("pedals menu", "Stop setting up"),
    )

    assert not done
    assert ready.saved == WHOLE
    assert ready.rig.is_feet


def found_again(bench: Bench, axis: int, full: float) -> list[tuple[str, Step]]:
    """Steps that find the brake with a full press."""
    return [("pedals", bench.rest), ("pedals", bench.presses(axis, full=full))]


def test_two_soft_presses_are_asked_about_and_a_harder_one_is_taken(ready: Bench) -> None:
    ready.walk(
        ("which pedals", "Brake only"),
        *found_again(ready, BRAKE, -0.25),
        ("soft press", ready.chooses(taps=0)),
        *found_again(ready, BRAKE, 0.5),
        ("pedals", ready.rest),
        ("pedals found", "Keep them"),
    )

    assert ready.saved == {**WHOLE, "brake": (BRAKE, REST, 0.5)}


def test_a_player_who_says_that_it_was_fully_is_asked_no_more(ready: Bench) -> None:
    ready.walk(
        ("which pedals", "Brake only"),
        *found_again(ready, BRAKE, -0.25),
        ("soft press", ready.chooses(taps=1)),
        ("pedals", ready.rest),
        ("pedals found", "Keep them"),
    )

    assert ready.saved == {**WHOLE, "brake": (BRAKE, REST, -0.25)}


def test_presses_that_are_soft_again_are_asked_about_once(ready: Bench) -> None:
    ready.walk(
        ("which pedals", "Brake only"),
        *found_again(ready, BRAKE, -0.25),
        ("soft press", back),
        *found_again(ready, BRAKE, -0.25),
        ("pedals", ready.rest),
        ("pedals found", "Keep them"),
    )

    assert ready.saved == {**WHOLE, "brake": (BRAKE, REST, -0.25)}


def test_pedals_that_are_tried_choose_nothing_and_both_open_the_menu(
    bench: Bench,
) -> None:
    *steps, _ = bench.everything()

    done = bench.walk(
        *steps,
        ("pedals found", bench.tries),
        ("pedals menu", bench.chooses(taps=0)),
    )

    assert done
    assert bench.saved == WHOLE


def test_who_goes_on_from_that_menu_tries_the_pedals_further(bench: Bench) -> None:
    *steps, _ = bench.everything()

    bench.walk(
        *steps,
        ("pedals found", bench.tries),
        ("pedals menu", bench.chooses(taps=1)),
        ("pedals found", "Keep them"),
    )

    assert bench.saved == WHOLE


@pytest.mark.parametrize(
    ("full", "what"),
    [(0.5, Changed.SCALE), (0.953125, Changed.SET_UP), (1.0, None)],
    ids=["a quarter softer", "2 % softer", "as before"],
)
def test_a_set_up_that_replaces_another_is_remembered_as_a_change(
    ready: Bench, full: float, what: Changed | None
) -> None:
    ready.walk(
        ("which pedals", "Brake only"),
        *found_again(ready, BRAKE, full),
        ("pedals", ready.rest),
        ("pedals found", "Keep them"),
    )

    with ready.history.reading() as db:
        ends = db.execute("SELECT old_ends, new_ends FROM change").fetchall()
    assert [change.what for change in all_changes(ready.history)] == ([what] if what else [])
    old, throttle = [-1.0, 1.0], [-1.0, 1.0]
    for before, after in ends:
        assert json.loads(before) == [old, throttle, [-1.0, 1.0]]
        assert json.loads(after) == [[-1.0, full], throttle, [-1.0, 1.0]]


def test_the_first_set_up_is_no_change(bench: Bench) -> None:
    bench.walk(*bench.everything())

    assert all_changes(bench.history) == []


def test_a_clutch_can_be_taken_away_by_itself(ready: Bench) -> None:
    def without(screen: Attended) -> None:
        screen.on_action(Action.GO)

    ready.walk(
        ("which pedals", "Clutch only"),
        ("pedals", ready.rest),
        ("pedals", without),
        ("pedals", ready.rest),
        ("pedals found", "Keep them"),
    )

    assert ready.saved.keys() == {"brake", "throttle"}


def test_another_pedal_that_reads_as_pressed_restarts_the_setup_with_all_pedals(
    ready: Bench,
) -> None:
    def held(screen: Attended) -> None:
        ready.pad.move(THROTTLE, 0.5)
        ready.look(screen, 7.0)

    ready.walk(
        ("which pedals", "Brake only"),
        ("pedals", held),
        *ready.everything(),
    )

    assert ready.notes[0].startswith("A pedal read as pressed")
    assert ready.saved == WHOLE
