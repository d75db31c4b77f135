"""Points that a learning curve is fitted to: medians of blocks of consecutive repetitions."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from engine.practice.course import Course, Ints
from engine.progress.bins import is_in_trend
from engine.progress.exponential import Many

BLOCK = 5
"""Number of repetitions whose median is one point of the fit. Deviations are skewed and have
outliers, which a median ignores; it is also what the chart shows. The median of five is one of
the repetitions, so values without noise lie on the curve; a foot learns little within five."""
FINE = 1500
"""Number of repetitions, from the first, that are cut into blocks of five. After them the curve is
slow: a block is then a whole day, or several days, so that there are at most as many blocks again.
"""


@dataclass(frozen=True, eq=False)
class Blocks:
    """Points for the fit of a learning curve: medians of blocks of repetitions, in order."""

    n: Many
    """Number of repetitions since the curve began, up to each block's middle one, shape (k,)."""
    value: Many
    """Median of each block's repetitions, in the unit of the measure, shape (k,)."""
    day: Ints
    """Ordinal of the day of each block's middle repetition, shape (k,)."""
    weight: Many
    """Weight of each block in the fit, shape (k,), no unit: blocks of one day are alike, so ten of
    them tell less than ten days do."""


def blocks(course: Course, since: int) -> Blocks:
    """Points for the fit: blocks of those repetitions numbered after `since` used for trends.

    The last block of a day takes the remainder and has up to nine; where their number is even
    the newest is left out.
    """
    later = course.number > since
    used = is_in_trend(course)[later]
    n = np.flatnonzero(used) + 1
    day, value = course.day[later][used], course.value[later][used]
    _, day_index, repetitions = np.unique(day, return_inverse=True, return_counts=True)
    number = np.arange(n.size, dtype=np.int64)
    fine = number < FINE
    days_a_block = -(-np.unique(day_index[~fine]).size * BLOCK // FINE)
    in_day = number - np.searchsorted(day_index, day_index)
    last_in_day = np.maximum(repetitions[day_index] // BLOCK - 1, 0)
    part = np.where(fine, np.minimum(in_day // BLOCK, last_in_day), -1)
    days = np.where(fine, day_index, day_index // max(days_a_block, 1))
    new = np.diff(part, prepend=-2) != 0
    new |= np.diff(days, prepend=-1) != 0
    odd = _without_newest_of_even(new)
    n, day, value, new = n[odd], day[odd], value[odd], new[odd]
    starts = np.flatnonzero(new)
    middle = (starts + np.append(starts[1:], n.size) - 1) // 2
    weight = 2 / (repetitions[day_index] + BLOCK)
    return Blocks(
        n[middle].astype(np.float64),
        np.array([np.median(block) for block in np.split(value, starts[1:]) if block.size]),
        day[middle],
        np.add.reduceat(weight[odd], starts) if n.size else weight,
    )


def _without_newest_of_even(new: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Mask of repetitions, shape (n,), that drops the newest of each block of even size.

    `new` marks the repetitions that begin a block, shape (n,).
    """
    starts = np.flatnonzero(new)
    ends = np.append(starts[1:], new.size)
    mask = np.ones(new.size, dtype=np.bool_)
    mask[ends[(ends - starts) % 2 == 0] - 1] = False
    return mask
