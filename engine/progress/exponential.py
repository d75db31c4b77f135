"""Fits `A + B exp(-a N)` by least squares, for many weightings of the same points at once.

Of a given rate the best A and B have a closed form, so only the rate is searched (variable
projection: Golub & Pereyra 1973, from memory): first on a grid, then by golden section. Neither A
nor B is let under 0, as no deviation is, and as a foot that gets worse has no such curve.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

import numpy as np
from numpy.typing import NDArray

Many = NDArray[np.float64]

FASTEST = 0.5
"""1 per repetition, the highest rate: half of what is left gone in a repetition and a half."""
SLOWEST = 0.1
"""1, the lowest rate times all repetitions: a curve that is all but a straight line."""
RATES = 40
"""count of rates on the grid; of 220,000 repetitions each is half as high again as the last."""
NARROWER = (sqrt(5) - 1) / 2
"""1, what is left of a stretch after a step of golden section."""
STEPS = 44
"""count of such steps: what is left is 1e-9 of the stretch, as fine as sums of squares are."""


@dataclass(frozen=True, eq=False)
class Fits:
    """A curve for each weighting."""

    floor: Many
    """A, shape (m,), in the unit of the values."""
    gain: Many
    """B, shape (m,), in the unit of the values."""
    rate: Many
    """a, shape (m,), 1 per repetition."""

    def at(self, n: float | Many) -> Many:
        """Each curve at a repetition, shape (m,), or the first at many of them."""
        found: Many = self.floor + self.gain * np.exp(-self.rate * n)
        return found


def fit(n: Many, value: Many, weight: Many) -> Fits:
    """The best curve through points at `n`, shape (k,), for each weighting, shape (m, k)."""
    slowest = SLOWEST / float(n.max())
    grid = np.geomspace(slowest, max(FASTEST, 2 * slowest), RATES)
    losses = [_levels(np.exp(-rate * n)[None], value, weight)[2] for rate in grid]
    best = np.argmin(losses, axis=0)
    low = np.log(grid[np.maximum(best - 1, 0)])
    high = np.log(grid[np.minimum(best + 1, RATES - 1)])
    for _ in range(STEPS):
        reach = NARROWER * (high - low)
        nearer, farther = high - reach, low + reach
        lower = _loss(nearer, n, value, weight) < _loss(farther, n, value, weight)
        low, high = np.where(lower, low, nearer), np.where(lower, farther, high)
    rate = np.exp((low + high) / 2)
    floor, gain, _ = _levels(np.exp(-rate[:, None] * n), value, weight)
    return Fits(floor, gain, rate)


def _loss(log_rate: Many, n: Many, value: Many, weight: Many) -> Many:
    return _levels(np.exp(-np.exp(log_rate)[:, None] * n), value, weight)[2]


def _levels(decay: Many, value: Many, weight: Many) -> tuple[Many, Many, Many]:
    """The best A and B of each weighting where the decay is given, and the squares left."""
    total = weight.sum(axis=1)
    mean = weight @ value / total
    middle = (weight * decay).sum(axis=1) / total
    off = decay - middle[:, None]
    width = (weight * off**2).sum(axis=1)
    together = (weight * off) @ value
    gain = np.maximum(np.divide(together, width, out=np.zeros_like(mean), where=width > 0), 0.0)
    floor = mean - gain * middle
    below = floor < 0
    if below.any():
        alone = (weight * decay) @ value / (weight * decay**2).sum(axis=1)
        gain, floor = np.where(below, alone, gain), np.where(below, 0.0, floor)
    left = value - floor[:, None] - gain[:, None] * decay
    return floor, gain, (weight * left**2).sum(axis=1)
