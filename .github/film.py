"""Film of the demo: one repetition of the simulated foot and its reveal, as pictures."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime

import numpy as np
import pygame
from moving_png import Frame, Pixels

from drills.trace import nanoseconds
from engine.drill.demo import watch
from engine.drill.demonstration import Demonstration
from engine.kit import theme
from engine.ladder.level_files import SHIPPED, load_levels
from engine.stage.events import Events
from engine.stage.headless import STEP, ManualClock, NoLights
from engine.stage.scene import Scene, next_scene
from engine.stage.speaker import Silence
from engine.stage.stage import Stage
from engine.stage.window import CUE_LASTS

SIZE = (960, 540)
"""Width and height of every picture, in pixels."""
EACH = 40
"""Time that one picture of the film lasts, in ms: 25 a second."""
BEFORE = 900
"""Time that the prompt is seen before the foot moves, in ms: it is to be read."""
LEVEL = "blip-1-first"
SKILL = 0.15
"""Skill of the simulated foot: its brake dips as that of somebody who is new to it."""
SEED = 2
"""Seed of the simulated foot and of the wait before the cue."""
DATE = datetime(2026, 5, 17, 20, 15, tzinfo=UTC)
"""Date of the repetition, which is shown nowhere."""


class Flashes(NoLights):
    """Window of the film: it notes when the cue lights it."""

    def __init__(self, clock: ManualClock) -> None:
        self._clock = clock
        self._lit_until = -1

    def flash(self, *, needed: bool, dim: bool = False) -> None:
        """Light the whole picture, as the cue does."""
        self._lit_until = self._clock() + CUE_LASTS

    @property
    def lit(self) -> bool:
        """Whether the flash of the cue lights the picture now."""
        return self._clock() < self._lit_until


def film() -> list[Frame]:
    """Pictures of a repetition, from the prompt to the end of its reveal."""
    clock = ManualClock()
    lights = Flashes(clock)
    levels = load_levels([SHIPPED])
    level = next(level for level in levels if level.id == LEVEL)
    demonstration = Demonstration(level, 2, SEED, SKILL, levels=levels)
    stage = Stage(lights, Silence(), Events(None, clock))
    frames: list[Frame] = []
    with demonstration.history() as history:
        flow = watch(demonstration, clock, stage, history, lambda: DATE)
        for _ in ("repetition", "reveal"):
            scene = next_scene(flow)
            assert scene is not None, "the demo ended before its first reveal"
            frames += _filmed(scene, clock, lights)
        flow.close()
    return [Frame(frames[0].pixels, BEFORE), *frames]


def _filmed(scene: Scene, clock: ManualClock, lights: Flashes) -> Iterator[Frame]:
    """Pictures of one screen, from when it opens until it has an outcome."""
    screen, surface = scene.screen, pygame.Surface(SIZE)
    screen.on_means(scene.rig.means)
    screen.on_motion(allowed=True)
    screen.on_focus(True, clock())
    due = clock()
    while screen.outcome is None:
        clock.advance(STEP)
        screen.on_sample(scene.rig.sample(), clock())
        if clock() >= due:
            due += nanoseconds(EACH / 1000)
            if lights.lit:
                surface.fill(theme.THROTTLE)
            else:
                screen.draw(surface, 0.0)
            yield Frame(pixels_of(surface), EACH)


def pixels_of(surface: pygame.Surface) -> Pixels:
    """Pixels of a surface, of shape (height, width, 3)."""
    return np.ascontiguousarray(pygame.surfarray.array3d(surface).transpose(1, 0, 2))
