"""Which devices have buttons, as the history remembers it for the next start of the game."""

import pytest

from engine.pedals.identity import short_guid
from engine.setup.saved import BUTTONS, saved_buttons
from engine.stage.scene import Attended
from tests.engine.game.rigged import READ, Rigged
from tests.engine.pedals.joysticks import GUID, Pad

KNOWN = {short_guid(GUID): False, "e" * 28: True, "f" * 28: False}


@pytest.fixture
def wheel() -> Pad:
    """Wheel with buttons for menus."""
    return Pad(0.0, name="Wheel", guid="e" * 32, buttons=9)


@pytest.fixture
def shifter() -> Pad:
    """Device without buttons that no pedal is bound to."""
    return Pad(0.0, name="Shifter", guid="f" * 32)


def test_what_was_learned_while_setting_up_saves_openings_at_the_next_start(
    game: Rigged, pad: Pad, wheel: Pad, shifter: Pad
) -> None:
    game.joysticks.plug(wheel)
    game.joysticks.plug(shifter)
    game.walk(READ, *game.set_up(pad), ("shift button", "Go on without"), ("home", "Leave"))
    opened = [device.opened for device in (pad, wheel, shifter)]

    again = Rigged(game.history.path.parent)
    for device in (pad, wheel, shifter):
        again.joysticks.plug(device)
    with again.history:
        again.walk(("home", "Leave"))

    assert saved_buttons(game.history) == KNOWN
    assert opened == [1, 1, 1]
    assert [device.opened for device in (pad, wheel, shifter)] == [2, 2, 1]
    assert [device.openings for device in (pad, wheel, shifter)] == [1, 1, 0]
    assert again.rig.means.buttons


def test_a_device_that_is_new_in_the_game_is_opened_once_and_remembered(
    game: Rigged, pad: Pad, shifter: Pad
) -> None:
    def plug(screen: Attended) -> None:
        game.joysticks.plug(shifter)
        game.rig.rescan()
        screen.on_devices(cut=False)

    game.walk(READ, *game.set_up(pad), ("home", plug), ("home", "Leave"))

    assert (shifter.opened, shifter.openings) == (1, 0)
    assert saved_buttons(game.history) == {short_guid(GUID): False, "f" * 28: False}


@pytest.mark.parametrize("data", [[1], {"a": 1}, "wheel"])
def test_a_setting_that_cannot_be_understood_is_made_anew(
    game: Rigged, pad: Pad, data: object
) -> None:
    game.history.keep_setting(BUTTONS, data)

    game.walk(READ, *game.set_up(pad), ("home", "Leave"))

    assert saved_buttons(game.history) == {short_guid(GUID): False}
