"""Weighted slope of a course over days, and the trend that both slopes agree on.

The plain slope (`day_effects.slope`) counts a level-day of one repetition as much as one of nine,
and a day of six levels as six. This one weighs them by what they tell: generalised least squares
with a part of chance for the day. A trend is told where both tests find it. Error rates of each
alone and of both: `tests/bench/learning.py`.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, log, sqrt

import numpy as np

from engine.practice.day_effects import FEWEST, SPAN, Reals, Slope, chances, slope
from engine.practice.level_days import LevelDays
from engine.practice.statistics import within

OF_DAY = 0.2**2
"""Variance of days that is assumed for the weights, in squared logarithms.

Other variances cost power alone: the test rests on the signs of days, not on weights."""
OF_LEVEL_DAY = 0.1**2
"""Variance of a level's day beyond that of the day, assumed, in squared logarithms."""
OF_REPETITION = 0.57**2
"""Variance of a median that is assumed, times its repetitions, in squared logarithms."""
BELIEVED = 0.015
"""One-sided p-value of the weighted slope at or below which it agrees with the plain one."""
POWER = 2.170 + 0.842
"""Standard errors of a slope that is found in about four histories of five: the normal quantiles of
1 - 0.015 and of 0.8."""
MOST_LEVERAGE = 0.9
"""Largest leverage that a level-day's part of a score is made up for, from 0 to 1."""
CONFIDENCE = 0.95
"""Coverage of the interval of the slope, from 0 to 1."""


@dataclass(frozen=True)
class OverDays:
    """Trend of comparable level-days over the days."""

    plain: Slope
    """Slope that counts each level-day alike."""
    weighted: Slope
    """Slope that weighs each level-day by what it tells; the better estimate."""

    @property
    def is_tested(self) -> bool:
        """Whether there are enough days for a trend."""
        return self.plain.days >= FEWEST

    @property
    def falls(self) -> bool:
        """Whether a fall is told."""
        return self.plain.falls and self.weighted.p_fall <= BELIEVED

    @property
    def rises(self) -> bool:
        """Whether a rise is told."""
        return self.plain.rises and self.weighted.p_rise <= BELIEVED

    @property
    def change(self) -> tuple[float, float, float]:
        """Low end, value and high end of the change in `SPAN` days, as a share of the measure."""
        low, middle, high = (exp(SPAN * a_day) - 1 for a_day in self._interval)
        return low, middle, high

    @property
    def smallest_found(self) -> float:
        """Share that the measure must fall by in `SPAN` days to be told in four of five."""
        return 1 - exp(-SPAN * POWER * self.weighted.error)

    def is_flat(self, share: float) -> bool:
        """Whether a fall by that share in `SPAN` days, and the rise that undoes it, is ruled out.

        That is by the 95 % interval, from the fewest days on that a trend is told of.
        """
        low, _, high = self._interval
        is_within = SPAN * max(-low, high) < -log(1 - share)
        return self.is_tested and is_within and not self.falls and not self.rises

    @property
    def _interval(self) -> tuple[float, float, float]:
        reach = within(CONFIDENCE, max(self.weighted.days - 2, 1)) * self.weighted.error
        return self.weighted.a_day - reach, self.weighted.a_day, self.weighted.a_day + reach


def over_days(cells: LevelDays) -> OverDays | None:
    """Trend of comparable level-days; None where there are none."""
    plain, weighted = slope(cells), weighted_slope(cells)
    return None if plain is None or weighted is None else OverDays(plain, weighted)


def weighted_slope(cells: LevelDays) -> Slope | None:
    """Generalised least-squares slope of comparable level-days; None where there are none.

    Logarithms are `level + slope day + chance`. The covariance of chance is assumed: a variance of
    `OF_LEVEL_DAY + OF_REPETITION / count` each, and `OF_DAY` shared by those of a day. `x` are the
    days and `r` the logarithms, both without their levels by generalised least squares, and V the
    covariance: the slope is `x' V^-1 r / x' V^-1 x`. A day's score is the sum over its level-days
    of `(V^-1 x) r / sqrt(1 - h)`, `h` the leverage of each on the levels, `MOST_LEVERAGE` at most.
    Signs of days are flipped as for the plain slope.
    """
    if not len(cells):
        return None
    cells = cells.only(np.argsort(cells.day, kind="stable"))
    levels, of = np.unique(cells.level, return_inverse=True)
    days, begins, day = np.unique(cells.day, return_index=True, return_inverse=True)
    weight = 1 / (OF_LEVEL_DAY + OF_REPETITION / cells.count)
    shrink = OF_DAY / (1 + OF_DAY * np.bincount(day, weight))

    def weighed(columns: Reals) -> Reals:
        """Columns multiplied by the inverse of the covariance, day by day."""
        own = weight[:, None] * columns
        sums = np.add.reduceat(own, begins, axis=0)
        result: Reals = own - weight[:, None] * (shrink[:, None] * sums)[day]
        return result

    design = np.zeros((len(cells), levels.size))
    design[np.arange(len(cells), dtype=np.int64), of] = 1.0
    heavy = weighed(design)
    by_level = np.argsort(of, kind="stable")
    inverse = np.linalg.inv(np.add.reduceat(heavy[by_level], np.unique(of[by_level], True)[1]))
    both = np.column_stack((cells.day - days[0], cells.log))
    left = both - (inverse @ (heavy.T @ both))[of]
    pull = weighed(left[:, :1])[:, 0]
    leverage = np.sum(inverse[of] * heavy, axis=1)
    parts = pull * left[:, 1]
    scores = np.bincount(day, parts / np.sqrt(1 - np.minimum(leverage, MOST_LEVERAGE))).astype(
        np.float64
    )
    spread = float(pull @ left[:, 0])
    p_fall, p_rise = chances(scores)
    error = sqrt(float(np.sum(scores**2))) / spread
    return Slope(float(parts.sum()) / spread, error, days.size, p_fall, p_rise)
