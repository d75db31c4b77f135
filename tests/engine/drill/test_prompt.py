"""What the screen says of how a target is found, by the help its level gives."""

from dataclasses import replace

import pygame
import pytest

from drills.level import Aid, Level
from engine.kit.canvas import Fonts
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.pictures import BY_ID, repeating

TONES = "A low tone is too light, a high one too heavy."
FEEL = 'Feel for it: "Keep it there" says that you are there.'


def said(level: Level) -> set[str]:
    """What is written while a target is looked for."""
    pygame.font.init()
    canvas = RecordingCanvas((1920, 1080), Fonts())
    repeating(level, (0.0, 0.0), (20.0, 0.0)).paint(canvas, 0.0)
    return {text.text for text in canvas.texts}


@pytest.mark.parametrize(
    ("aid", "told"), [(Aid.BUBBLE, set()), (Aid.TONE, {TONES}), (Aid.NONE, {FEEL})]
)
def test_where_no_bubble_shows_it_the_screen_says_how_the_target_is_found(
    aid: Aid, told: set[str]
) -> None:
    level = replace(BY_ID["blip-1-first"], aid=aid)

    assert said(level) & {TONES, FEEL} == told


def test_a_squeeze_looks_for_no_target_before_its_cue() -> None:
    assert said(BY_ID["still-2a-squeeze"]).isdisjoint({TONES, FEEL})
