"""Transfer from drills to the road: the dips of a drive compared with those of recent drills.

The difference of the medians has a percentile bootstrap interval (Efron & Tibshirani 1993) in which
each blip counts by itself. Blips of one drive are more alike than those of several drives, so the
interval is about this drive and does not predict the next one.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from statistics import median

import numpy as np
from numpy.typing import NDArray

from engine.practice.course import LEFT_OUT, Course
from engine.road.drive import Drive

DAYS = 10
"""Newest days with practice of a kind, up to that of a drive, whose drills are compared with it:
enough of them, and of the present skill, however often the player practises."""
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
ALIKE = "trail"
"""Name of the kind of drill whose dips are measured as those of the road: easing off, against its
chord."""
SINGLE = "blip"
"""Name of the kind of drill with single blips, which are measured otherwise than the road."""
DRILLED: Mapping[str, str] = {ALIKE: "mean_dip", SINGLE: "dip"}
"""Measure of each kind of drill that stands beside the dips of a drive: the mean dip while easing
off, and the dip of single blips, which is measured against what was held."""


@dataclass(frozen=True)
class DrillComparison:
    """Comparison of the dips of a drive with those of the drills of one kind."""

    kind: str
    """Name of the kind of drill."""
    count: int
    """Number of repetitions of the drill that the drive is compared with."""
    dip: float | None
    """Median dip of the drills, in points; None if there are no drills."""
    days: int = 0
    """Number of days on which these repetitions were practised."""
    more: float | None = None
    """Median dip on the road less that of the drills, in points; None with too few to compare, or
    if the drills are not measured as the road is."""
    low: float | None = None
    """Low end of the 95 % interval of `more`, in points; None as `more` is."""
    high: float | None = None
    """High end of the 95 % interval of `more`, in points; None as `more` is."""

    @property
    def tells(self) -> bool:
        """Whether the interval of the difference leaves out 0, so that road and drill differ."""
        return self.low is not None and self.high is not None and self.low * self.high > 0


@dataclass(frozen=True)
class Drilled:
    """Drills of one kind that a drive is compared with."""

    dips: tuple[float, ...]
    """Dips of the drills, in points, oldest first."""
    numbers: tuple[int, ...]
    """Numbers of these repetitions in the history, in the same order."""
    days: int
    """Number of days on which they were practised."""


def drilled(course: Course, day: date) -> Drilled:
    """Drills of one kind on the newest days with practice of it up to a day.

    Those without a dip are left out, and the warm-up of each day; a day has practice if some are
    left.
    """
    last = day.toordinal()
    can = (course.day <= last) & (course.place > LEFT_OUT) & np.isfinite(course.value)
    days = np.unique(course.day[can])[-DAYS:]
    used = course.only(can & np.isin(course.day, days))
    return Drilled(tuple(used.value.tolist()), tuple(used.number.tolist()), int(days.size))


def comparisons(drive: Drive, courses: Mapping[str, Course]) -> tuple[DrillComparison, ...]:
    """Comparisons of a drive with the drills before it, one for each kind of drill."""
    day = drive.at.date()
    return tuple(comparison(kind, drive.dips, drilled(courses[kind], day)) for kind in DRILLED)


def comparison(kind: str, road: Sequence[float], drill: Drilled) -> DrillComparison:
    """Comparison of the dips of a drive (points) with those of one kind of drill."""
    if not drill.dips:
        return DrillComparison(kind, 0, None)
    middle = median(drill.dips)
    alone = DrillComparison(kind, len(drill.dips), middle, drill.days)
    if kind != ALIKE or min(len(road), len(drill.dips)) < ENOUGH:
        return alone
    rng = np.random.default_rng(SEED)
    differences = _medians(road, rng) - _medians(drill.dips, rng)
    outside = (1 - CONFIDENCE) / 2
    low, high = np.quantile(differences, [outside, 1 - outside])
    return replace(alone, more=median(road) - middle, low=float(low), high=float(high))


def _medians(values: Sequence[float], rng: np.random.Generator) -> NDArray[np.float64]:
    """Median of each bootstrap resample of some dips, in points, shape (DRAWS,)."""
    drawn = rng.choice(np.asarray(values), size=(DRAWS, len(values)))
    return np.asarray(np.median(drawn, axis=1), dtype=np.float64)
