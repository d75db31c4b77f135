"""Setup of all pedals, or of one while the others stay as they are."""

import pytest

from engine.setup.choice_screens import WhichPedals
from engine.stage.actions import Action
from engine.stage.scene import Attended
from tests.engine.setup.plugged_devices import BRAKE, CLUTCH, REST, THROTTLE, WHOLE, Bench
from tests.engine.walking import back


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
