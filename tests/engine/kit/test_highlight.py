"""The highlight of a menu: it moves from one choice to the next, and only there is redrawn."""

from typing import Any

import numpy as np
import pygame
import pytest

from drills.trace import nanoseconds
from engine.kit.base import MOST, Choice, Menu, Screen
from engine.kit.motion import SHORT
from engine.stage.actions import Action
from engine.stage.scene import Pace
from tests.engine.five import pictures
from tests.engine.ladder.stages import made_levels

SIZES = [(640, 360), (1280, 720), (1366, 768), (1080, 1920)]
BEGAN = 5_000_000_000
"""Time at which the menus open, in ns."""


class Bar(Menu[int]):
    """Menu of choices side by side."""

    in_a_bar = True


def choices(count: int) -> list[Choice[int]]:
    """So many choices, the first with a note."""
    words = ["Five minutes", "Warm-up", "History", "Leave"]
    labels = [words[number % len(words)] for number in range(count)]
    return [Choice(label, n, "" if n else "2 check-ups") for n, label in enumerate(labels)]


def home() -> Screen[Any]:
    """Home of a player with some levels passed."""
    return pictures.home(made_levels(), 2, pictures.LATER, 12)


MENUS = {
    "bar": lambda: Bar(choices(4)),
    "two in a bar": lambda: Bar(choices(2)),
    "list": lambda: Menu(choices(5)),
    "home": home,
}
each_menu = pytest.mark.parametrize("name", MENUS)


def opened(name: str, surface: pygame.Surface, *, moves: bool = True) -> Screen[Any]:
    """A menu that was drawn on a surface, with its first choice selected."""
    pygame.font.init()
    screen: Screen[Any] = MENUS[name]()
    screen.on_motion(allowed=moves)
    screen.on_sample(None, BEGAN)
    screen.draw(surface, 0.0)
    return screen


def pass_time(screen: Screen[Any], *seconds: float) -> None:
    """Tell a screen the time at some seconds after it opened."""
    for each in seconds:
        screen.on_sample(None, BEGAN + nanoseconds(each))


def pixels(surface: pygame.Surface) -> Any:
    """Colour of every pixel."""
    return pygame.surfarray.array3d(surface)


def drawn_whole(screen: Screen[Any], size: tuple[int, int]) -> Any:
    """Pixels of the whole screen, drawn as it is now."""
    whole = pygame.Surface(size)
    screen.draw(whole, 0.0)
    return pixels(whole)


@pytest.mark.parametrize("size", SIZES)
@each_menu
def test_the_way_of_the_highlight_redrawn_looks_like_the_whole_screen_drawn(
    name: str, size: tuple[int, int]
) -> None:
    surface, same = pygame.Surface(size), []
    screen = opened(name, surface)

    screen.on_action(Action.NEXT)
    for part in (0.0, 0.2, 0.5, 0.8, 1.0):
        pass_time(screen, 1 + part * SHORT)
        screen.draw_moving(surface)
        same.append(np.array_equal(pixels(surface), drawn_whole(screen, size)))

    assert same == [True] * 5


@pytest.mark.parametrize("size", SIZES)
@each_menu
def test_the_highlight_ends_where_a_menu_that_does_not_move_has_it_at_once(
    name: str, size: tuple[int, int]
) -> None:
    moving, still = pygame.Surface(size), pygame.Surface(size)
    screen, other = opened(name, moving), opened(name, still, moves=False)

    for each in (screen, other):
        each.on_action(Action.NEXT)
    other.draw_moving(still)
    pass_time(screen, 1.0, 1.0 + SHORT)
    screen.draw_moving(moving)

    assert not other.is_moving
    assert np.array_equal(pixels(moving), pixels(still))
    assert not np.array_equal(pixels(still), drawn_whole(opened(name, moving), size))


@each_menu
def test_it_moves_for_a_moment_after_a_choice_and_rests_otherwise(name: str) -> None:
    screen = opened(name, pygame.Surface((640, 360)))
    paces = []

    pass_time(screen, 0.5)
    paces.append(screen.pace)
    screen.on_action(Action.NEXT)
    for seconds in (1.0, 1.0 + 0.5 * SHORT, 1.0 + SHORT):
        pass_time(screen, seconds)
        paces.append(screen.pace)

    assert paces == [Pace.STILL, Pace.SMOOTH, Pace.SMOOTH, Pace.STILL]


@each_menu
def test_only_where_the_highlight_is_or_was_is_shown_anew(name: str) -> None:
    surface = pygame.Surface((1280, 720))
    screen = opened(name, surface)
    before = pixels(surface)

    screen.on_action(Action.NEXT)
    pass_time(screen, 1.0, 1.0 + 0.5 * SHORT)
    [area] = screen.draw_moving(surface)

    changed = np.argwhere((pixels(surface) != before).any(axis=2))
    assert len(changed) > 100
    assert all(area.collidepoint(x, y) for x, y in changed)
    assert area.width * area.height < 1280 * 720 / 8


def test_a_new_choice_on_the_way_turns_the_highlight_around_where_it_is() -> None:
    surface = pygame.Surface((1280, 720))
    screen = opened("bar", surface)

    screen.on_action(Action.NEXT)
    pass_time(screen, 1.0, 1.0 + 0.5 * SHORT)
    screen.draw_moving(surface)
    half = pixels(surface)
    screen.on_action(Action.PREVIOUS)
    pass_time(screen, 1.0 + 0.5 * SHORT)
    screen.draw_moving(surface)

    assert np.array_equal(pixels(surface), half)


def test_a_list_that_scrolls_jumps_to_the_choice() -> None:
    pygame.font.init()
    screen = Menu(choices(MOST + 3))
    screen.on_motion(allowed=True)
    screen.on_sample(None, BEGAN)
    screen.draw(pygame.Surface((640, 360)), 0.0)
    before = screen.appearance()

    screen.on_action(Action.PREVIOUS)
    pass_time(screen, 0.1)

    assert screen.appearance() != before
    assert not screen.is_moving
