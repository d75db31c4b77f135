"""Setup of the pedals within the game, also when devices are plugged in or out meanwhile."""

import pytest

from engine.setup.saved_rigs import saved_binding
from engine.setup.search import SearchEnd
from engine.setup.words import RESTART_NOTES
from engine.stage.scene import Attended
from tests.engine.game.rigged import FULL, READ, REST, Rigged
from tests.engine.pedals.joysticks import Pad
from tests.engine.walking import Step, back


def test_the_setup_with_nothing_plugged_in_says_so_and_leads_back(bare: Rigged) -> None:
    bare.walk(
        READ,
        ("no pedals", "Try with the mouse"),
        ("home", "More"),
        ("more", "Set up the pedals"),
        ("nothing plugged", "Back"),
        ("home", "Leave"),
    )

    assert bare.rig.source == "mouse"


def test_plugging_in_a_device_continues_the_setup(bare: Rigged, pad: Pad) -> None:
    def plug(screen: Attended) -> None:
        bare.joysticks.plug(pad)
        bare.rig.rescan()
        screen.on_devices(cut=False)

    bare.walk(
        READ,
        ("no pedals", "Try with the mouse"),
        ("home", "More"),
        ("more", "Set up the pedals"),
        ("nothing plugged", plug),
        *bare.set_up(pad),
        ("home", "Leave"),
    )

    assert bare.rig.source == "pedals"


def test_going_back_from_the_setup_leaves_the_old_pedals_bound(game: Rigged, pad: Pad) -> None:
    game.walk(
        READ,
        *game.set_up(pad),
        ("home", "More"),
        ("more", "Set up the pedals"),
        ("which pedals", "All pedals"),
        ("pedals", back),
        ("home", "Leave"),
    )

    assert game.rig.source == "pedals"
    assert game.rig.sample() is not None


def replugged(game: Rigged, pad: Pad) -> Step:
    """Step that unplugs the device and plugs it in again under another id."""

    def step(screen: Attended) -> None:
        game.joysticks.replug(pad)
        game.rig.rescan()
        game.look(screen, 0.1)

    return step


@pytest.mark.parametrize("done", [2, 3, 4, 5, 6], ids=lambda done: f"after {done} screens")
def test_a_found_pedal_that_is_plugged_in_again_restarts_the_setup_with_the_brake(
    game: Rigged, pad: Pad, done: int
) -> None:
    begun = game.set_up(pad)[:done]
    noted = []

    def note(screen: Attended) -> None:
        noted.append(screen._note)  # type: ignore[attr-defined]
        game.rest(screen)

    if done == 6:
        begun[-1] = ("pedals", game.moves(pad, 0, REST, FULL))
    first, *rest = game.set_up(pad)
    game.walk(
        READ,
        *begun,
        ("pedals", replugged(game, pad)),
        (first[0], note),
        *rest,
        ("home", "Leave"),
    )

    assert noted == [RESTART_NOTES[SearchEnd.LOST]]
    saved = saved_binding(game.history)
    assert saved is not None
    assert saved.throttle.axis == 1


def test_the_last_pedal_unplugged_while_setting_up_says_that_nothing_is_plugged_in(
    game: Rigged, pad: Pad
) -> None:
    def pull(screen: Attended) -> None:
        game.joysticks.pull(pad)
        game.rig.rescan()
        game.look(screen, 0.1)

    game.walk(
        READ,
        *game.set_up(pad)[:3],
        ("pedals", pull),
        ("nothing plugged", "Back"),
        ("no pedals", "Leave"),
    )

    assert saved_binding(game.history) is None


def test_a_brake_saved_inverted_is_noticed_with_the_feet_off_and_set_up_again(
    game: Rigged, pad: Pad
) -> None:
    pad.move(0, FULL)
    first, *rest = game.set_up(pad)

    game.walk(
        READ,
        ("pedals", game.rest),
        ("pedals", game.moves(pad, 0, FULL, REST, FULL, REST, FULL)),
        ("pedals", game.lets_go(pad, 0)),
        first,
        *rest,
        ("home", "Leave"),
    )

    saved = saved_binding(game.history)
    assert saved is not None
    assert (saved.brake.range.rest, saved.brake.range.full) == (REST, FULL)
