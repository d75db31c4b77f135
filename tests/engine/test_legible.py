"""Every screen at several window sizes: all text is legible and inside the picture."""

from dataclasses import dataclass
from functools import cache
from itertools import combinations
from typing import Any

import pygame
import pytest

from engine.kit import theme
from engine.kit.base import Screen
from engine.kit.canvas import Fonts
from tests.engine.kit.recording_canvas import RecordingCanvas, Text
from tests.engine.ladder.pictures import at_home, level_list
from tests.engine.pictures import every_screen
from tests.made import level

SIZES = [(640, 360), (1280, 720), (2560, 1440), (1080, 1920)]
SCREENS = every_screen()

each = pytest.mark.parametrize("name", SCREENS)


@pytest.fixture(scope="session")
def fonts() -> Fonts:
    """Typeface, loaded without a window."""
    pygame.font.init()
    return Fonts()


@dataclass(frozen=True)
class Written:
    """Texts on a screen."""

    texts: list[Text]
    """All lines of text."""
    picture: pygame.Rect
    """Area that texts may cover, in pixels."""


@cache
def drawn(screen: Screen[Any], fonts: Fonts, size: tuple[int, int]) -> Written:
    """Texts on a screen of a size in pixels, drawn once for all tests."""
    canvas = RecordingCanvas(size, fonts)
    screen.draw_on(canvas, 0.0)
    return Written(canvas.texts, canvas.picture)


@each
def test_everything_written_is_inside_the_picture(name: str, fonts: Fonts) -> None:
    canvases = [(size, drawn(SCREENS[name], fonts, size)) for size in SIZES]

    outside = [
        (size, text)
        for size, canvas in canvases
        for text in canvas.texts
        if not canvas.picture.contains(text.ink)
    ]

    assert outside == []


@each
def test_no_two_texts_lie_on_each_other(name: str, fonts: Fonts) -> None:
    canvases = [(size, drawn(SCREENS[name], fonts, size)) for size in SIZES]

    over = [
        (size, one.text, other.text)
        for size, canvas in canvases
        for one, other in combinations(canvas.texts, 2)
        if one.ink.colliderect(other.ink)
    ]

    assert over == []


@each
def test_no_text_is_too_small_to_read_from_the_seat(name: str, fonts: Fonts) -> None:
    canvas = drawn(SCREENS[name], fonts, SIZES[2])

    assert len(canvas.texts) >= 2
    assert min(text.size for text in canvas.texts) >= theme.SMALL


LONGEST = level(title="T" * 20 + " " + "t" * 19, purpose="Quiet " * 19 + "still.")


def test_home_has_room_for_the_longest_title_and_purpose_a_level_may_have(fonts: Fonts) -> None:
    canvas = drawn(at_home(LONGEST, placing=True), fonts, (1920, 1080))

    assert [text for text in canvas.texts if not canvas.picture.contains(text.ink)] == []


def test_the_choice_of_a_level_has_room_for_the_longest_title_and_purpose(fonts: Fonts) -> None:
    canvas = drawn(level_list([LONGEST]), fonts, (1920, 1080))

    over = [
        (one.text, other.text)
        for one, other in combinations(canvas.texts, 2)
        if one.ink.colliderect(other.ink)
    ]

    assert over == []
