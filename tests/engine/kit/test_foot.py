"""The drawn foot: it stays in its area, and only a pedal that is touched glows."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import numpy.typing as npt
import pygame
import pytest

from engine.kit import theme
from engine.kit.canvas import Canvas, Fonts, Point
from engine.kit.foot import draw_foot
from engine.kit.foot_pose import Pressed, Way
from tests.engine.kit.recording_canvas import RecordingCanvas

AREAS: tuple[Point, ...] = ((400, 400), (1200, 520), (1600, 560), (200, 420))
"""Sizes of areas that a foot is drawn in, in canvas units."""
CORNER: Point = (150.0, 250.0)
EXTREMES = tuple(
    Pressed(brake, throttle, clutch)
    for brake in (0.0, 100.0)
    for throttle in (0.0, 100.0)
    for clutch in (None, 0.0)
)
"""Pedals as far apart as they come."""


def picture(pressed: Pressed, way: Way, size: Point = (1200, 520)) -> npt.NDArray[np.uint8]:
    """Pixels (x, y, colour) of a foot in an area, at one pixel per canvas unit."""
    pygame.font.init()
    surface = pygame.Surface((theme.WIDTH, theme.HEIGHT))
    canvas = Canvas(surface, Fonts())
    canvas.clear()
    draw_foot(canvas, CORNER, size, pressed, way)
    return pygame.surfarray.array3d(surface)


@pytest.fixture(scope="module")
def words() -> Mapping[tuple[Point, bool, bool], list[str]]:
    """Words under a foot, by the area's size, whether there is a clutch, and whether asked for."""
    pygame.font.init()
    fonts = Fonts()
    found = {}
    for size in AREAS:
        for clutch in (None, 0.0):
            for with_words in (False, True):
                canvas = RecordingCanvas((1920, 1080), fonts)
                pressed = Pressed(60.0, 0.0, clutch)
                draw_foot(canvas, CORNER, size, pressed, Way.ROLL, with_words=with_words)
                there = [text.text for text in canvas.texts]
                found[size, clutch is not None, with_words] = there
    return found


@pytest.mark.parametrize("way", Way)
@pytest.mark.parametrize("size", AREAS)
def test_nothing_is_drawn_outside_the_area(size: Point, way: Way) -> None:
    for pressed in EXTREMES:
        drawn = np.any(picture(pressed, way, size) != theme.GROUND, axis=2)
        left, top = round(CORNER[0]), round(CORNER[1])
        drawn[left : left + round(size[0]), top : top + round(size[1])] = False

        assert not drawn.any(), (pressed, np.argwhere(drawn)[[0, -1]])


def test_names_stand_under_the_pedals_where_there_is_room(
    words: Mapping[tuple[Point, bool, bool], list[str]],
) -> None:
    assert words[(1600, 560), False, True] == ["brake", "throttle"]
    assert words[(1600, 560), True, True] == ["clutch", "brake", "throttle"]
    assert words[(400, 400), False, True] == ["brake", "throttle"]
    assert words[(200, 420), False, True] == []


def test_names_are_left_out_where_none_are_asked_for(
    words: Mapping[tuple[Point, bool, bool], list[str]],
) -> None:
    assert [there for (*_, asked), there in words.items() if not asked] == [[]] * 8


@pytest.mark.parametrize("way", Way)
def test_the_same_pedals_give_the_same_picture(way: Way) -> None:
    pressed = Pressed(61.3, 37.9)

    assert np.array_equal(picture(pressed, way), picture(pressed, way))


@pytest.mark.parametrize("way", Way)
def test_a_small_movement_of_either_pedal_can_be_seen(way: Way) -> None:
    before = picture(Pressed(60.0, 40.0), way)

    for moved in (Pressed(58.0, 40.0), Pressed(60.0, 42.0)):
        assert np.count_nonzero(np.any(picture(moved, way) != before, axis=2)) > 500


def orange(pixels: npt.NDArray[np.uint8]) -> int:
    """Number of pixels of the throttle's colour, dim ones included."""
    red, green, blue = (pixels[..., part].astype(int) for part in range(3))
    return int(np.count_nonzero((red - blue > 20) & (green < red)))


@pytest.mark.parametrize("way", Way)
def test_the_throttle_glows_only_while_the_foot_touches_it(way: Way) -> None:
    amounts = [orange(picture(Pressed(60.0, percent), way)) for percent in (0.0, 1.0, 2.5, 100.0)]

    assert abs(amounts[1] - amounts[0]) < 0.1 * amounts[0]
    assert amounts[2] > 1.2 * amounts[0]
    assert amounts[3] > amounts[2]


def test_each_pedal_is_seen_beside_the_foot_on_it() -> None:
    pixels = picture(Pressed(60.0, 60.0, 60.0), Way.ROLL).astype(int)

    for colour in (theme.BRAKE, theme.THROTTLE, theme.CLUTCH):
        near = np.abs(pixels - np.array(colour)).max(axis=2) <= 2
        assert near.any(axis=1).sum() > 40, colour


def test_no_light_falls_on_the_names_under_the_pedals() -> None:
    size = (1200.0, 520.0)
    names = slice(round(CORNER[1] + size[1] - theme.SMALL), round(CORNER[1] + size[1]))
    held, pressed = (picture(Pressed(60.0, gas), Way.ROLL, size) for gas in (0.0, 100.0))

    assert np.array_equal(held[:, names], pressed[:, names])
