"""Transfer from drills to the road: the dips of a drive compared with those of recent drills.

The difference of the medians has a percentile bootstrap interval (Efron & Tibshirani 1993) in which
each blip counts by itself. Blips of one drive are more alike than those of several drives, so the
interval is about this drive and does not predict the next one.
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
"""Days up to that of a drive from which drills are compared with it: long enough for enough of
them, short enough to show the present skill."""
ENOUGH = 8
"""Fewest dips of the drive, and of the drills, for a comparison: with 8 on the road the interval
covers in 91 %, from 12 on in 95 % (simulated, 400 drives of skewed dips each)."""
DRAWS = 2000
"""Number of bootstrap resamples: enough for the ends of the interval to repeat to 5 % of its
width."""
SEED = 28
"""Seed of the bootstrap resamples: a drive always gets the same interval."""
CONFIDENCE = 0.95
"""Coverage of the interval of the difference between road and drills, as a fraction."""
DRILLED: Mapping[str, str] = {"blip": "dip", "trail": "mean_dip"}
"""Measure of each kind of drill that is compared with the dips of a drive: the dip of single blips,
and the mean dip while easing off, which is measured against a chord as on the road."""


@dataclass(frozen=True)
class DrillComparison:
    """Comparison of the dips of a drive with those of the drills of one kind."""

    kind: str
    """Name of the kind of drill."""
    count: int
    """Number of repetitions of the drill that the drive is compared with."""
    dip: float | None
    """Median dip of the drills, in points; None if there are no drills."""
    more: float | None = None
    """Median dip on the road less that of the drills, in points; None with too few to compare."""
    low: float | None = None
    """Low end of the 95 % interval of `more`, in points; None with too few to compare."""
    high: float | None = None
    """High end of the 95 % interval of `more`, in points; None with too few to compare."""

    @property
    def tells(self) -> bool:
        """Whether the interval of the difference leaves out 0, so that road and drill differ."""
        return self.low is not None and self.high is not None and self.low * self.high > 0


def drilled(course: Course, day: date) -> tuple[float, ...]:
    """Dips of drills in the last weeks up to a day, in points, without the warm-up of each day."""
    last = day.toordinal()
    near = (course.day > last - DAYS) & (course.day <= last)
    used = near & (course.place > LEFT_OUT) & np.isfinite(course.value)
    return tuple(course.value[used].tolist())


def comparisons(drive: Drive, courses: Mapping[str, Course]) -> tuple[DrillComparison, ...]:
    """Comparisons of a drive with the drills before it, one for each kind of drill."""
    return tuple(
        comparison(kind, drive.dips, drilled(courses[kind], drive.at.date())) for kind in DRILLED
    )


def comparison(kind: str, road: Sequence[float], drill: Sequence[float]) -> DrillComparison:
    """Comparison of the dips of a drive with those of one kind of drill, all in points."""
    if not drill:
        return DrillComparison(kind, 0, None)
    middle = median(drill)
    if min(len(road), len(drill)) < ENOUGH:
        return DrillComparison(kind, len(drill), middle)
    rng = np.random.default_rng(SEED)
    differences = _medians(road, rng) - _medians(drill, rng)
    outside = (1 - CONFIDENCE) / 2
    low, high = np.quantile(differences, [outside, 1 - outside])
    return DrillComparison(
        kind, len(drill), middle, median(road) - middle, low=float(low), high=float(high)
    )


def _medians(values: Sequence[float], rng: np.random.Generator) -> NDArray[np.float64]:
    """Median of each bootstrap resample of some dips, in points, shape (DRAWS,)."""
    drawn = rng.choice(np.asarray(values), size=(DRAWS, len(values)))
    return np.asarray(np.median(drawn, axis=1), dtype=np.float64)
