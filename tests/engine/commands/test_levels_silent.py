"""What `stillfoot levels` takes as there: sound, unless the player turned it off."""

import pytest

from engine.commands.levels import pedals_of
from engine.game.sound_and_light import SIGNALS_KEY
from engine.practice.passes import ALL_PEDALS, SOUND
from engine.stage.signals import Signals, Volume
from engine.store import History


@pytest.mark.parametrize(
    ("volume", "there"), [(Volume.OFF, ALL_PEDALS - {SOUND}), (Volume.QUIET, ALL_PEDALS)]
)
def test_sound_is_there_unless_its_volume_is_off(
    history: History, volume: Volume, there: frozenset[str]
) -> None:
    history.keep_setting(SIGNALS_KEY, Signals(volume).as_data())

    assert pedals_of(history) == there
