"""Whether what is drilled carries over: the dips of a drive beside those of the last weeks' drills.

The difference of the medians with its percentile bootstrap interval (Efron & Tibshirani 1993),
each blip taken by itself. Blips of one drive are more alike than those of several, so that the
interval says what this drive was, and not what the next one will be.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from statistics import median

import numpy as np
from numpy.typing import NDArray

from engine.practice.course import LEFT_OUT, Course
from engine.road.drive import Drive

DAYS = 28
"""days, up to the day of the drive, whose drills it is held against: long enough for a count, and
short enough to be the foot of now."""
ENOUGH = 8
"""count of blips on either side, under which nothing is compared: with 8 on the road the interval
covers 91 times in 100, from 12 on 95 (simulated, 400 drives of skewed dips each)."""
DRAWS = 2000
"""count of resamples: the ends of the interval come out the same to a twentieth of its width."""
SEED = 28
"""Of the resamples, so that the same drive is told the same way each time."""
SHARE = 0.95
"""1, how often the interval covers."""
DRILLED: Mapping[str, str] = {"blip": "dip", "trail": "mean_dip"}
"""Name of the measure of each kind of drill that is set beside the road: a single blip against
what was held, and blips while easing off, which are held against a chord as on the road."""


@dataclass(frozen=True)
class DrillComparison:
    """A drive beside the drills of one kind."""

    kind: str
    """Name of the kind."""
    count: int
    """count of the repetitions."""
    dip: float | None
    """points, their median; None where there are none."""
    more: float | None = None
    """points, how much more the brake fell on the road; None where there are too few to compare."""
    low: float | None = None
    """points, where the interval of that begins; None likewise."""
    high: float | None = None
    """points, where it ends; None likewise."""

    @property
    def tells(self) -> bool:
        """Whether road and drill are told apart."""
        return self.low is not None and self.high is not None and self.low * self.high > 0


def drilled(course: Course, day: date) -> tuple[float, ...]:
    """points, the dips of the last weeks up to a local day, without the first of each day."""
    last = day.toordinal()
    near = (course.day > last - DAYS) & (course.day <= last)
    kept = near & (course.place > LEFT_OUT) & np.isfinite(course.value)
    return tuple(course.value[kept].tolist())


def comparisons(drive: Drive, courses: Mapping[str, Course]) -> tuple[DrillComparison, ...]:
    """A drive beside the drills before it, those of each kind by themselves."""
    return tuple(
        comparison(kind, drive.dips, drilled(courses[kind], drive.at.date())) for kind in DRILLED
    )


def comparison(kind: str, road: Sequence[float], drill: Sequence[float]) -> DrillComparison:
    """The dips of a drive beside those of a kind of drill, in points."""
    if not drill:
        return DrillComparison(kind, 0, None)
    middle = median(drill)
    if min(len(road), len(drill)) < ENOUGH:
        return DrillComparison(kind, len(drill), middle)
    rng = np.random.default_rng(SEED)
    differences = _medians(road, rng) - _medians(drill, rng)
    outside = (1 - SHARE) / 2
    low, high = np.quantile(differences, [outside, 1 - outside])
    return DrillComparison(
        kind, len(drill), middle, median(road) - middle, low=float(low), high=float(high)
    )


def _medians(values: Sequence[float], rng: np.random.Generator) -> NDArray[np.float64]:
    """The median of each resample."""
    drawn = rng.choice(np.asarray(values), size=(DRAWS, len(values)))
    return np.asarray(np.median(drawn, axis=1), dtype=np.float64)
