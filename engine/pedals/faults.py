"""Faults by name, each at a strength that a viewer of a demo can see."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from drills.calibration import Calibration
from drills.trace import Pedal
from engine.pedals.faulty import FaultySource, Frozen, Jumping, Stalling, Unplugged
from engine.pedals.poor import Coarse, Creeping, Noisy, Saturating, Seldom
from engine.pedals.port import Source

Wrap = Callable[[Source, Calibration, int], FaultySource]
"""Function that puts a fault around a source, given its calibration and a seed."""


@dataclass(frozen=True)
class Fault:
    """Fault of pedals, which can be put around any source of readings."""

    name: str
    """Name of the fault, in lower case."""
    about: str
    """What the fault does, in a few words."""
    around: Wrap
    """Puts the fault around a source."""


FAULTS = (
    Fault(
        "frozen", "the brake stays where it is from the cue on", lambda source, *_: Frozen(source)
    ),
    Fault(
        "stalling",
        "nothing is reported for 0.2 s after the cue",
        lambda source, _, seed: Stalling(source, 0.2, seed),
    ),
    Fault(
        "jumping",
        "the throttle reads full for a moment, 4 times before the cue",
        lambda source, travel, seed: Jumping(
            source, travel.throttle, Pedal.THROTTLE, seed, to=100.0, in_wait=True, times=4
        ),
    ),
    Fault(
        "creeping",
        "the pedals rest 0.5 % higher each repetition",
        lambda source, travel, _: Creeping(source, travel, a_repetition=0.5),
    ),
    Fault(
        "saturating",
        "the brake reads no more than 55 %",
        lambda source, travel, _: Saturating(source, travel, 55.0),
    ),
    Fault(
        "coarse",
        "a pedal has 32 places",
        lambda source, travel, _: Coarse(source, travel, 5),
    ),
    Fault(
        "noisy",
        "every reading is 2 % off, up or down",
        lambda source, travel, seed: Noisy(source, travel, 2.0, seed),
    ),
    Fault(
        "seldom",
        "20 reports a second",
        lambda source, _, seed: Seldom(source, 20.0, seed),
    ),
    Fault(
        "unplugged",
        "the device goes in every second repetition, and returns",
        lambda source, *_: Unplugged(source, 1.0, every=2),
    ),
)
"""Every fault that a demo can show."""


def fault_called(name: str) -> Fault | None:
    """The fault of this name; None if there is none."""
    return next((fault for fault in FAULTS if fault.name == name), None)
