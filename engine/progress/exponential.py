"""Least-squares fit of `A + B exp(-a N)`, for many weightings of the same points at once.

For a given rate the best A and B have a closed form, so only the rate is searched (variable
projection: Golub & Pereyra 1973, from memory): first on a grid, then by golden section. Neither A
nor B goes below 0: no deviation does, and a foot that gets worse has no such curve.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

import numpy as np
from numpy.typing import NDArray

Many = NDArray[np.float64]

FASTEST = 0.5
"""Highest rate `a` that the fit tries, per repetition: 1.4 repetitions then halve what is left."""
SLOWEST = 0.1
"""Lowest rate `a` that the fit tries, times the number of repetitions: then nearly a line."""
RATES = 40
"""Number of rates on the grid of the fit; over 220,000 repetitions each is 1.5 times the last."""
GOLDEN = (sqrt(5) - 1) / 2
"""Share of its interval that one step of golden-section search leaves."""
STEPS = 44
"""Number of golden-section steps: they narrow the interval of the rate to 1e-9 of its length, which
is as fine as sums of squares can tell."""


@dataclass(frozen=True, eq=False)
class Fits:
    """Fitted curves `A + B exp(-a N)`, one for each weighting of the points."""

    floor: Many
    """A of each fitted curve `A + B exp(-a N)`, shape (m,), in the unit of the values."""
    gain: Many
    """B of each fitted curve `A + B exp(-a N)`, shape (m,), in the unit of the values."""
    rate: Many
    """a of each fitted curve `A + B exp(-a N)`, shape (m,), per repetition."""

    def at(self, n: float | Many) -> Many:
        """Values at repetition `n` of all curves, shape (m,), or of a single curve at many `n`."""
        values: Many = self.floor + self.gain * np.exp(-self.rate * n)
        return values


def fit(n: Many, value: Many, weight: Many) -> Fits:
    """Curves of least squares through k points, one for each of m weightings, shape (m, k)."""
    slowest = SLOWEST / float(n.max())
    grid = np.geomspace(slowest, max(FASTEST, 2 * slowest), RATES)
    losses = [_best_levels(np.exp(-rate * n)[None], value, weight)[2] for rate in grid]
    best = np.argmin(losses, axis=0)
    low = np.log(grid[np.maximum(best - 1, 0)])
    high = np.log(grid[np.minimum(best + 1, RATES - 1)])
    for _ in range(STEPS):
        reach = GOLDEN * (high - low)
        lower, upper = high - reach, low + reach
        keep_low = _loss(lower, n, value, weight) < _loss(upper, n, value, weight)
        low, high = np.where(keep_low, low, lower), np.where(keep_low, upper, high)
    rate = np.exp((low + high) / 2)
    floor, gain, _ = _best_levels(np.exp(-rate[:, None] * n), value, weight)
    return Fits(floor, gain, rate)


def fit_at(rate: float, n: Many, value: Many, weight: Many) -> Fits:
    """Curves of one given rate and of least squares, for each of m weightings, shape (m, k)."""
    floor, gain, _ = _best_levels(np.exp(-rate * n)[None], value, weight)
    return Fits(floor, gain, np.full_like(floor, rate))


def _loss(log_rate: Many, n: Many, value: Many, weight: Many) -> Many:
    return _best_levels(np.exp(-np.exp(log_rate)[:, None] * n), value, weight)[2]


def _best_levels(decay: Many, value: Many, weight: Many) -> tuple[Many, Many, Many]:
    """Best A and B of each weighting for given `exp(-a N)`, and the sum of squares left."""
    total = weight.sum(axis=1)
    mean = weight @ value / total
    centre = (weight * decay).sum(axis=1) / total
    offset = decay - centre[:, None]
    variance = (weight * offset**2).sum(axis=1)
    covariance = (weight * offset) @ value
    slope = np.divide(covariance, variance, out=np.zeros_like(mean), where=variance > 0)
    gain = np.maximum(slope, 0.0)
    floor = mean - gain * centre
    below = floor < 0
    if below.any():
        alone = (weight * decay) @ value / (weight * decay**2).sum(axis=1)
        gain, floor = np.where(below, alone, gain), np.where(below, 0.0, floor)
    residual = value - floor[:, None] - gain[:, None] * decay
    return floor, gain, (weight * residual**2).sum(axis=1)
