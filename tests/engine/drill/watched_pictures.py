"""Repetitions of the demo, beside the prompt and where a player would see nothing."""

import math
from collections.abc import Mapping

import numpy as np

from drills.level import Level
from drills.phases import Event
from drills.trace import Sample
from engine.drill.watched_repetition import WatchedRepetition
from engine.kit.base import Place
from engine.pedals.rig import Means
from tests.fakes import Audience, a_stage


def watched_screens(blip: Level, with_clutch: Level) -> Mapping[str, WatchedRepetition]:
    """Repetitions of the demo by their names."""
    return {
        "watched": watched(blip),
        "watched blip": watched_blip(blip),
        "watched clutch": watched_blip(with_clutch),
    }


def watched(level: Level, audience: Audience | None = None) -> WatchedRepetition:
    """Repetition of the demo with the pedals half way down."""
    task = level.kind.task(level, level.targets.least, np.random.default_rng(1))
    stage = a_stage() if audience is None else a_stage(audience)
    screen = WatchedRepetition(level, task, Place(3, 10), stage, 0)
    screen.on_means(Means(label="Demo: nothing is saved"))
    screen.on_sample(Sample(0, 60.0, 70.0), 0)
    return screen


def watched_blip(level: Level) -> WatchedRepetition:
    """Repetition of the demo after its cue, with the throttle pressed."""
    audience = Audience()
    screen = watched(level, audience)
    time, target = 0, float(level.targets.least)
    while Event.CUE not in [transition.event for transition in audience.transitions]:
        time += 1_000_000
        brake = 0.0 if time < 100_000_000 else target + 0.02 * math.sin(time * 57e-9)
        screen.on_sample(Sample(time, brake, 0.0, 0.0), time)
    time += 1_000_000
    screen.on_sample(Sample(time, target, 64.0, 80.0), time)
    return screen
