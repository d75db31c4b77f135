"""Screens of drives: what is written of the brake before a blip, and of drives measured before."""

from dataclasses import replace
from typing import Any

import pygame

from drills.measures.definition import DEFINITION
from engine.kit.base import Screen
from engine.kit.canvas import Fonts
from engine.road.before_screens import BeforeDrive, EarlierDrives
from engine.road.screens import Road, RoadInWords, RoadShown
from engine.road.words import OLDER, OLDER_WHY
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.road.pictures import a_drive, curve, curves, long_drive


def written(screen: Screen[Any]) -> str:
    """All that a screen says, a line each."""
    pygame.font.init()
    canvas = RecordingCanvas((1280, 720), Fonts())
    screen.draw_on(canvas, 0.0)
    return "\n".join(text.text for text in canvas.texts)


def test_the_result_of_a_drive_tells_meant_changes_and_early_rolls() -> None:
    # Brake gone before the throttle in these pictures: the dip less 6 points.
    road = Road(a_drive([8.0], [14.0], [17.0]))

    said = written(RoadInWords(road, []))

    assert "4.0 points less" in said.splitlines()
    assert "2 of 3" in said.splitlines()
    assert RoadShown(road).details()["early"] == 2


def test_a_drive_of_older_definitions_shows_no_median_and_why() -> None:
    now, before = long_drive(3), replace(long_drive(9, worse=5.0), definition=DEFINITION - 1)

    for screen in (BeforeDrive([before, now]), RoadInWords(Road(a_drive([8.0])), [before, now])):
        said = written(screen)
        assert f"{now.dip:.1f} points" in said
        assert f"{before.dip:.1f} points" not in said
        assert OLDER in said.splitlines()
        assert OLDER_WHY in said


def test_drives_of_one_definition_need_no_word_about_it() -> None:
    said = written(BeforeDrive([long_drive(3), long_drive(9)]))

    assert OLDER_WHY not in said
    assert OLDER not in said


def test_all_blips_of_a_drive_are_drawn_with_the_median_of_the_drills() -> None:
    drive = long_drive()
    road = Road(drive, curves=curves(drive), drill=("easing off", curve(6.0)))

    said = written(RoadShown(road))

    assert f"{len(drive.dips)} blips." in said
    assert "easing off" in said.splitlines()


def test_only_drives_of_the_present_definitions_can_be_looked_at_again() -> None:
    now, before = long_drive(3), replace(long_drive(9), definition=DEFINITION - 1)

    labels = EarlierDrives([before, now]).details()["choices"]

    assert labels == ["14 May 2024, 20:15", "Back"]
    assert "Earlier drives" not in written(BeforeDrive([before]))
    assert "Earlier drives" in written(BeforeDrive([before, now]))
