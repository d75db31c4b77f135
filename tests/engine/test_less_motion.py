"""Where nothing may move, by the setting or the system's wish, nothing does, and all is still said.

The time left on a screen is a ring that gets shorter: it is told in steps, and no motion.
"""

from typing import Any

import pygame

from drills.trace import SECOND, Sample
from engine.drill.lesson_words import IN_SLOW_MOTION
from engine.kit import theme
from engine.kit.base import Screen
from engine.kit.canvas import Fonts
from engine.stage.scene import Pace
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.pictures import every_screen

BEGINS = 100 * SECOND
LOOK = SECOND // 10
SECONDS = 7
"""Seconds that each screen is watched: as long as a lesson takes to show all it says."""


def texts(screen: Screen[Any]) -> set[str]:
    """All texts on a screen, those on its moving parts too.

    That it is in slow motion is left out: it would be wrong of pictures that stand still.
    """
    canvas = RecordingCanvas((theme.WIDTH // 3, theme.HEIGHT // 3), Fonts())
    screen.paint(canvas, 0.0)
    screen.paint_moving(canvas)
    return {text.text.replace(IN_SLOW_MOTION, "").strip() for text in canvas.texts} - {""}


def watched(screen: Screen[Any], *, moves: bool) -> tuple[set[object], set[Pace], set[str]]:
    """Places of moving parts, paces, and texts in motion of a screen that nobody touches."""
    places, paces, seen = set[object](), set[Pace](), set[str]()
    screen.on_motion(allowed=moves)
    screen.on_focus(True, BEGINS)
    for now in range(BEGINS, BEGINS + SECONDS * SECOND, LOOK):
        screen.on_sample(Sample(now, 0.0, 0.0), now)
        if screen.outcome is not None:
            break
        places.add(screen.movement())
        paces.add(screen.pace)
        if screen.pace is Pace.SMOOTH and not (now - BEGINS) % (SECOND // 2):
            seen |= texts(screen)
    return places, paces, seen


def test_where_nothing_may_move_no_screen_does_and_each_says_what_it_says_in_motion() -> None:
    pygame.font.init()
    # Screens of this test's own, as they are touched.
    moving, still = every_screen.__wrapped__(), every_screen.__wrapped__()
    restless, unsaid, moved = [], dict[str, set[str]](), []

    for name, screen in moving.items():
        _, _, in_motion = watched(screen, moves=True)
        at_rest = still[name]
        places, paces, _ = watched(at_rest, moves=False)
        if len(places) > 1 or Pace.SMOOTH in paces:
            restless.append(name)
        if in_motion:
            moved.append(name)
            if missing := in_motion - texts(at_rest):
                unsaid[name] = missing

    assert restless == []
    assert unsaid == {}
    assert len(moved) > 5
