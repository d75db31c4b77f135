"""Screens of the health check with contents as they come up, for tests that draw them."""

from collections.abc import Mapping, Sequence
from typing import Any

from drills.health.pedal import measure_health
from drills.level import Level
from drills.trace import SECOND, Pedal, Sample
from engine.kit.base import Screen
from engine.setup.health_screens import BeforeHealth, CheckEnd, HealthCourse, HealthFound
from engine.setup.health_words import health_words
from engine.stage.headless import ManualClock
from tests.drills.health.virtual import TWO, Virtual, read
from tests.loudspeaker import Loudspeaker

THREE = tuple(Pedal)
WORN = Virtual(12, 30, noise=1.3, low=20, high=25, jumps=3, sticks=4)
"""A virtual set with everything wrong at once."""


def found(virtual: Virtual, levels: Sequence[Level], pedals: Sequence[Pedal] = TWO) -> HealthFound:
    """What is told of a virtual set."""
    return HealthFound(health_words(measure_health(read(virtual, pedals).raw), levels))


def led(seconds: float, pedals: Sequence[Pedal] = TWO) -> HealthCourse:
    """The led half minute after some seconds."""
    screen = HealthCourse(read(Virtual(rate=30), pedals).raw.pedals, Loudspeaker())
    clock = ManualClock()
    for now in (0, round(seconds * SECOND)):
        clock.advance(now)
        screen.on_sample(Sample(clock(), 0.0, 0.0, 0.0, (0,) * len(pedals)), clock())
    return screen


def health_screens(levels: Sequence[Level]) -> Mapping[str, Screen[Any]]:
    """Screens of the health check by name."""
    return {
        "health before": BeforeHealth(possible=True),
        "health before once more": BeforeHealth(possible=True, note=CheckEnd.GONE.value),
        "health of nothing": BeforeHealth(possible=False),
        "health off": led(0.5),
        "health press": led(3.2),
        "health hold": led(8.0),
        "health stabs": led(12.0, THREE),
        "health off again": led(27.5, THREE),
        "health of good pedals": found(Virtual(16, 1000, noise=0.02), levels),
        "health of three pedals": found(Virtual(12, 125, noise=1.2), levels, THREE),
        "health of worn pedals": found(WORN, levels, THREE),
        "health of slow pedals": found(Virtual(8, 20), levels),
    }
