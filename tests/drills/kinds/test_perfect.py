"""A perfect repetition of each kind reads 0 or near it in every measure that a level may limit."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from drills.kinds import KINDS
from drills.kinds.trail import PLACES
from drills.measures.catalogue import CATALOGUE
from tests.drills.kinds.clutch_cases import shift
from tests.drills.kinds.driven_zone import USUAL, Foot, zone_of_foot
from tests.drills.kinds.made import TIME, Made, lines, made, square
from tests.drills.kinds.run_case import run_of
from tests.drills.kinds.trail_case import EASE, asks, way_of
from tests.made import BLIP, HOLD

SWAY = 0.05 * np.sin(2 * np.pi * 1.1 * TIME)
"""Points that the best of feet still sways by."""
STILL = lines((0, 60.0)) + SWAY
REACTION = 0.12
"""Seconds that an answer to a cue takes at least."""
PULSE = 0.1
"""Seconds that a short blip takes."""
NEAR = {"points": 0.5, "points/s": 0.5, "points·s": 0.1, "m": 0.1, "": 0.02, "s": REACTION + 0.01}
"""Largest value that is near 0, by the unit of the measure."""
TAKES_TIME = {"release_time": EASE, "clutch_up": REACTION + PULSE + 0.01}
"""Seconds that what is asked takes even where it is done perfectly, by the measure."""


def held() -> Made:
    """A brake held still on its target."""
    return made(HOLD, STILL)


def squeezed() -> Made:
    """A brake that is on its target at once, and stays."""
    level = replace(BLIP, kind=KINDS["squeeze"], own={"duration": 1.8}, limits={"settle": 1.0})
    return made(level, np.where(TIME >= REACTION, STILL, 0.0))


def blipped() -> Made:
    """One short blip under a still brake."""
    return made(BLIP, STILL, square(REACTION, PULSE))


def run() -> Made:
    """A run of short blips on the beat."""
    return run_of((0.0, 0.0, 0.0), STILL, (PULSE,) * 3)


def eased() -> Made:
    """A straight way down from the moment that it begins, with a short blip to each click."""
    begins, clicks = REACTION + 0.001, [share * EASE for share in PLACES[2]]
    brake = lines((REACTION, 60.0), (begins, 56.9), (begins + EASE * 56.9 / 60, 0.0)) + SWAY
    return way_of(brake, clicks, asks(2), (PULSE, PULSE))


def shifted() -> Made:
    """A short blip from the moment that the clutch is down, and the clutch up right after it."""
    return shift(REACTION, REACTION, PULSE, REACTION + PULSE, STILL)


def braked() -> Made:
    """A zone on its line, with a short blip on each beat."""
    return zone_of_foot(Foot(pulse=PULSE, dips=(0.05, 0.05)), USUAL)


PERFECT: dict[str, Callable[[], Made]] = {
    "hold": held,
    "squeeze": squeezed,
    "blip": blipped,
    "run": run,
    "trail": eased,
    "clutch": shifted,
    "zone": braked,
}


@pytest.mark.parametrize(
    ("kind", "name"), [(kind.name, name) for kind in KINDS.values() for name in kind.limitable]
)
def test_a_perfect_repetition_reads_near_0_in_what_a_level_may_limit(kind: str, name: str) -> None:
    value = PERFECT[kind]().verdict.measures[name]

    assert value is not None
    assert abs(value) <= TAKES_TIME.get(name, NEAR[CATALOGUE[name].unit])


@pytest.mark.parametrize("kind", list(PERFECT))
def test_a_perfect_repetition_is_clean(kind: str) -> None:
    assert PERFECT[kind]().verdict.clean
