"""The prompt tells how to find the target, depending on the aid of the level."""

from dataclasses import replace

import numpy as np
import pygame
import pytest

from drills.level import Aid, Level
from engine.kit.canvas import Fonts
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.pictures import repeating
from tests.engine.shipped_played import BY_ID

TONES = "A low tone is too light, a high one too heavy."
FEEL = 'Feel for it: "Keep it there" says that you are there.'

ASKING = sorted(name for name, level in BY_ID.items() if level.kind.name != "mixed")
"""Ids of the levels with a prompt of their own: a mixed level has that of the level drawn."""


def said(level: Level, brake: float = 20.0) -> set[str]:
    """Texts on the screen with the brake at a position in %, let go before."""
    pygame.font.init()
    canvas = RecordingCanvas((1920, 1080), Fonts())
    repeating(level, (0.0, 0.0), (brake, 0.0)).paint(canvas, 0.0)
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


def test_without_any_aid_the_way_to_the_target_is_told_until_it_is_found() -> None:
    level = replace(BY_ID["blip-1-first"], aid=Aid.NONE)

    assert FEEL not in said(level, level.targets.least)


@pytest.mark.parametrize("name", ASKING)
def test_what_comes_in_the_dark_repeats_nothing_that_is_asked_before(name: str) -> None:
    level = BY_ID[name]
    target = level.targets.least
    prompt = level.kind.prompt(level, level.kind.task(level, target, np.random.default_rng(1)))

    repeated = [words for words in (prompt.keep, prompt.find) if words.lower() in prompt.then]

    assert not repeated
