"""Several rigs, each with its own calibration: chosen by what is plugged in, asked when two fit."""

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest

from drills.calibration import Range
from engine.game.flow import CAUTIONS_READ
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.identity import Identity, short_guid
from engine.practice.changes import Changed
from engine.setup.rigs import NamedRig, is_plugged, rigs_words, why_not_named
from engine.setup.saved_rigs import (
    add_rig,
    keep_binding,
    note_rig,
    remove_rig,
    saved_rigs,
    use_rig,
)
from engine.stage.actions import Action
from engine.stage.scene import Attended
from engine.store.changes import all_changes
from engine.store.rigs import USED
from tests.engine.game.rigged import FULL, REST, Rigged
from tests.engine.pedals.joysticks import Pad

Seen = list[str]


def bound(pad: Pad, full: float = FULL) -> Binding:
    """Brake and throttle on the first two axes of a pad."""
    device = Identity(short_guid(pad.guid), pad.listed_name, len(pad.opening), 0, 1)
    return Binding(BoundAxis(device, 0, Range(REST, full)), BoundAxis(device, 1, Range(REST, full)))


@pytest.fixture
def home_pad() -> Pad:
    """Pedals of the rig at home."""
    return Pad(REST, REST, REST, name="Heavy set", guid="a" * 32)


@pytest.fixture
def travel_pad() -> Pad:
    """Pedals of the rig that travels."""
    return Pad(REST, REST, name="Light set", guid="b" * 32)


def game(folder: Path, *pads: Pad, rigs: list[tuple[str, Binding]]) -> Rigged:
    """A game with these rigs saved, the last of them played with last."""
    rigged = Rigged(folder, *pads)
    rigged.history.keep_setting(CAUTIONS_READ, True)
    for name, binding in rigs:
        add_rig(rigged.history, binding, name)
    return rigged


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
    history = game(
        tmp_path, home_pad, rigs=[("a", bound(home_pad)), ("b", bound(home_pad))]
    ).history
    note_rig(history, 2, "  thin soles ")
    use_rig(history, 2)
    assert [(saved.name, saved.note) for saved in saved_rigs(history)] == [
        ("b", "thin soles"),
        ("a", ""),
    ]

    remove_rig(history, 2)

    assert [saved.name for saved in saved_rigs(history)] == ["a"]


def test_a_rig_that_is_set_up_anew_is_the_one_in_use_after_the_last_was_removed(
    tmp_path: Path, home_pad: Pad
) -> None:
    history = game(
        tmp_path, home_pad, rigs=[("a", bound(home_pad)), ("b", bound(home_pad))]
    ).history
    remove_rig(history, 2)

    number = keep_binding(
        history, bound(home_pad, full=FULL / 2), datetime(2024, 5, 17, tzinfo=UTC)
    )

    assert (number, history.setting(USED)) == (1, 1)
    assert [change.what for change in all_changes(history)] == [Changed.SCALE]


def typed(text: str) -> Callable[[Attended], None]:
    """Step that types a text and keeps it."""

    def step(screen: Attended) -> None:
        screen.on_text(text)
        screen.on_action(Action.GO)

    return step
