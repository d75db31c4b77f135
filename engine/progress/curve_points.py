"""The points a learning curve is fitted to: medians of a few repetitions in a row."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from engine.practice.course import Course, Ints
from engine.progress.bins import is_in_trend
from engine.progress.exponential import Many

BLOCK = 5
"""count of repetitions in a block. Deviations are skewed and some are odd: a median hears neither,
and it is what the chart shows. Of five it is a repetition that was, so that values without noise
are on the curve, and five go by before a foot learns much."""
FINE = 1500
"""count of repetitions, the first ones, in blocks of five; after them the curve is slow, and a
block is all of a day, or of so many days that there are at most as many blocks again."""


@dataclass(frozen=True, eq=False)
class Blocks:
    """Points in the order they were."""

    n: Many
    """count of repetitions of the kind up to the middle one of the block, shape (k,)."""
    value: Many
    """Median of the block, in the unit of the measure, shape (k,)."""
    day: Ints
    """Day of the middle one as an ordinal, shape (k,)."""
    weight: Many
    """1, shape (k,): blocks of a day are alike, so ten of them say less than ten days do."""


def blocks(course: Course, since: int) -> Blocks:
    """The blocks of the repetitions after a number, of those that enter a trend.

    The last block of a day has up to nine; of an even number the newest is left out.
    """
    later = course.number > since
    entering = is_in_trend(course)[later]
    n = np.flatnonzero(entering) + 1
    day, value = course.day[later][entering], course.value[later][entering]
    _, which, reps = np.unique(day, return_inverse=True, return_counts=True)
    fine = np.arange(n.size) < FINE
    lasting = -(-np.unique(which[~fine]).size * BLOCK // FINE)
    in_day = np.arange(n.size) - np.searchsorted(which, which)
    piece = np.where(fine, np.minimum(in_day // BLOCK, np.maximum(reps[which] // BLOCK - 1, 0)), -1)
    span = np.where(fine, which, which // max(lasting, 1))
    new = np.diff(piece, prepend=-2) != 0
    new |= np.diff(span, prepend=-1) != 0
    odd = _odd(new)
    n, day, value, new = n[odd], day[odd], value[odd], new[odd]
    begins = np.flatnonzero(new)
    middle = (begins + np.append(begins[1:], n.size) - 1) // 2
    weight = 2 / (reps[which] + BLOCK)
    return Blocks(
        n[middle].astype(np.float64),
        np.array([np.median(one) for one in np.split(value, begins[1:]) if one.size]),
        day[middle],
        np.add.reduceat(weight[odd], begins) if n.size else weight,
    )


def _odd(new: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Which to keep so that every block has an odd number: all but the newest of an even one."""
    begins = np.flatnonzero(new)
    ends = np.append(begins[1:], new.size)
    kept = np.ones(new.size, dtype=np.bool_)
    kept[ends[(ends - begins) % 2 == 0] - 1] = False
    return kept
