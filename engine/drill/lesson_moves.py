"""The movement that each kind of drill asks for, as how far the pedals are pressed over time."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from drills.level import Level
from engine.kit.foot_pose import SETTLED, Pressed

LASTS = 6.0
"""Duration of a movement before it begins again, in s."""
BLIP = 0.6
"""Duration of a blip as it is shown, in s: about twice that of a real one, so that it is seen."""
APPROACH = 0.09
"""Time in which the foot comes to the throttle before a blip, and leaves it after, in s."""
PEAK = 60.0
"""Throttle at the peak of a blip as it is shown, in %."""
HELD = 60.0
"""Brake that is held while the foot blips, in %."""
LIGHT = 40.0
"""Brake of a drill that only holds it, in %."""
RESTING = 2.0
"""Brake under a foot that rests on it, in %."""
FULL = 100.0
"""Clutch that is fully down, in %."""
PICTURES = 60
"""Number of pictures of a moving foot per second."""
EASING = "trail"
"""Name of the kind of drill that eases the brake off."""
EASING_BLIPS = "trail with blips"
"""Name of the lesson for easing off while blipping."""

Track = tuple[tuple[float, float], ...]
"""Points of a pedal's course, in order: time in s, and how far it is pressed in %."""


@dataclass(frozen=True)
class LessonStage:
    """One part of a movement, with a word of its own."""

    begins: float
    """Time at which it begins, in s."""
    pose: float | None = None
    """Time of the pose that stands for it where nothing moves, in s; None for no picture."""


@dataclass(frozen=True)
class Moves:
    """Movement of the pedals over LASTS seconds, whose end leads into its beginning."""

    brake: Track
    """Course of the brake, straight from point to point."""
    stages: tuple[LessonStage, ...]
    """Parts of the movement, in order; the first begins at 0."""
    signs: tuple[float, ...]
    """Times at which the player sees or hears something, in s."""
    blips: tuple[float, ...] = ()
    """Times at which a blip begins, in s."""
    clutch: Track | None = None
    """Course of the clutch, straight from point to point; None without a clutch."""

    def at(self, seconds: float) -> Pressed:
        """How far the pedals are pressed at a time in s; after LASTS it begins again."""
        now = seconds % LASTS
        throttle = max((_blip(now - begins) for begins in self.blips), default=0.0)
        clutch = None if self.clutch is None else _along(self.clutch, now)
        return Pressed(_along(self.brake, now), throttle, clutch)

    def stage_at(self, seconds: float) -> int:
        """Index of the stage at a time in s; after LASTS it begins again."""
        now = seconds % LASTS
        return max(index for index, stage in enumerate(self.stages) if stage.begins <= now)


STEADY: Track = ((0.0, HELD), (LASTS, HELD))
"""Course of a brake that stays where it is."""


def _stages(*times: tuple[float, float | None]) -> tuple[LessonStage, ...]:
    """Stages from the time at which each begins and that of its pose, in s."""
    return tuple(LessonStage(begins, pose) for begins, pose in times)


MOVES: Mapping[str, Moves] = {
    "hold": Moves(
        brake=((0.1, 0.0), (0.2, SETTLED), (1.0, LIGHT), (5.2, LIGHT), (5.7, SETTLED), (5.8, 0.0)),
        stages=_stages((0.0, 0.5), (1.0, 3.0), (5.2, None)),
        signs=(1.8, 4.8),
    ),
    "squeeze": Moves(
        brake=((2.0, RESTING), (2.3, HELD), (5.2, HELD), (5.7, RESTING)),
        stages=_stages((0.0, 1.0), (2.0, 2.2), (2.8, 4.0), (5.2, None)),
        signs=(2.0,),
    ),
    "blip": Moves(
        brake=STEADY,
        stages=_stages((0.0, 1.0), (2.8, 3.3), (3.4, 4.2), (4.8, None)),
        signs=(1.0, 2.8),
        blips=(3.0,),
    ),
    "counting": Moves(
        brake=STEADY,
        stages=_stages((0.0, 1.0), (2.8, 3.3), (3.4, 4.2), (4.8, None)),
        signs=(0.4, 0.9, 1.6, 2.1, 2.8),
        blips=(3.0,),
    ),
    "run": Moves(
        brake=STEADY,
        stages=_stages((0.0, 0.2), (0.5, 1.8), (2.2, 2.6), (5.0, None)),
        signs=(0.5, 1.4, 2.3, 3.2, 4.1),
        blips=(2.3, 3.2, 4.1),
    ),
    EASING: Moves(
        brake=((0.1, 0.0), (0.2, SETTLED), (0.9, HELD), (2.0, HELD), (4.8, 0.0)),
        stages=_stages((0.0, None), (0.9, 1.5), (2.0, 3.4), (4.8, 5.4)),
        signs=(1.2, 2.0),
    ),
    EASING_BLIPS: Moves(
        brake=((0.1, 0.0), (0.2, SETTLED), (0.9, HELD), (2.0, HELD), (4.8, 0.0)),
        stages=_stages((0.0, None), (0.9, 1.5), (2.0, 2.6), (3.0, 3.4), (4.8, None)),
        signs=(1.2, 2.0, 3.0),
        blips=(3.1,),
    ),
    "zone": Moves(
        brake=((1.9, RESTING), (2.2, HELD), (2.7, HELD), (5.5, RESTING)),
        stages=_stages((0.0, 1.0), (1.9, 2.1), (2.7, None), (2.9, 3.2), (4.7, 5.6)),
        signs=(0.4, 0.9, 1.4, 1.9, 2.9, 3.9, 5.5),
        blips=(2.9, 3.9),
    ),
    "clutch": Moves(
        brake=STEADY,
        stages=_stages((0.0, None), (2.0, 2.8), (3.0, 3.3), (3.7, 4.4), (5.0, None)),
        signs=(1.0, 2.0),
        blips=(3.0,),
        clutch=((2.2, 0.0), (2.7, FULL), (3.7, FULL), (4.2, 0.0)),
    ),
}
"""Movement of each lesson, by its name: that of its kind of drill, save EASING_BLIPS."""


def lesson_name(level: Level) -> str | None:
    """Name of the lesson that shows what a level asks for; None if it has none of its own."""
    name = level.kind.name
    if name == EASING and level.own.get("blips"):
        return EASING_BLIPS
    return name if name in MOVES else None


def picture_at(seconds: float) -> int:
    """Number of the picture of a moving foot at a time in s, counted from 0."""
    return round(seconds * PICTURES)


def _along(track: Track, now: float) -> float:
    """How far a pedal is pressed on its course at a time in s, in %."""
    before = track[0]
    for point in track:
        if now < point[0]:
            if point is before:
                return point[1]
            share = (now - before[0]) / (point[0] - before[0])
            return before[1] + share * (point[1] - before[1])
        before = point
    return before[1]


def _blip(since: float) -> float:
    """Throttle of a blip, in %, at a time in s since it began."""
    inside = min(since, BLIP - since)
    if inside < 0:
        return SETTLED * max(1 + inside / APPROACH, 0.0)
    return max(SETTLED, PEAK * math.sin(math.pi * since / BLIP) ** 2)
