"""Sound and light: each choice changes a setting at once, saves it, and stays on the screen."""

import pytest

from engine.game.signal_words import FLASH_DOES
from engine.game.sound_and_light import Switch
from engine.stage.actions import Action
from engine.stage.signals import CLICK_ON, FLASH_STAYS_ON, Signals, Volume
from tests.engine.game.tuned import BACK, CLICK, EAR, FLASH, FULL, MOTION, VOLUME, Tuned


def test_the_volume_is_changed_saved_and_heard_at_once() -> None:
    tuned = Tuned(Signals(Volume.QUIET))

    tuned.choose(VOLUME)
    tuned.look(0)

    assert tuned.speaker.volume is Volume.MEDIUM
    assert tuned.saved == [Signals(Volume.MEDIUM)]
    assert tuned.speaker.heard == ["tone light"]
    assert tuned.note("Volume") == "medium"


def test_a_click_turned_on_is_heard_and_a_flash_turned_on_is_seen() -> None:
    click, flash = Tuned(Signals(click=False)), Tuned(Signals(flash=False))

    click.choose(CLICK)
    flash.choose(FLASH)

    assert (click.speaker.heard, click.lamp.shown) == (["click"], [])
    assert (flash.speaker.heard, flash.lamp.shown) == ([], ["cue"])


@pytest.mark.parametrize("place", [VOLUME, CLICK, FLASH, EAR, MOTION, FULL])
def test_a_change_leaves_the_player_at_the_choice(place: int) -> None:
    tuned = Tuned(Signals())
    tuned.choose(place)
    before = tuned.saved.copy(), tuned.lamp.full

    tuned.screen.on_action(Action.GO)

    assert tuned.screen.outcome is None
    assert len(tuned.saved) == (0 if place == FULL else 2)
    assert (tuned.saved, tuned.lamp.full) != before


def test_turning_off_both_click_and_flash_turns_the_other_on_and_says_so() -> None:
    tuned = Tuned(Signals(click=False))

    tuned.choose(FLASH)

    assert CLICK_ON in tuned.said()
    assert (tuned.note("Click at the cue"), tuned.note("Flash at the cue")) == ("on", "off")
    assert (tuned.speaker.clicks, tuned.lamp.flashes) == (True, False)
    assert tuned.speaker.heard == ["click"]


def test_the_note_about_a_change_goes_with_the_next_change() -> None:
    tuned = Tuned(Signals(click=False))
    tuned.choose(FLASH)

    tuned.screen.on_action(Action.GO)

    assert CLICK_ON not in tuned.said()


def test_without_a_speaker_the_screen_says_why_and_keeps_the_flash() -> None:
    tuned = Tuned(Signals(), "no audio device")

    tuned.choose(FLASH)

    said = tuned.said()
    assert "There is no sound: no audio device" in said
    assert [line in said for line in FLASH_DOES] == [True, False]
    assert FLASH_STAYS_ON in said
    assert tuned.note("Click at the cue") == "silent: no speaker"
    assert tuned.lamp.flashes


def test_a_speaker_found_missing_by_a_change_brings_the_flash_back() -> None:
    tuned = Tuned(Signals(Volume.OFF), "")
    tuned.speaker.trouble = "no audio device"

    tuned.choose(VOLUME)

    assert tuned.saved == [Signals(Volume.QUIET)]
    assert tuned.lamp.flashes


def test_a_speaker_that_dies_while_the_screen_is_open_is_told_and_so_is_its_return() -> None:
    tuned = Tuned(Signals(flash=False))
    before = tuned.screen.appearance()

    tuned.speaker.lose()
    tuned.screen.on_sample(None, 0)
    lost, without = tuned.screen.appearance(), tuned.said()
    rows = tuned.note("Click at the cue"), tuned.note("Flash at the cue")
    tuned.speaker.back = True
    tuned.screen.on_sample(None, 0)

    assert "There is no sound: the audio device is gone" in without
    assert rows == ("silent: no speaker", "on")
    assert (tuned.note("Click at the cue"), tuned.note("Flash at the cue")) == ("on", "off")
    assert not any(text.startswith("There is no sound") for text in tuned.said())
    assert before != lost != tuned.screen.appearance()


def test_the_note_about_a_change_goes_when_the_speaker_dies() -> None:
    tuned = Tuned(Signals(click=False))
    tuned.choose(FLASH)
    before = tuned.said()

    tuned.speaker.lose()
    tuned.screen.on_sample(None, 0)

    assert CLICK_ON in before
    assert CLICK_ON not in tuned.said()


def test_a_flash_asked_for_without_a_speaker_leaves_the_setting_for_when_it_is_back() -> None:
    tuned = Tuned(Signals(flash=False))
    tuned.speaker.lose()

    tuned.choose(FLASH)
    without = FLASH_STAYS_ON in tuned.said(), tuned.note("Flash at the cue")
    tuned.speaker.back = True
    tuned.screen.on_sample(None, 0)

    assert without == (True, "on")
    assert (FLASH_STAYS_ON in tuned.said(), tuned.note("Flash at the cue")) == (False, "off")
    assert tuned.saved == [Signals(flash=False)]


def test_a_louder_volume_without_a_speaker_leaves_the_flash_off_for_when_it_is_back() -> None:
    tuned = Tuned(Signals(flash=False))
    tuned.speaker.lose()

    tuned.choose(VOLUME)

    assert tuned.saved == [Signals(Volume.LOUD, flash=False)]
    assert tuned.note("Flash at the cue") == "on"


def test_a_click_while_the_volume_is_off_is_said_to_be_silent() -> None:
    tuned = Tuned(Signals(Volume.OFF))

    assert tuned.note("Click at the cue") == "silent: the volume is off"


def test_full_screen_is_a_choice_and_says_what_a_key_did_too() -> None:
    tuned = Tuned(Signals())
    looks = [tuned.screen.appearance()]

    tuned.choose(FULL)
    looks.append(tuned.screen.appearance())
    full = tuned.note("Full screen")
    tuned.lamp.toggle_full()
    looks.append(tuned.screen.appearance())

    assert (full, tuned.note("Full screen")) == ("on", "off")
    assert looks[0] != looks[1] != looks[2]


@pytest.mark.parametrize("way", ["back", "choice", "mouse"])
def test_going_back_ends_it_by_feet_and_keys_and_mouse(way: str) -> None:
    tuned = Tuned(Signals())

    if way == "back":
        tuned.screen.on_action(Action.BACK)
    elif way == "choice":
        tuned.choose(BACK)
    else:
        label = next(text for text in tuned.drawn().texts if text.text == "Back")
        tuned.screen.on_pointer(label.ink.center, pressed=True)

    assert tuned.screen.outcome is Switch.BACK


def test_a_click_of_the_mouse_changes_what_it_points_at() -> None:
    tuned = Tuned(Signals())
    label = next(text for text in tuned.drawn().texts if text.text == "Click at the cue")

    tuned.screen.on_pointer(label.ink.center, pressed=True)

    assert tuned.saved == [Signals(click=False)]
    assert tuned.screen.outcome is None
