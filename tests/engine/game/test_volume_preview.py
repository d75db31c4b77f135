"""A new volume is heard by the sounds of a repetition, for as long as the player stays there."""

import pytest

from engine.stage.actions import Action
from engine.stage.signals import Signals, Volume
from tests.engine.game.tuned import FULL, VOLUME, Tuned


def test_a_volume_is_heard_as_too_light_on_target_and_the_click() -> None:
    tuned = Tuned(Signals(Volume.QUIET))

    tuned.choose(VOLUME)
    tuned.look(5.0, 5.4, 5.6, 5.9, 6.1, 6.3, 9.0)

    assert tuned.speaker.heard == ["tone light", "tone on", "tone silent", "click"]


def test_a_volume_without_the_click_is_heard_by_its_tones_alone() -> None:
    tuned = Tuned(Signals(Volume.QUIET, click=False))

    tuned.choose(VOLUME)
    tuned.look(0.0, 0.6, 1.1, 1.3)

    assert tuned.speaker.heard == ["tone light", "tone on", "tone silent"]


def test_no_sound_is_played_to_show_that_the_volume_is_off() -> None:
    tuned = Tuned(Signals(Volume.LOUD))

    tuned.choose(VOLUME)
    tuned.look(0.0, 1.0, 2.0)

    assert tuned.saved == [Signals(Volume.OFF)]
    assert tuned.speaker.heard == []


@pytest.mark.parametrize("way", ["back", "mouse", "another choice"])
def test_a_preview_falls_silent_as_the_player_goes_on(way: str) -> None:
    tuned = Tuned(Signals(Volume.QUIET))
    tuned.choose(VOLUME)
    tuned.look(0.0)

    if way == "back":
        tuned.screen.on_action(Action.BACK)
    elif way == "mouse":
        label = next(text for text in tuned.drawn().texts if text.text == "Back")
        tuned.screen.on_pointer(label.ink.center, pressed=True)
    else:
        tuned.choose(FULL)
    tuned.look(0.6, 2.0)

    assert tuned.speaker.heard == ["tone light", "tone silent"]


def test_a_volume_chosen_again_begins_its_preview_anew() -> None:
    tuned = Tuned(Signals(Volume.QUIET))

    tuned.choose(VOLUME)
    tuned.look(0.0, 0.6)
    tuned.choose(VOLUME)
    tuned.look(0.7, 1.1)

    assert tuned.speaker.heard == ["tone light", "tone on", "tone silent", "tone light"]
