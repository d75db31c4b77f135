"""Films of the demo: a repetition of the simulated foot with its reveal, and its replay."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from itertools import islice

import numpy as np
import pygame
from moving_png import Frame, Pixels

from drills.trace import nanoseconds
from engine.drill.demo import watch
from engine.drill.demonstration import Demonstration
from engine.drill.lesson import Lesson
from engine.drill.lesson_moves import LASTS
from engine.drill.reveal import Reveal
from engine.kit import theme
from engine.kit.foot_pose import Way
from engine.ladder.level_files import SHIPPED, load_levels
from engine.pedals.rig import Rig
from engine.stage.actions import Action
from engine.stage.events import Events
from engine.stage.headless import STEP, ManualClock, NoLights
from engine.stage.scene import Pace, Scene
from engine.stage.speaker import Silence
from engine.stage.stage import Stage
from engine.stage.window import CUE_LASTS

SIZE = (960, 540)
"""Width and height of every picture, in pixels."""
EACH = 50
"""Time that one picture of a repetition lasts, in ms: 20 a second."""
EACH_OF_REPLAY = 80
"""Time that one picture of a replay lasts, in ms: it is slower than what it shows."""
BEFORE = 900
"""Time that the prompt is seen before the foot moves, in ms: it is to be read."""
ASKED = nanoseconds(1.2)
"""Time that a reveal is seen before a replay is asked for, in ns."""
AFTER = 1500
"""Time that the end of a replay is seen, in ms."""
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


def repetition() -> list[Frame]:
    """Pictures of a repetition, from the prompt to the end of its reveal."""
    frames: list[Frame] = []
    with _demo(EACH) as (scenes, camera):
        for scene in scenes:
            frames += camera.frames_of(scene)
            if scene.screen.name == Reveal.name:
                break
    return [Frame(frames[0].pixels, BEFORE), *frames]


def replay() -> list[Frame]:
    """Pictures of the reveal of the same repetition, which is asked to replay it."""
    frames: list[Frame] = []
    with _demo(EACH_OF_REPLAY) as (scenes, camera):
        for scene in scenes:
            frames = list(camera.frames_of(scene, ASKED))
            if scene.screen.name == Reveal.name:
                break
    return [*frames, Frame(frames[-1].pixels, AFTER)]


def lesson() -> list[Frame]:
    """Pictures of the lesson about the blip, once through its movement."""
    clock = ManualClock()
    stage = Stage(NoLights(), Silence(), Events(None, clock))
    screen = Lesson("blip", "One blip", Way.ROLL)
    camera = Camera(clock, Flashes(clock), EACH_OF_REPLAY)
    frames = camera.frames_of(Scene(screen, Rig(clock), stage))
    return list(islice(frames, round(1000 * LASTS / EACH_OF_REPLAY)))


@contextmanager
def _demo(each: int) -> Iterator[tuple[Iterator[Scene], Camera]]:
    """Context with the scenes of a demo, and what films them.

    `each` is the time that one picture lasts, in ms.
    """
    clock = ManualClock()
    lights = Flashes(clock)
    levels = load_levels([SHIPPED])
    level = next(level for level in levels if level.id == LEVEL)
    demonstration = Demonstration(level, 2, SEED, SKILL, levels=levels)
    stage = Stage(lights, Silence(), Events(None, clock))
    with demonstration.history() as history:
        flow = watch(demonstration, clock, stage, history, lambda: DATE)
        yield flow, Camera(clock, lights, each)
        flow.close()


class Camera:
    """Films screens: it runs them and takes a picture every so often."""

    def __init__(self, clock: ManualClock, lights: Flashes, each: int) -> None:
        """`each` is the time that one picture lasts, in ms."""
        self._clock, self._lights, self._each = clock, lights, each

    def frames_of(self, scene: Scene, asked_at: int | None = None) -> Iterator[Frame]:
        """Pictures of a screen, from when it opens until it has an outcome.

        With `asked_at` a reveal is asked for a replay so many ns after it opened, and filmed until
        nothing of it moves any more.
        """
        screen, surface = scene.screen, pygame.Surface(SIZE)
        screen.on_means(scene.rig.means)
        screen.on_motion(allowed=True)
        screen.on_focus(True, self._clock())
        began = due = self._clock()
        is_asked = False
        while screen.outcome is None and (not is_asked or screen.pace is Pace.SMOOTH):
            self._clock.advance(STEP)
            screen.on_sample(scene.rig.sample(), self._clock())
            if self._clock() < due:
                continue
            due += nanoseconds(self._each / 1000)
            if self._lights.lit:
                surface.fill(theme.THROTTLE)
            else:
                screen.draw(surface, 0.0)
            yield Frame(pixels_of(surface), self._each)
            is_due = asked_at is not None and self._clock() - began >= asked_at
            if is_due and not is_asked and screen.name == Reveal.name:
                screen.on_action(Action.NEXT)
                is_asked = True


def pixels_of(surface: pygame.Surface) -> Pixels:
    """Pixels of a surface, of shape (height, width, 3)."""
    return np.ascontiguousarray(pygame.surfarray.array3d(surface).transpose(1, 0, 2))
