"""Bins of day effects over repetitions: what a learning curve is drawn of, and fitted to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from engine.practice.course import Course, Ints
from engine.practice.day_effects import DayEffects, day_effects, todays_level
from engine.practice.level_days import LevelDays, comparable, level_days

MOST_BINS = 40
"""Largest number of bins of one chart or fit, as a count: the marks of more would touch."""
END = 2**63 - 1
"""Number that no repetition is above."""


@dataclass(frozen=True)
class EffectBin:
    """Bin of days in a row, valued at one level."""

    first: int
    """Position of the bin's first repetition among all of its kind of drill, from 1."""
    last: int
    """Position of the bin's last repetition among all of its kind of drill, from 1."""
    days: int
    """Days in the bin, as a count."""
    low: float
    """Lower quartile of the days, in the unit of the measure."""
    middle: float
    """Median of the days, of their logarithms, in the unit of the measure."""
    high: float
    """Upper quartile of the days, in the unit of the measure."""

    @property
    def n(self) -> float:
        """Position of the bin's middle among the repetitions of its kind of drill."""
        return (self.first + self.last) / 2


def days_a_bin(days: int) -> int:
    """Number of days in each bin of so many days."""
    return max(-(-days // MOST_BINS), 1)


def effect_bins(
    course: Course, effects: DayEffects, size: int, after: int = 0, last: int = END
) -> tuple[EffectBin, ...]:
    """Bins of `size` days each, or some more, of the effects; oldest first.

    The effects are of the repetitions of the course that are numbered above `after`, up to `last`.
    """
    places = np.flatnonzero((course.number > after) & (course.number <= last)).astype(np.int64)
    days = course.day[places]
    firsts = places[_index_of_first(days, effects.day)] + 1
    lasts = places[::-1][_index_of_first(days[::-1], effects.day)] + 1
    parts = np.array_split(np.arange(len(effects), dtype=np.int64), max(len(effects) // size, 1))
    bins = []
    for part in parts if len(effects) else []:
        low, middle, high = np.exp(np.percentile(effects.log[part], (25, 50, 75))).tolist()
        bins.append(
            EffectBin(int(firsts[part].min()), int(lasts[part].max()), part.size, low, middle, high)
        )
    return tuple(bins)


def chart_bins(course: Course, begins: Sequence[int], least: float) -> tuple[EffectBin, ...]:
    """Bins of a whole course for its chart, all at today's level; none spans a new beginning.

    `begins` are the numbers of the newest repetitions before the course began anew, rising. Level-
    days are compared with those of the same stretch only. A stretch in which nothing joins the
    days with today's level has no bins.
    """
    edges = list(pairwise([0, *begins, END]))
    stretches = [cells_of(course, least, after, last) for after, last in edges]
    with_days = [cells for cells in stretches if len(cells)]
    if not with_days:
        return ()
    level = todays_level(with_days[-1])
    effects = [day_effects(cells, level) for cells in stretches]
    size = days_a_bin(sum(map(len, effects)))
    return tuple(
        found
        for (after, last), of in zip(edges, effects, strict=True)
        for found in effect_bins(course, of, size, after, last)
    )


def cells_of(course: Course, least: float, after: int = 0, last: int = END) -> LevelDays:
    """Comparable level-days of the repetitions numbered above `after`, up to `last`."""
    return comparable(level_days(course.between(after, last), least))


def _index_of_first(days: Ints, wanted: Ints) -> Ints:
    """Index of the first repetition of each wanted day; every wanted day has one."""
    known, index = np.unique(days, return_index=True)
    found: Ints = index[np.searchsorted(known, wanted)].astype(np.int64)
    return found
