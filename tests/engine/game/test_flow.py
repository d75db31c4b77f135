"""The whole game without a window, on fake devices: which screen follows which."""

import json

import pygame
import pytest

from engine.drill.lesson_saved import saved_way
from engine.drill.lesson_words import HEADING_OF_CHANGE, WAYS
from engine.game.entries import SOUND
from engine.game.home import Home, More
from engine.game.sound_and_light import saved_signals
from engine.kit.base import Menu
from engine.kit.canvas import Fonts
from engine.kit.foot_pose import Way
from engine.setup.saved_rigs import saved_binding
from engine.stage.actions import Action
from engine.stage.scene import Attended, Scene
from engine.stage.signals import Signals, Volume
from tests.engine.game.rigged import FULL, READ, REST, Rigged
from tests.engine.kit.recording_canvas import RecordingCanvas, said
from tests.engine.pedals.joysticks import Pad
from tests.engine.walking import Step, back, choose
from tests.stored import all_results

HEEL = WAYS[Way.HEEL]


def test_the_first_start_reads_the_cautions_sets_up_and_comes_home(game: Rigged, pad: Pad) -> None:
    game.walk(READ, *game.set_up(pad), ("home", "Leave"))

    saved = saved_binding(game.history)
    assert saved is not None
    assert [pedal.axis for pedal in saved.pedals] == [0, 1]
    assert (saved.brake.range.rest, saved.brake.range.full) == (REST, FULL)
    assert game.history.setting("cautions read") is True


def test_cautions_that_were_not_read_are_shown_again(bare: Rigged) -> None:
    bare.history.keep_setting("cautions read", False)

    with pytest.raises(StopIteration):
        leave_cautions(bare)

    assert bare.history.setting("cautions read") is False


def leave_cautions(game: Rigged) -> None:
    """Go back from the cautions, which then end the game."""
    playing = game.flow()
    cautions = next(playing).screen
    cautions.on_action(Action.BACK)
    next(playing)


def test_the_next_start_goes_straight_home(game: Rigged, pad: Pad) -> None:
    game.walk(READ, *game.set_up(pad), ("home", "Leave"))
    game.rig.play_with(None)

    game.walk(("home", "Leave"))

    assert game.rig.source == "pedals"


def test_nothing_plugged_in_offers_the_mouse_and_the_demo(bare: Rigged) -> None:
    bare.walk(READ, ("no pedals", "Try with the mouse"), ("home", "Leave"))

    assert bare.rig.source == "mouse"


def test_home_says_so_while_its_pedals_are_unplugged(game: Rigged, pad: Pad) -> None:
    said = []

    def pull(screen: Attended) -> None:
        said.append(says_unplugged(screen))
        game.joysticks.pull(pad)
        game.rig.rescan()
        screen.on_devices(cut=True)

    def plug(screen: Attended) -> None:
        said.append(says_unplugged(screen))
        game.joysticks.plug(pad)
        game.rig.rescan()
        screen.on_devices(cut=False)

    def leave(screen: Attended) -> None:
        said.append(says_unplugged(screen))
        back(screen)

    game.walk(READ, *game.set_up(pad), ("home", pull), ("home", plug), ("home", leave))

    assert said == [False, True, False]


def test_saved_pedals_take_over_from_the_mouse_when_plugged_in(game: Rigged, pad: Pad) -> None:
    def plug(screen: Attended) -> None:
        game.joysticks.plug(pad)
        game.rig.rescan()
        screen.on_devices(cut=False)

    game.walk(READ, *game.set_up(pad), ("home", "Leave"))
    game.joysticks.pull(pad)
    game.rig.play_with(None)

    game.walk(("no pedals", "Try with the mouse"), ("home", plug), ("home", "Leave"))

    assert game.rig.source == "pedals"


def says_unplugged(screen: Attended) -> bool:
    """Whether home says that the pedals are unplugged."""
    assert isinstance(screen, Home)
    pygame.font.init()
    canvas = RecordingCanvas((1920, 1080), Fonts())
    screen.paint(canvas, 0.0)
    return "unplugged" in [text.text for text in canvas.texts]


def loudest_and_no_flash(screen: Attended) -> None:
    """Step that raises the volume by one, turns the flash off and goes back."""
    for action in (Action.GO, Action.NEXT, Action.NEXT, Action.GO, Action.BACK):
        screen.on_action(action)


def stays_where_it_was(screen: Attended) -> None:
    """Step that finds More at the entry that was left, with the new volume, and goes back."""
    assert isinstance(screen, More)
    pygame.font.init()
    canvas = RecordingCanvas((1920, 1080), Fonts())
    screen.paint(canvas, 0.0)
    assert "loud" in [text.text for text in canvas.texts]
    screen.on_action(Action.GO)
    assert screen.outcome is SOUND
    screen.on_action(Action.BACK)


def test_sound_and_light_are_changed_at_once_and_stay_so_through_the_demo_and_the_next_start(
    bare: Rigged,
) -> None:
    bare.walk(
        READ,
        ("no pedals", "Try with the mouse"),
        ("home", "More"),
        ("more", "Sound, light and motion"),
        ("sound and light", loudest_and_no_flash),
        ("more", stays_where_it_was),
        ("home", "Leave"),
    )
    changed = bare.speaker.volume, bare.lamp.flashes
    bare.stage.tune(Signals())
    bare.rig.play_with(None)

    bare.walk(
        ("no pedals", "Watch the demo"),
        ("set end", "Home"),
        ("no pedals", "Leave"),
    )

    assert changed == (Volume.LOUD, False)
    assert (bare.speaker.volume, bare.lamp.flashes) == changed


@pytest.mark.parametrize("means", ["pedals", "mouse"])
def test_the_way_to_blip_is_changed_under_more_which_names_the_present_one(
    game: Rigged, bare: Rigged, pad: Pad, means: str
) -> None:
    played = game if means == "pedals" else bare
    by_mouse: list[tuple[str, Step]] = [("no pedals", "Try with the mouse")]
    start = game.set_up(pad) if means == "pedals" else by_mouse
    notes: list[str] = []

    def note(screen: Attended) -> None:
        assert isinstance(screen, Menu)
        notes.extend(text for text in said(screen) if text in ("roll the foot", HEEL.lower()))
        choose(screen, HEADING_OF_CHANGE)

    played.walk(
        READ,
        *start,
        ("home", "More"),
        ("more", note),
        ("way", HEEL),
        ("more", note),
        ("way", back),
        ("more", back),
        ("home", "Leave"),
    )

    assert notes == ["roll the foot", HEEL.lower()]
    assert saved_way(played.history) is (Way.HEEL if means == "pedals" else None)


@pytest.mark.parametrize(("sound", "volume"), [(False, Volume.OFF), (True, Volume.MEDIUM)])
def test_sound_that_an_older_version_turned_off_stays_off(
    bare: Rigged, sound: bool, volume: Volume
) -> None:
    bare.history.keep_setting("sound", sound)

    bare.walk(READ, ("no pedals", "Leave"))

    assert bare.speaker.volume is volume


def test_the_demo_leaves_nothing_in_the_history_of_the_player(bare: Rigged) -> None:
    bare.walk(
        READ,
        ("no pedals", "Watch the demo"),
        ("set end", "Home"),
        ("no pedals", "Leave"),
    )

    assert list(all_results(bare.history)) == []


def test_closing_the_window_in_the_demo_ends_it(bare: Rigged) -> None:
    playing = bare.flow()
    scene: Scene | None = None
    for scene in playing:
        if scene.screen.name == "repetition":
            break
        labels = {"cautions": 0, "no pedals": 1}
        for _ in range(labels[scene.screen.name]):
            scene.screen.on_action(Action.NEXT)
        scene.screen.on_action(Action.GO)

    playing.close()

    assert scene is not None
    assert scene.rig is not bare.rig


@pytest.mark.parametrize("saved", [{"brake": 3}, []])
def test_pedals_that_cannot_be_understood_are_set_up_anew(bare: Rigged, saved: object) -> None:
    bare.history.keep_setting("cautions read", True)
    rig = "INSERT INTO rig VALUES (1, '', '', ?, 0)"
    bare.history.write(lambda db: db.execute(rig, (json.dumps(saved),)))

    bare.walk(("no pedals", "Leave"))


def test_the_demo_is_reached_from_home_and_leads_back_there(game: Rigged, pad: Pad) -> None:
    game.walk(
        READ,
        *game.set_up(pad),
        ("home", "More"),
        ("more", "Watch the demo"),
        ("set end", "Home"),
        ("home", "Leave"),
    )

    assert list(all_results(game.history)) == []


def test_once_more_plays_the_demo_again(bare: Rigged) -> None:
    seen: list[str] = []

    bare.walk(
        READ,
        ("no pedals", "Watch the demo"),
        ("set end", "Once more"),
        ("set end", "Home"),
        ("no pedals", "Leave"),
        seen=seen,
    )

    assert seen.count("repetition") >= 2


def test_sound_and_light_that_cannot_be_understood_are_as_usual(bare: Rigged) -> None:
    bare.history.keep_setting("sound and light", "loud")

    assert saved_signals(bare.history) == Signals()
