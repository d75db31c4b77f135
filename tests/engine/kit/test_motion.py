"""Motion: eased movements, and moving parts that are redrawn over a picture that stays."""

from __future__ import annotations

from collections.abc import Hashable, Sequence

import numpy as np
import pygame
import pytest

from drills.trace import SECOND
from engine.kit import theme
from engine.kit.base import Screen
from engine.kit.canvas import Canvas, Point
from engine.kit.motion import Movement, eased
from engine.stage.scene import Pace


class Dial(Screen[None]):
    """Screen with a heading and a disc that moves across a box."""

    def __init__(self) -> None:
        super().__init__()
        self.at = 0.0

    @property
    def is_moving(self) -> bool:
        """Whether the disc is on its way."""
        return 0 < self.at < 1

    @property
    def moving_areas(self) -> Sequence[tuple[Point, Point]]:
        """The box that the disc moves across."""
        return (((140.3, 400.7), (900.0, 100.0)),)

    def movement(self) -> Hashable:
        """Place of the disc."""
        return self.at

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the heading and the box."""
        canvas.text("A disc moves", (140, 100))
        canvas.box((140, 380), (1000, 140), theme.RAISED)

    def paint_moving(self, canvas: Canvas) -> None:
        """Draw the disc."""
        canvas.disc((200 + 780 * self.at, 450), 40, theme.TEXT)


def test_a_movement_is_slow_at_both_ends_and_never_turns_back() -> None:
    shares = [eased(part / 100) for part in range(101)]

    assert (shares[0], shares[50], shares[100]) == (0, 0.5, 1)
    assert shares == sorted(shares)
    assert shares[1] < 0.001
    assert 1 - shares[99] < 0.001


@pytest.mark.parametrize(("now", "share"), [(-5, 0.0), (0, 0.0), (0.15, 0.5), (0.3, 1.0), (9, 1.0)])
def test_a_movement_begins_at_its_time_and_stays_where_it_ends(now: float, share: float) -> None:
    movement = Movement(7 * SECOND, 0.3)

    assert movement.share(round((7 + now) * SECOND)) == pytest.approx(share)
    assert movement.is_over(round((7 + now) * SECOND)) is (now >= 0.3)


def test_a_movement_that_takes_no_time_is_over_at_once() -> None:
    assert Movement(3, 0.0).share(3) == 1.0


@pytest.mark.parametrize("size", [(640, 360), (1280, 720), (1366, 768), (1080, 1920)])
def test_moving_parts_alone_redrawn_look_like_the_whole_screen_drawn(size: tuple[int, int]) -> None:
    pygame.font.init()
    screen, surface, whole = Dial(), pygame.Surface(size), pygame.Surface(size)

    screen.draw(surface, 0.0)
    for at in (0.2, 0.5, 0.9):
        screen.at = at
        areas = screen.draw_moving(surface)

    assert len(areas) == 1
    Dial.draw(screen, whole, 0.0)
    same = np.array_equal(pygame.surfarray.array3d(surface), pygame.surfarray.array3d(whole))
    assert same


def test_a_screen_is_drawn_often_only_while_a_part_of_it_moves() -> None:
    screen = Dial()
    paces = []

    for at in (0.0, 0.4, 1.0):
        screen.at = at
        paces.append(screen.pace)

    assert paces == [Pace.STILL, Pace.SMOOTH, Pace.STILL]
