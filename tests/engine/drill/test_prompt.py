"""The prompt tells how to find the target, depending on the aid of the level."""

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
    """Texts on the screen while the target is searched for."""
    pygame.font.init()
    canvas = RecordingCanvas((1920, 1080), Fonts())
    repeating(level, (0.0, 0.0), (20.0, 0.0)).paint(canvas, 0.0)
    return {text.text for text in canvas.texts}


@pytest.mark.parametrize(
    ("aid", "expected"), [(Aid.BUBBLE, set()), (Aid.TONE, {TONES}), (Aid.NONE, {FEEL})]
)
def test_without_a_bubble_the_prompt_says_how_to_find_the_target(
    aid: Aid, expected: set[str]
) -> None:
    level = replace(BY_ID["blip-1-first"], aid=aid)

    assert said(level) & {TONES, FEEL} == expected


def test_a_squeeze_has_no_target_to_find_before_its_cue() -> None:
    assert said(BY_ID["still-2a-squeeze"]).isdisjoint({TONES, FEEL})
