"""Weighted slope of a course over days, and the trend that is told by it.

The plain slope (`day_effects.slope`) counts a level-day of one repetition as much as one of nine,
a day of six levels as six, and a day after another as if the foot had begun anew. This one weighs
level-days by what they tell, takes the trimmed mean of each, and allows for neighbouring days that
are alike. Error rates of both: `tests/bench/learning.py`.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, log, sqrt

import numpy as np

from engine.practice.course import Ints
from engine.practice.day_effects import FEWEST, SPAN, Reals, Slope, slope
from engine.practice.level_days import LevelDays
from engine.practice.students_t import over, within

OF_DAY = 0.2**2
"""Variance of days that is assumed for the weights, in squared logarithms.

Other variances cost power alone: the test rests on how days differ, not on weights."""
OF_LEVEL_DAY = 0.1**2
"""Variance of a level's day beyond that of the day, assumed, in squared logarithms."""
OF_REPETITION = 0.53**2
"""Variance of a trimmed mean that is assumed, times its repetitions, in squared logarithms."""
BELIEVED = 0.035
"""One-sided p-value of the weighted slope at or below which a fall or a rise is told."""
POWER = 1.812 + 0.842
"""Standard errors of a slope that is found in about four histories of five: the normal quantiles of
1 - 0.035 and of 0.8."""
LEAST_ERROR = 1e-9
"""Smallest standard error of a slope, in logarithms a day: what is below it is rounding."""
MOST_LEVERAGE = 0.9
"""Largest leverage that a level-day's part of a score is made up for, from 0 to 1."""
CONFIDENCE = 0.95
"""Coverage of the interval of the slope, from 0 to 1."""


@dataclass(frozen=True)
class OverDays:
    """Trend of comparable level-days over the days."""

    plain: Slope
    """Slope that counts each level-day alike; nothing is told by it."""
    weighted: Slope
    """Slope that weighs each level-day by what it tells: the trend is told by it."""

    @property
    def is_tested(self) -> bool:
        """Whether there are enough days for a trend."""
        return self.weighted.days >= FEWEST

    @property
    def falls(self) -> bool:
        """Whether a fall is told."""
        return self.is_tested and self.weighted.p_fall <= BELIEVED

    @property
    def rises(self) -> bool:
        """Whether a rise is told."""
        return self.is_tested and self.weighted.p_rise <= BELIEVED

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

    Trimmed means are `level + slope day + chance`. The covariance of chance is assumed: a variance
    of `OF_LEVEL_DAY + OF_REPETITION / count` each, and `OF_DAY` shared by those of a day. `x` are
    the days and `r` the trimmed means, both without their levels by generalised least squares, and
    V the covariance: the slope is `b = x' V^-1 r / x' V^-1 x`.

    A day's score `s` is the sum over its level-days of `(V^-1 x) (r - b x) / sqrt(1 - h)`, `h` the
    leverage of each on levels and slope, `MOST_LEVERAGE` at most. The standard error is
    `sqrt(f sum(s^2)) / x' V^-1 x`, at least `LEAST_ERROR`. Neighbouring days that are alike make
    it larger: `f = 1 + 2 sum(s s') / sum(s^2)` over days and the next day of the calendar, at least
    1. The p-values are those of Student's t with 2 degrees of freedom less than there are days, at
    least 1.
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
    both = np.column_stack((cells.day - days[0], cells.trimmed))
    left = both - (inverse @ (heavy.T @ both))[of]
    x = left[:, 0]
    pull = weighed(left[:, :1])[:, 0]
    spread = float(pull @ x)
    a_day = float(pull @ left[:, 1]) / spread
    leverage = np.sum(inverse[of] * heavy, axis=1) + x * pull / spread
    parts = pull * (left[:, 1] - a_day * x) / np.sqrt(1 - np.minimum(leverage, MOST_LEVERAGE))
    error = max(_error(days, np.bincount(day, parts).astype(np.float64)) / spread, LEAST_ERROR)
    freedom = max(days.size - 2, 1)
    t = a_day / error
    return Slope(a_day, error, days.size, over(-t, freedom), over(t, freedom))


def _error(days: Ints, scores: Reals) -> float:
    """Standard error of the sum of days' scores, of which neighbouring ones may be alike."""
    near = np.diff(days) == 1
    alike = 2 * float(np.sum((scores[1:] * scores[:-1])[near]))
    return sqrt(float(np.sum(scores**2)) + max(alike, 0.0))
