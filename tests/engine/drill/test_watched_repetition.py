"""Repetition of the demo: its foot does what the pedals do, and alone is redrawn as they move."""

from __future__ import annotations

import numpy as np
import pygame
import pytest

from drills.trace import Sample
from engine.drill.watched_repetition import DARK, WatchedRepetition
from engine.kit.canvas import Fonts
from engine.ladder.level_files import SHIPPED, load_levels
from engine.stage.scene import Pace
from tests.engine.drill.watched_pictures import watched, watched_blip
from tests.engine.kit.recording_canvas import RecordingCanvas, recorded

LEVELS = {level.id: level for level in load_levels([SHIPPED])}
BLIP, CLUTCH = LEVELS["blip-1-first"], LEVELS["clutch-1-order"]


def names(screen: WatchedRepetition) -> list[str]:
    """Texts of the moving parts."""
    canvas = RecordingCanvas((1920, 1080), Fonts())
    screen.paint_moving(canvas)
    return [text.text for text in canvas.texts]


def test_a_pedal_that_moves_changes_the_foot_and_not_the_rest() -> None:
    screen = watched(BLIP)
    appearance, movement = screen.appearance(), screen.movement()

    screen.on_sample(Sample(1_000_000, 60.0, 73.0), 1_000_000)

    assert screen.appearance() == appearance
    assert screen.movement() != movement


@pytest.mark.parametrize("size", [(640, 360), (1366, 768)])
def test_the_foot_alone_redrawn_looks_like_the_whole_screen_drawn(size: tuple[int, int]) -> None:
    pygame.font.init()
    screen, surface, whole = watched(BLIP), pygame.Surface(size), pygame.Surface(size)
    screen.draw(surface, 0.0)

    screen.on_sample(Sample(1_000_000, 60.0, 91.0), 1_000_000)
    areas = screen.draw_moving(surface)
    screen.draw(whole, 0.0)

    pixels = pygame.surfarray.array3d(surface), pygame.surfarray.array3d(whole)
    assert len(areas) == 1
    assert np.array_equal(*pixels)


def test_the_foot_is_larger_where_a_player_sees_nothing() -> None:
    lit, dark = watched(BLIP), watched_blip(BLIP)

    (((_, beside),), ((_, alone),)) = lit.moving_areas, dark.moving_areas

    assert (lit.is_lit, dark.is_lit) == (True, False)
    assert alone[0] * alone[1] > 3 * beside[0] * beside[1]
    assert [text.text for text in recorded(dark).texts] == [DARK]
    assert dark.pace is Pace.LIVE


def test_a_clutch_is_drawn_only_where_the_level_asks_for_one() -> None:
    assert names(watched_blip(BLIP)) == ["brake", "throttle"]
    assert names(watched_blip(CLUTCH)) == ["clutch", "brake", "throttle"]
