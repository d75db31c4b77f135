"""Recording a drive from home: driving, stopping, what is shown and kept."""

import math
from datetime import UTC, datetime, timedelta

import pytest

from drills.trace import nanoseconds
from engine.road.flow import record_drive
from engine.road.recording_screen import Ended
from engine.road.saved import all_drives
from engine.road.screen_words import GONE
from engine.road.screens import RoadShown
from engine.stage.actions import Action
from engine.stage.scene import Attended
from tests.engine.game.rigged import READ, REST, Rigged
from tests.engine.pedals.joysticks import Pad
from tests.engine.road.test_screens import written
from tests.engine.walking import back
from tests.full_disk import no_file_longer
from tests.needs import file_size_limit

HOURS = timedelta(hours=20, minutes=15)
AT = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
FILE = "2024-05-17 00.00.00.csv"
STEP = nanoseconds(0.005)
TO_RECORD = (("home", "More"), ("more", "Record a drive"), ("before drive", "Begin recording"))


def test_a_drive_is_recorded_shown_and_kept(game: Rigged, pad: Pad) -> None:
    game.walk(READ, *game.set_up(pad), ("home", "Leave"))
    game.walk(
        *TO_RECORD,
        ("recording", lambda screen: driven(game, pad, screen, Action.BACK)),
        ("road", "Go on"),
        ("home", "Leave"),
    )

    [drive] = all_drives(game.history)
    assert drive.name == FILE
    assert [(blip.run, blip.place) for blip in drive.blips] == [(1, 1), (1, 2)]
    assert drive.dips == pytest.approx((10, 10), abs=0.2)
    assert (game.history.path.parent / "drives" / FILE).read_text().startswith("time,brake,thr")


def driven(game: Rigged, pad: Pad, screen: Attended, ends: Action | None) -> None:
    """Brake to 60 %, blip twice with 10 points off the brake, let go, and stop."""
    for step in range(nanoseconds(6.0) // STEP):
        time = step * STEP / 1e9
        pulse = sum(
            max(0.0, math.sin((time - onset) * math.pi / 0.25))
            for onset in (2.0, 3.0)
            if onset <= time < onset + 0.25
        )
        brake = 60 - 10 * pulse if 1.0 <= time < 5.0 else 0.0
        pad.move(0, REST + brake / 50)
        pad.move(1, REST + 80 * pulse / 50)
        game.clock.advance(STEP)
        screen.on_sample(game.rig.sample(), game.clock())
    if ends is not None:
        screen.on_action(ends)


def test_an_earlier_drive_shows_its_blips_as_long_as_its_recording_is_there(
    game: Rigged, pad: Pad
) -> None:
    game.walk(READ, *game.set_up(pad), ("home", "Leave"))
    game.walk(
        *TO_RECORD,
        ("recording", lambda screen: driven(game, pad, screen, Action.BACK)),
        ("road", "All figures"),
        ("road in words", "Back"),
        ("road", "Go on"),
        ("home", "Leave"),
    )
    said: list[str] = []

    def look(screen: Attended) -> None:
        assert isinstance(screen, RoadShown)
        said.append(written(screen))
        back(screen)

    look_again = (
        *TO_RECORD[:2],
        ("before drive", "Earlier drives"),
        ("earlier drives", f"17 May 2024, {AT - HOURS:%H:%M}"),
        ("road", look),
        ("before drive", "Back"),
        ("home", "Leave"),
    )
    game.walk(*look_again)
    (game.history.path.parent / "drives" / FILE).unlink()
    game.walk(*look_again)

    there, gone = said
    assert "2 blips." in there
    assert GONE in gone
    assert "2 blips." not in gone
    assert len(all_drives(game.history)) == 1


def test_pedals_and_keys_without_focus_do_not_stop_a_drive(game: Rigged, pad: Pad) -> None:
    game.walk(READ, *game.set_up(pad), ("home", "Leave"))

    def drives(screen: Attended) -> None:
        driven(game, pad, screen, Action.MENU)
        screen.on_focus(False, game.clock())
        screen.on_action(Action.BACK)
        assert screen.outcome is None
        screen.on_focus(True, game.clock())
        screen.on_action(Action.BACK)

    game.walk(*TO_RECORD, ("recording", drives), ("road", "Go on"), ("home", "Leave"))


def test_it_ends_by_itself_after_five_minutes_without_a_pedal(game: Rigged, pad: Pad) -> None:
    game.walk(READ, *game.set_up(pad), ("home", "Leave"))

    def leaves(screen: Attended) -> None:
        driven(game, pad, screen, None)
        game.clock.advance(nanoseconds(300.0))
        screen.on_sample(game.rig.sample(), game.clock())

    game.walk(*TO_RECORD, ("recording", leaves), ("road", "Go on"), ("home", "Leave"))

    assert len(all_drives(game.history)) == 1


def test_a_window_that_is_closed_loses_nothing(game: Rigged, pad: Pad) -> None:
    game.walk(READ, *game.set_up(pad), ("home", "Leave"))
    flow = record_drive(game.rig, game.stage, game.history, lambda: AT)
    next(flow).screen.on_action(Action.GO)

    driven(game, pad, next(flow).screen, None)
    flow.close()

    assert [len(drive.blips) for drive in all_drives(game.history)] == [2]


def test_a_window_that_closes_stops_the_recording_and_keeps_it(game: Rigged, pad: Pad) -> None:
    game.walk(READ, *game.set_up(pad), ("home", "Leave"))
    flow = record_drive(game.rig, game.stage, game.history, lambda: AT)
    next(flow).screen.on_action(Action.GO)
    recording = next(flow).screen
    driven(game, pad, recording, None)

    recording.on_closing()
    following = next(flow).screen
    flow.close()

    assert (recording.outcome, following.name) == (Ended.STOPPED, "road")
    assert [len(drive.blips) for drive in all_drives(game.history)] == [2]


def test_nothing_is_recorded_where_it_is_not_begun(game: Rigged, pad: Pad) -> None:
    game.walk(
        READ,
        *game.set_up(pad),
        *TO_RECORD[:2],
        ("before drive", back),
        ("home", "Leave"),
    )

    assert not (game.history.path.parent / "drives").exists()


def test_a_drive_that_is_stopped_at_once_is_too_short(game: Rigged, pad: Pad) -> None:
    game.walk(
        READ,
        *game.set_up(pad),
        *TO_RECORD,
        ("recording", back),
        ("not recorded", "Go on"),
        ("home", "Leave"),
    )

    assert all_drives(game.history) == []


def test_a_file_that_cannot_be_created_is_reported(game: Rigged, pad: Pad) -> None:
    folder = game.history.path.parent / "drives"
    folder.write_text("a file in its place", encoding="utf-8")

    game.walk(
        READ,
        *game.set_up(pad),
        *TO_RECORD,
        ("not recorded", "Go on"),
        ("home", "Leave"),
    )

    assert all_drives(game.history) == []


@file_size_limit
def test_a_full_disk_ends_the_drive_and_stores_what_was_written(game: Rigged, pad: Pad) -> None:
    game.walk(READ, *game.set_up(pad), ("home", "Leave"))
    outcomes: list[object] = []

    def drives(screen: Attended) -> None:
        with no_file_longer(10_000):
            driven(game, pad, screen, None)
        outcomes.append(screen.outcome)

    game.walk(*TO_RECORD, ("recording", drives), ("road", "Go on"), ("home", "Leave"))

    [drive] = all_drives(game.history)
    assert outcomes == [Ended.BROKEN]
    assert (len(drive.blips), drive.seconds < 5.0) == (2, True)


def test_with_the_mouse_nothing_is_recorded(bare: Rigged) -> None:
    labels: list[str] = []

    def look(screen: Attended) -> None:
        choices = screen.details()["choices"]
        assert isinstance(choices, list)
        labels.extend(choices)
        back(screen)

    bare.walk(
        READ,
        ("no pedals", "Try with the mouse"),
        ("home", "More"),
        ("more", look),
        ("home", "Leave"),
    )

    assert "Record a drive" not in labels
    assert "Back" in labels
