"""Level-days: the median of a measure on one level on one day, the unit of every course over days.

A kind's repetitions come from ever harder levels. So a course over days compares a level with
itself, and a day with other days of the same level.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from engine.practice.course import LEFT_OUT, Course, Ints

NEW_DAYS = 3
"""First days of a level, as a count, that are left out of courses.

In made-up histories whose levels are worse on their first days, a foot that stays the same is
called falling in 14 to 49 % with these days."""
FEWEST_DAYS = 2
"""Days that a level must have left to be compared with itself, as a count."""


@dataclass(frozen=True, eq=False)
class LevelDays:
    """Middles of a measure by level and day, ordered by level, then by day."""

    level: Ints
    """Number of the level, shape (n,)."""
    day: Ints
    """Local day as a proleptic ordinal, shape (n,)."""
    log: NDArray[np.float64]
    """Median of the natural logarithm of the measure, shape (n,)."""
    trimmed: NDArray[np.float64]
    """Mean of the logarithm without the lowest and the highest `(count + 2) // 5`, shape (n,): it
    scatters less than a median, and from three repetitions on no single one moves it far."""
    count: Ints
    """Repetitions that the level-day is of, as a count, shape (n,)."""

    def __len__(self) -> int:
        return int(self.level.size)

    def only(self, part: NDArray[np.bool_] | Ints) -> LevelDays:
        """The level-days that a mask or indices pick, in the order of the indices."""
        return LevelDays(
            self.level[part],
            self.day[part],
            self.log[part],
            self.trimmed[part],
            self.count[part],
        )


def level_days(course: Course, least: float) -> LevelDays:
    """All level-days of a course, whose measure is never negative.

    Left out are the first repetitions of each day and those without a value. Values under `least`,
    in the unit of the measure, are raised to it, to have a logarithm.
    """
    used = course.only((course.place > LEFT_OUT) & np.isfinite(course.value))
    logs = np.log(np.maximum(used.value, least))
    order = np.lexsort((logs, used.day, used.level))
    level, day, logs = used.level[order], used.day[order], logs[order]
    is_first = np.ones(logs.size, dtype=np.bool_)
    is_first[1:] = (np.diff(level) != 0) | (np.diff(day) != 0)
    firsts = np.flatnonzero(is_first)
    count = np.diff(np.append(firsts, logs.size)).astype(np.int64)
    median = (logs[firsts + (count - 1) // 2] + logs[firsts + count // 2]) / 2
    cut = (count + 2) // 5
    sums = np.concatenate(([0.0], np.cumsum(logs, dtype=np.float64)))
    trimmed = (sums[firsts + count - cut] - sums[firsts + cut]) / (count - 2 * cut)
    return LevelDays(level[firsts], day[firsts], median, trimmed, count)


def comparable(found: LevelDays) -> LevelDays:
    """The level-days that a level can be compared with itself by.

    A level's first days are left out, and then levels that have too few days left.
    """
    _, begins, of = np.unique(found.level, return_index=True, return_inverse=True)
    settled = found.only(np.arange(len(found), dtype=np.int64) - begins[of] >= NEW_DAYS)
    _, of, counts = np.unique(settled.level, return_inverse=True, return_counts=True)
    return settled.only(counts[of] >= FEWEST_DAYS)
