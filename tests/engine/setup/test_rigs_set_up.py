"""Pedals of a rig that are set up: kept as a new rig, in place of another, or as the same one."""

from datetime import UTC, datetime
from pathlib import Path

from engine.practice.changes import Changed
from engine.setup.saved_rigs import keep_binding, remove_rig, saved_rigs
from engine.stage.scene import Attended
from engine.store.changes import all_changes
from engine.store.rigs import USED
from tests.engine.game.rigged import FULL, REST
from tests.engine.pedals.joysticks import Pad
from tests.engine.setup.saved_pads import bound, game, typed


def test_a_rig_is_added_named_and_noted_and_the_first_keeps_its_ends(
    tmp_path: Path, home_pad: Pad
) -> None:
    rigged = game(tmp_path, home_pad, rigs=[("", bound(home_pad, full=0.75))])

    rigged.walk(
        ("home", "More"),
        ("more", "Rigs"),
        ("rigs", "Add a rig"),
        ("rig name", "travel"),
        *rigged.set_up(home_pad),
        ("rigs", "travel"),
        ("rig", "Spacing and shoes"),
        ("typing", typed("narrow, thin soles")),
        ("rigs", "no name yet"),
        ("rig", "Name"),
        ("rig name", "home"),
        ("rigs", "Back"),
        ("home", "Leave"),
    )

    travel, first = saved_rigs(rigged.history)
    assert (first.name, first.binding.brake.range.full) == ("home", 0.75)
    assert (travel.name, travel.note) == ("travel", "narrow, thin soles")
    assert travel.binding.brake.range.full == FULL
    assert rigged.rig.number == travel.number


def test_other_pedals_are_kept_as_a_rig_of_their_own(
    tmp_path: Path, home_pad: Pad, travel_pad: Pad
) -> None:
    rigged = game(tmp_path, travel_pad, rigs=[("home", bound(home_pad))])

    rigged.walk(
        ("no pedals", "Set up what is plugged in"),
        *rigged.set_up(travel_pad),
        ("keep as", "A rig of its own"),
        ("rig name", "Back"),
        ("keep as", "A rig of its own"),
        ("rig name", "travel"),
        ("home", "Leave"),
    )

    assert [saved.name for saved in saved_rigs(rigged.history)] == ["travel", "home"]


def test_pedals_of_another_saved_rig_are_kept_as_that_rig(
    tmp_path: Path, home_pad: Pad, travel_pad: Pad
) -> None:
    rigs = [("travel", bound(travel_pad, full=0.75)), ("home", bound(home_pad))]
    rigged = game(tmp_path, home_pad, travel_pad, rigs=rigs)

    rigged.walk(
        ("which rig", "home"),
        ("home", "More"),
        ("more", "Set up the pedals"),
        ("which pedals", "All pedals"),
        *rigged.set_up(travel_pad),
        ("home", "Leave"),
    )

    travel, home = saved_rigs(rigged.history)
    assert (travel.name, travel.binding.brake.range.full) == ("travel", FULL)
    assert (home.name, home.binding) == ("home", bound(home_pad))
    assert rigged.rig.number == travel.number


def test_any_saved_pedals_that_come_while_others_are_set_up_are_offered(
    tmp_path: Path, home_pad: Pad, travel_pad: Pad
) -> None:
    wheel = Pad(REST, REST, name="Wheel", guid="c" * 32)
    rigs = [("travel", bound(travel_pad)), ("home", bound(home_pad))]
    rigged = game(tmp_path, wheel, rigs=rigs)

    def plug(screen: Attended) -> None:
        rigged.joysticks.plug(travel_pad)
        screen.on_devices(cut=rigged.rig.rescan().cut)

    rigged.walk(
        ("no pedals", "Set up what is plugged in"),
        ("pedals", plug),
        ("pedals came", "Play with them"),
        ("home", "Leave"),
    )

    assert rigged.rig.number == 1
    assert [saved.name for saved in saved_rigs(rigged.history)] == ["travel", "home"]


def test_other_pedals_can_replace_those_of_a_rig(
    tmp_path: Path, home_pad: Pad, travel_pad: Pad
) -> None:
    rigged = game(tmp_path, travel_pad, rigs=[("home", bound(home_pad))])

    rigged.walk(
        ("no pedals", "Set up what is plugged in"),
        *rigged.set_up(travel_pad),
        ("keep as", "In place of: home"),
        ("home", "Leave"),
    )

    [saved] = saved_rigs(rigged.history)
    assert saved.binding.brake.device.name == "Light set"


def test_a_rig_that_is_set_up_anew_is_the_one_in_use_after_the_last_was_removed(
    tmp_path: Path, home_pad: Pad
) -> None:
    rigged = game(tmp_path, home_pad, rigs=[("a", bound(home_pad)), ("b", bound(home_pad))])
    history = rigged.history
    remove_rig(history, 2)

    number = keep_binding(
        history, bound(home_pad, full=FULL / 2), datetime(2024, 5, 17, tzinfo=UTC)
    )

    assert (number, history.setting(USED)) == (1, 1)
    assert [change.what for change in all_changes(history)] == [Changed.SCALE]
