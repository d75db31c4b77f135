"""Several rigs, each with its own calibration: chosen by what is plugged in, asked when two fit."""

from pathlib import Path

import pytest

from drills.calibration import Range
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.identity import Identity
from engine.setup.rigs import NamedRig, is_plugged, rigs_words, why_not_named
from engine.setup.saved_rigs import add_rig, note_rig, remove_rig, saved_rigs, use_rig
from engine.stage.actions import Action
from engine.stage.scene import Attended
from tests.engine.game.rigged import FULL, REST
from tests.engine.pedals.joysticks import Pad
from tests.engine.setup.saved_pads import bound, game, typed

Seen = list[str]


def test_the_rig_that_is_plugged_in_is_played_with_and_nothing_is_asked(
    tmp_path: Path, home_pad: Pad, travel_pad: Pad
) -> None:
    rigs = [("home", bound(home_pad)), ("travel", bound(travel_pad))]
    rigged = game(tmp_path, home_pad, rigs=rigs)

    rigged.walk(("home", "Leave"))

    assert rigged.rig.number == 1
    assert [saved.name for saved in saved_rigs(rigged.history)] == ["home", "travel"]


def test_where_two_rigs_fit_it_is_asked_which_one_this_is(tmp_path: Path, home_pad: Pad) -> None:
    rigs = [("wide", bound(home_pad)), ("narrow", bound(home_pad, full=0.5))]
    rigged = game(tmp_path, home_pad, rigs=rigs)

    rigged.walk(("which rig", "wide"), ("home", "Leave"))

    assert rigged.rig.number == 1
    pedals = rigged.rig.pedals
    assert pedals is not None
    assert pedals.calibration.brake.full == FULL


def test_the_rig_that_was_played_with_last_comes_first_and_can_be_chosen_by_foot(
    tmp_path: Path, home_pad: Pad
) -> None:
    rigs = [("wide", bound(home_pad)), ("narrow", bound(home_pad, full=0.5))]
    rigged = game(tmp_path, home_pad, rigs=rigs)
    seen: Seen = []

    def look(screen: Attended) -> None:
        labels = screen.details()["choices"]
        assert isinstance(labels, list)
        seen.extend(labels)
        assert rigged.rig.number == 2
        screen.on_action(Action.GO)

    rigged.walk(("which rig", look), ("home", "Leave"))

    assert seen == ["narrow", "wide"]
    assert rigged.rig.number == 2


def test_it_is_asked_too_when_the_pedals_are_plugged_in_later(
    tmp_path: Path, home_pad: Pad
) -> None:
    rigs = [("wide", bound(home_pad)), ("narrow", bound(home_pad, full=0.5))]
    rigged = game(tmp_path, rigs=rigs)

    def plug(screen: Attended) -> None:
        rigged.joysticks.plug(home_pad)
        screen.on_devices(cut=rigged.rig.rescan().cut)

    rigged.walk(
        ("no pedals", "Try with the mouse"),
        ("home", plug),
        ("which rig", "wide"),
        ("home", "Leave"),
    )

    assert rigged.rig.number == 1


def test_another_rig_is_taken_when_it_is_plugged_in_place_of_the_first(
    tmp_path: Path, home_pad: Pad, travel_pad: Pad
) -> None:
    rigs = [("travel", bound(travel_pad)), ("home", bound(home_pad))]
    rigged = game(tmp_path, home_pad, rigs=rigs)

    def swap(screen: Attended) -> None:
        rigged.joysticks.pull(home_pad)
        rigged.joysticks.plug(travel_pad)
        cut = rigged.rig.rescan().cut
        screen.on_devices(cut=cut)

    rigged.walk(("home", swap), ("home", "Leave"))

    assert rigged.rig.number == 1
    assert saved_rigs(rigged.history)[0].name == "travel"


def test_a_name_that_is_taken_is_refused_whatever_its_case(tmp_path: Path, home_pad: Pad) -> None:
    rigs = [("Wide", bound(home_pad)), ("narrow", bound(home_pad))]
    rigged = game(tmp_path, home_pad, rigs=rigs)

    rigged.walk(
        ("which rig", "narrow"),
        ("home", "More"),
        ("more", "Rigs"),
        ("rigs", "narrow"),
        ("rig", "Name"),
        ("rig name", "Another name"),
        ("typing", typed("wIDE")),
        ("rig name", "Back"),
        ("rigs", "Back"),
        ("home", "Leave"),
    )

    assert sorted(saved.name for saved in saved_rigs(rigged.history)) == ["Wide", "narrow"]


def test_a_removed_rig_is_offered_no_more_and_its_number_is_not_used_again(
    tmp_path: Path, home_pad: Pad
) -> None:
    rigs = [("wide", bound(home_pad)), ("narrow", bound(home_pad))]
    rigged = game(tmp_path, home_pad, rigs=rigs)

    rigged.walk(
        ("which rig", "narrow"),
        ("home", "More"),
        ("more", "Rigs"),
        ("rigs", "wide"),
        ("rig", "Remove it"),
        ("remove rig", "Keep it"),
        ("rigs", "wide"),
        ("rig", "Remove it"),
        ("remove rig", "Remove it"),
        ("rigs", "Back"),
        ("home", "Leave"),
    )

    assert [saved.name for saved in saved_rigs(rigged.history)] == ["narrow"]
    assert add_rig(rigged.history, bound(home_pad), "third") == 3


def test_a_rig_on_two_devices_of_one_model_needs_both() -> None:
    first, second = (Identity("a", "Twin", 2, ordinal, 2) for ordinal in (0, 1))
    ends = Range(REST, FULL)
    twins = Binding(BoundAxis(first, 0, ends), BoundAxis(second, 0, ends))

    assert not is_plugged(twins, {"a": 1})
    assert is_plugged(twins, {"a": 2})


@pytest.mark.parametrize("name", ["", "  ", "Home", " home "])
def test_a_second_rig_needs_a_name_of_its_own(name: str, home_pad: Pad) -> None:
    assert why_not_named(name, [NamedRig(1, "home", "", bound(home_pad))])
    assert not why_not_named("travel", [NamedRig(1, "home", "", bound(home_pad))])


def test_more_says_which_rig_is_in_use_where_there_are_several(home_pad: Pad) -> None:
    home, travel = (
        NamedRig(number, name, "", bound(home_pad)) for number, name in ((1, "home"), (2, "travel"))
    )

    assert rigs_words([home], 1) == "each with its own calibration"
    assert rigs_words([home, travel], 2) == "travel, 2 in all"
    assert rigs_words([home, travel], None) == "2 in all"


def test_the_last_rig_used_comes_first_after_it_was_removed_too(
    tmp_path: Path, home_pad: Pad
) -> None:
    rigged = game(tmp_path, home_pad, rigs=[("a", bound(home_pad)), ("b", bound(home_pad))])
    history = rigged.history
    note_rig(history, 2, "  thin soles ")
    use_rig(history, 2)
    assert [(saved.name, saved.note) for saved in saved_rigs(history)] == [
        ("b", "thin soles"),
        ("a", ""),
    ]

    remove_rig(history, 2)

    assert [saved.name for saved in saved_rigs(history)] == ["a"]
