"""Home moves once as the player comes back: the shoe steps on, and a passed mark fills."""

from dataclasses import replace
from typing import Any

import numpy as np
import pygame
import pytest

from drills.trace import nanoseconds
from engine.game.facts import Facts, risen
from engine.game.home import Home
from engine.kit import shoe, theme
from engine.kit.motion import LONG
from engine.ladder.ladder import ladder_stages
from engine.ladder.rise import Rise
from engine.practice.passes import next_level
from engine.practice.retention import Retention
from engine.stage.actions import Action
from engine.stage.scene import Pace
from tests.engine.five import pictures
from tests.engine.kit.recording_canvas import recorded
from tests.engine.ladder.stages import made_levels

LEVELS = made_levels()
STEPPED = Rise("stillness", frozenset({LEVELS[3].id}))
"""The last level of the first stage is passed, and the shoe goes to the next stage."""
FILLED = Rise("first blip", frozenset({LEVELS[3].id}))
"""The same level is passed, and the shoe stands where it stood."""
BEGAN = 7_000_000_000


def facts(passed: int, *retained: int) -> Facts:
    """Facts of a player with the first levels passed, and some of them retained."""
    done = frozenset(level.id for level in LEVELS[:passed])
    kept = {LEVELS[number].id: Retention(outlasted=1) for number in retained}
    stages = ladder_stages(LEVELS, done, retention=kept)
    return Facts(pictures.LATER, next_level(LEVELS, done), stages, "next: steadiness")


def home(rise: Rise | None, *, moves: bool = True) -> Home:
    """Home of a player who has passed the first stage."""
    pygame.font.init()
    screen = pictures.home(LEVELS, 4, pictures.LATER, 12, rise=rise)
    screen.on_motion(allowed=moves)
    return screen


def at(screen: Home, share: float) -> Home:
    """Home at a share of the time that its movement takes."""
    for part in (0.0, share):
        screen.on_sample(None, BEGAN + nanoseconds(part * LONG))
    return screen


def heel(screen: Home) -> tuple[float, float]:
    """Leftmost and lowest point of the shoe, in canvas units."""
    count = len(shoe.UPPER)
    [upper] = [p for colour, p in recorded(screen).fills if len(p) == count]
    return min(x for x, _ in upper), max(y for _, y in upper)


@pytest.mark.parametrize(
    ("before", "after", "rise"),
    [
        (facts(3), facts(4), STEPPED),
        (facts(4), facts(5), Rise("first blip", frozenset({LEVELS[4].id}))),
        (facts(5), facts(5, 0), Rise("first blip", frozenset({LEVELS[0].id}))),
        (facts(5), facts(5), None),
        (facts(5, 0), facts(5), Rise("first blip", frozenset({LEVELS[0].id}))),
    ],
)
def test_what_changed_on_the_climb_moves(before: Facts, after: Facts, rise: Rise | None) -> None:
    assert risen(before, after) == rise


def test_levels_that_are_done_no_longer_move_nothing() -> None:
    assert risen(facts(6), replace(facts(5), following=facts(6).following)) is None


def test_the_shoe_steps_to_its_new_stage_and_is_above_the_way_between() -> None:
    begins, middle, ends = (heel(at(home(STEPPED), share)) for share in (0.0, 0.5, 1.0))

    assert begins[0] < middle[0] < ends[0]
    assert ends[1] < begins[1]
    assert middle[1] < (begins[1] + ends[1]) / 2
    assert ends == heel(home(None))


def test_a_mark_fills_from_a_ring_to_a_disc() -> None:
    sizes = []
    for share in (0.0, 0.5, 1.0):
        surface = pygame.Surface((1920, 1080))
        at(home(FILLED), share).draw(surface, 0.0)
        light = np.all(pygame.surfarray.array3d(surface) == theme.TEXT, axis=2)
        sizes.append(int(light.sum()))

    assert sizes[0] < sizes[1] < sizes[2]


def test_home_moves_for_a_moment_and_then_rests() -> None:
    paces = [at(home(STEPPED), share).pace for share in (0.0, 0.5, 1.0)]

    assert paces == [Pace.SMOOTH, Pace.SMOOTH, Pace.STILL]
    assert at(home(None), 0.5).pace is Pace.STILL


def test_where_nothing_may_move_the_end_is_drawn_at_once() -> None:
    still = at(home(STEPPED, moves=False), 0.0)

    assert not still.is_moving
    assert heel(still) == heel(home(None))


@pytest.mark.parametrize("size", [(640, 360), (1280, 720), (1366, 768), (1080, 1920)])
@pytest.mark.parametrize("rise", [STEPPED, FILLED])
def test_the_climb_redrawn_looks_like_the_whole_screen_drawn(
    rise: Rise, size: tuple[int, int]
) -> None:
    surface, same = pygame.Surface(size), []
    screen = at(home(rise), 0.0)
    screen.draw(surface, 0.0)

    screen.on_action(Action.NEXT)
    for share in (0.1, 0.5, 0.9, 1.0):
        at(screen, share).draw_moving(surface)
        whole = pygame.Surface(size)
        screen.draw(whole, 0.0)
        same.append(np.array_equal(pixels(surface), pixels(whole)))

    assert same == [True] * 4


def test_the_end_is_drawn_even_if_all_of_the_way_was_missed() -> None:
    surface, rested = pygame.Surface((640, 360)), pygame.Surface((640, 360))
    screen = at(home(STEPPED), 0.0)
    screen.draw(surface, 0.0)

    at(screen, 5.0).draw_moving(surface)
    home(None).draw(rested, 0.0)

    assert np.array_equal(pixels(surface), pixels(rested))


def pixels(surface: pygame.Surface) -> Any:
    """Colour of every pixel."""
    return pygame.surfarray.array3d(surface)
