"""Steps, noise, dead ends and leaps of one axis, from its raw counts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from drills.trace import SECOND, Times, Values

FINE = 6
"""Counts in a step below which a step is taken for a whole divisor of every change."""
PARTS_MOST = 8
"""Largest number of steps that the smallest change seen may hold."""
ON_COMB = 0.95
"""Least share of changes that must be whole steps: the ends of an axis may lie between two."""
SERIES_LEAST = 20
"""Least number of reports, or differences of them, that noise is measured on."""
OUTLIER = 5.0
"""Distance at which a value is a jump and no noise, in standard deviations."""
ORDER = 4
"""Order of the differences that noise is told from movement by."""
STUCK = 5
"""Intervals between reports for which an axis stands still before a leap."""
STOOD_LEAST = 0.020
"""Shortest time that an axis stands still before a leap, in s."""
LEAPS_LEAST = 5
"""Least number of leaps in one slow press that are no accident."""


def step_of(counts: Times) -> float | None:
    """Axis counts in one step of the converter; None where fewer than two values were seen.

    The largest step, the smallest change between values seen or a whole part of it, that nearly all
    changes are multiples of, within a count of rounding. Error: 1 % down to 6 counts (13 bits of a
    16-bit axis); a finer step is the greatest common divisor.
    """
    gaps = np.diff(np.unique(counts)).astype(np.float64)
    if gaps.size == 0:
        return None
    smallest = float(gaps.min())
    for parts in range(1, PARTS_MOST + 1):
        step = smallest / parts
        if step < FINE:
            break
        for reach in (PARTS_MOST, 64.0, np.inf):
            near = gaps <= reach * step
            step = float(gaps[near].sum() / np.rint(gaps[near] / step).sum())
        if np.mean(np.abs(gaps - step * np.rint(gaps / step)) <= 1.0) >= ON_COMB:
            return step
    return float(np.gcd.reduce(gaps.astype(np.int64)))


def rest_noise(values: Values) -> float | None:
    """Standard deviation of a pedal that nothing touches, in the unit of its reports, shape (n,).

    About the straight line through them, as a load cell creeps; None of too few. A converter
    adds its own: sqrt(noise ** 2 + step ** 2 / 12) is measured where the noise is over half a step
    (Widrow & Kollar 2008; IEEE Std 1241). Error: 1 / sqrt(2 n) of it; less is measured where the
    pedal rests at the end of its axis, which cuts the noise off.
    """
    if values.size < SERIES_LEAST:
        return None
    at = np.arange(values.size, dtype=np.float64)
    left = values - np.polyval(np.polyfit(at, values, 1), at)
    calm = np.abs(left) <= OUTLIER * np.sqrt(np.mean(left**2))
    left = values[calm] - np.polyval(np.polyfit(at[calm], values[calm], 1), at[calm])
    return float(np.sqrt(np.mean(left**2)))


def held_noise(runs: Sequence[Values]) -> float | None:
    """Standard deviation of the noise under a foot, in the unit of its reports, each of shape (n,).

    From differences of order 4: white noise s gives them s * sqrt(70), the sum of the squares of
    1, 4, 6, 4, 1, while a tremor of 10 Hz keeps a hundredth of its own size at 125 reports a second
    and a tenth at 60. None of too few reports. Error: 1.6 / sqrt(2 n) of it, n that of all runs
    together, and that part of the tremor.
    """
    steps = np.concatenate([np.diff(run, ORDER) for run in runs])
    if steps.size < SERIES_LEAST:
        return None
    calm = np.abs(steps) <= OUTLIER * np.sqrt(np.mean(steps**2))
    return float(np.sqrt(np.mean(steps[calm] ** 2) / 70))


@dataclass(frozen=True)
class DeadEnds:
    """Parts of a slow, even press in which the axis did not follow."""

    low: float
    """Part of the press before the axis left its rest, in points of the press."""
    high: float
    """Part of the press after the axis had reached its end, in points of the press."""


def dead_ends(time: Times, percent: Values, blur: float) -> DeadEnds:
    """Dead ends in a slow press from `time` (ns), positions in %, shape (n,), both.

    `blur` (points) is what noise and steps alone do. Error: 10 points, for a foot that begins late
    or is at the stop of its pedal early; exact for an even press.
    """
    last = max(percent.size // 50, 1)
    low, high = float(np.median(percent[:last])), float(np.median(percent[-last:]))
    if high - low <= 4 * blur:
        return DeadEnds(0.0, 0.0)
    share = 100 * (time - time[0]) / float(time[-1] - time[0])
    away = np.flatnonzero(percent > low + blur)
    there = np.flatnonzero(percent >= high - blur)
    travel = 100 * blur / (high - low)
    first, end = float(share[away[0]]), 100 - float(share[there[0]])
    return DeadEnds(max(first - travel, 0.0), max(end - travel, 0.0))


def leap(time: Times, percent: Values, interval: float, least: float) -> float | None:
    """Typical leap in points of an axis that stands still and then leaps during a slow press.

    A pedal that sticks, or whose play takes up small movements, goes in such stairs: still for 5
    reports (`interval` in s), within half of `least` points, and then on by `least` or more in one,
    five times at least. Play that is only felt when turning back shows in no press. From reads at
    `time` (ns), shape (n,). Error: the noise of the axis.
    """
    moves = np.diff(percent)
    stood = round(max(STUCK * interval, STOOD_LEAST) * SECOND)
    sizes = []
    for before in np.flatnonzero(moves >= least).tolist():
        first = int(np.searchsorted(time, time[before] - stood))
        if time[before] - time[0] >= stood and np.ptp(percent[first : before + 1]) <= least / 2:
            sizes.append(float(moves[before]))
    return float(np.median(sizes)) if len(sizes) >= LEAPS_LEAST else None


def longest_still(time: Times, counts: Times) -> float:
    """Longest time in s that an axis stood on one count, from reads at `time` (ns)."""
    at = np.concatenate([[0], np.flatnonzero(np.diff(counts)) + 1, [counts.size - 1]])
    return float(np.diff(time[at]).max()) / SECOND if counts.size > 1 else 0.0
