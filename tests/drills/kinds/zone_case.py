"""One braking zone as a person might drive it, by values."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from drills.kinds import KINDS
from drills.kinds.zone import APART, COUNTED, beats_of, zone_of
from drills.level import Level
from drills.targets import Targets
from tests.drills.kinds.made import TIME, Made, made, square
from tests.drills.shapes import Values
from tests.made import BLIP

PEAK = 80.0
"""Brake asked at the braking point, in %."""
ZONE = replace(
    BLIP,
    id="a-zone",
    kind=KINDS["zone"],
    targets=Targets((PEAK,)),
    limits={"line_worst": 12.0, "dip": 10.0, "brake_on": 0.2, "lateness": 0.15, "off_at": 0.3},
    own={
        **BLIP.own,
        "from": 200.0,
        "to": 80.0,
        "decel": 10.0,
        "downforce": 0.0,
        "ease": 1.0,
        "shifts": 3.0,
    },
    listed={"gears": ()},
)
"""Three downshifts in 3.8 s, with a last second of easing off."""
POINT = COUNTED * APART
"""When the brake is asked, in s from the first knock."""
BEATS = tuple(POINT + beat for beat in beats_of(ZONE))
"""When each blip is asked, in s from the first knock."""
SECONDS = zone_of(ZONE).seconds
"""Time from the braking point to turn-in, in s."""
TURN_IN = POINT + SECONDS
"""When the brake should be off, in s from the first knock."""


def on_line(late: float = 0.0, asked: Level = ZONE, peak: float = PEAK) -> Values:
    """Brake of a foot that is on the asked line throughout, so many s behind it."""
    times, brakes = zip(*zone_of(asked).line(peak), strict=True)
    since = np.round(TIME - POINT - late, 9)
    return np.where(since >= 0, np.interp(since, times, brakes), 0.0)


def between(begins: float, ends: float) -> NDArray[np.bool_]:
    """Which grid points lie between two times in s from the first knock."""
    return (begins - 1e-6 <= TIME) & (ends - 1e-6 > TIME)


def blips(at: Sequence[float] = BEATS, length: float = 0.2, peak: float = 70.0) -> Values:
    """Throttle of upright blips so many s after the first knock."""
    throttle = np.zeros(TIME.size)
    for one in at:
        throttle = np.maximum(throttle, square(one, length, peak))
    return throttle


def zone_of_foot(
    brake: Values | None = None,
    throttle: Values | None = None,
    asked: Level = ZONE,
    clutch: Values | None = None,
    given: int | None = None,
) -> Made:
    """A zone by its pedals; without any, one that is exactly as asked."""
    return made(
        asked,
        on_line(asked=asked) if brake is None else brake,
        blips() if throttle is None else throttle,
        clutch,
        given,
    )


def limited(**limits: float) -> Level:
    """The zone with these limits alone."""
    return replace(ZONE, limits=limits)


def with_own(**changes: Any) -> Level:
    """The zone with other values of its own keys."""
    return replace(ZONE, own={**ZONE.own, **changes})
