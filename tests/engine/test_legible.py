"""Every screen at several window sizes: all text is legible and inside the picture."""

import re
from dataclasses import dataclass
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
from tests.engine.setup.pictures import LONG, NAMES
from tests.made import level

SIZES = [(640, 360), (1280, 720), (1920, 1080), (2560, 1440), (3840, 2160), (1080, 1920)]
NOTHING = pygame.Rect(0, 0, 0, 0)
CUT = re.compile(r"(\S*?) ?(?:\.\.\.|…)")
"""Text that was cut, with what stands before the dots."""
GIVEN = ("W" * 60, *" ".join((LONG, *NAMES.values())).split())
"""Words of the names that players and devices have on the screens: only these may be cut."""


@pytest.fixture(scope="session")
def fonts() -> Fonts:
    """Typeface, loaded without a window."""
    pygame.font.init()
    return Fonts()


@dataclass(frozen=True)
class Written:
    """Texts on a screen."""

    name: str
    """Name of the screen and size of the window, for a message."""
    texts: list[Text]
    """All lines of text."""
    picture: pygame.Rect
    """Area that texts may cover, in pixels."""

    @property
    def outside(self) -> list[tuple[str, str]]:
        """Texts that are not all inside the picture, by the name of the screen."""
        return [
            (self.name, text.text) for text in self.texts if not self.picture.contains(text.ink)
        ]

    @property
    def over(self) -> list[tuple[str, str, str]]:
        """Pairs of texts that lie on each other, by the name of the screen."""
        return [
            (self.name, one.text, other.text)
            for one, other in combinations(self.texts, 2)
            if one.ink.colliderect(other.ink)
        ]


def drawn(screen: Screen[Any], fonts: Fonts, size: tuple[int, int], name: str = "") -> Written:
    """Texts on a screen of a size in pixels; no pixel is changed, as none is looked at."""
    canvas = RecordingCanvas(size, fonts)
    canvas.surface.set_clip(NOTHING)
    screen.draw_on(canvas, 0.0)
    return Written(f"{name} at {size[0]}x{size[1]}", canvas.texts, canvas.picture)


@pytest.fixture(scope="module")
def screens(fonts: Fonts) -> list[Written]:
    """Every screen at every size, drawn once for all tests."""
    return [
        drawn(screen, fonts, size, name)
        for size in SIZES
        for name, screen in every_screen().items()
    ]


def test_everything_written_is_inside_the_picture(screens: list[Written]) -> None:
    outside = [text for screen in screens for text in screen.outside]

    assert outside == []


def test_no_two_texts_lie_on_each_other(screens: list[Written]) -> None:
    over = [texts for screen in screens for texts in screen.over]

    assert over == []


def test_no_text_is_too_small_to_read_from_the_seat(screens: list[Written]) -> None:
    few = [screen.name for screen in screens if len(screen.texts) < 2]
    small = [
        (screen.name, text.text)
        for screen in screens
        for text in screen.texts
        if text.size < theme.SMALL
    ]

    assert (few, small) == ([], [])


def test_only_names_from_outside_are_cut(screens: list[Written]) -> None:
    cut = [
        (screen.name, text.text)
        for screen in screens
        for text in screen.texts
        for before in CUT.findall(text.text)
        if not any(before and word.startswith(before.lstrip('("')) for word in GIVEN)
    ]

    assert cut == []


LONGEST = level(title="T" * 20 + " " + "t" * 19, purpose="Quiet " * 19 + "still.")


def test_home_has_room_for_the_longest_title_and_purpose_a_level_may_have(fonts: Fonts) -> None:
    canvas = drawn(at_home(LONGEST, placing=True), fonts, (1920, 1080))

    assert canvas.outside == []


def test_the_choice_of_a_level_has_room_for_the_longest_title_and_purpose(fonts: Fonts) -> None:
    canvas = drawn(level_list([LONGEST]), fonts, (1920, 1080))

    assert canvas.over == []
