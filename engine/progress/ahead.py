"""What a learning curve comes to after some more repetitions, and how sure that is.

How soon a curve `A + B exp(-a N)` bends decides where it ends, and days say little of it. So it is
fitted with each of a few rates, and what they come to is averaged by how likely each makes the
days. With the one rate of least squares instead, what was told held the truth in half of the
feet; so in nearly all. Error rates: `tests/bench/learning.py`.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, hypot, log, sqrt

import numpy as np

from engine.practice.students_t import within
from engine.progress.curve_points import EffectBin
from engine.progress.exponential import Fits, Many, fit, fit_at

CONFIDENCE = 0.95
"""Coverage of the interval of a value ahead, from 0 to 1."""
HALVES = (1.0, 0.5, 0.25, 0.125, 0.0625)
"""Repetitions that halve what is left to learn, of each rate, as a share of those done."""
FEWEST_BINS = 8
"""Bins from which a curve is fitted, as a count."""
MOST_GROUPS = 20
"""Largest number of stretches of bins, each of which the jackknife leaves out in turn."""
PARAMETERS = 3
"""Number of parameters of the learning curve: degrees of freedom that its fit uses up."""
WITHIN = 1.3
"""Largest factor between now and later that the fall ahead may be off by for it to be told."""
LITTLE = 0.1
"""Share of the largest value on the curve below which no point is taken to be more exact."""

Interval = tuple[float, float, float]
"""Low end, value and high end of a 95 % interval."""


@dataclass(frozen=True)
class Curve:
    """Fitted learning curve `A + B exp(-a N)`; N counts repetitions since the curve began."""

    floor: float
    """A of the curve `A + B exp(-a N)`: deviation in the end, in the unit of the measure."""
    gain: float
    """B of the curve `A + B exp(-a N)`: deviation above A at N = 0, in the unit of the measure."""
    rate: float
    """a of the curve `A + B exp(-a N)`: rate of learning, per repetition."""

    def at(self, n: float) -> float:
        """Deviation that the curve predicts at repetition `n`, in the unit of the measure."""
        return self.floor + self.gain * exp(-self.rate * n)


@dataclass(frozen=True)
class Ahead:
    """What a learning curve comes to after some more repetitions."""

    repetitions: int
    """Repetitions from now, as a round count."""
    value: Interval
    """Deviation after them, in the unit of the measure."""


def best_curve(bins: tuple[EffectBin, ...]) -> Curve:
    """Curve of least squares through the bins, for their picture."""
    n, value, weight = _points(bins)
    fits = fit(n, value, weight[None])
    return Curve(float(fits.floor[0]), float(fits.gain[0]), float(fits.rate[0]))


def ahead(
    bins: tuple[EffectBin, ...], newest: Many, now: Interval, last: int, more: int
) -> Ahead | None:
    """What the curve comes to `more` repetitions after the `last` one; None unless it surely falls.

    `newest` are the repetitions N of the days that the present value `now` is a mean of. With `m`
    the change of the logarithm from those days to then and `s` its jackknife error, for each rate
    of `HALVES`, and weights `exp(-loss / (2 variance))`, the change is the weighted mean of `m` and
    its variance that of `s^2 + (m - mean)^2`.
    """
    if len(bins) < FEWEST_BINS:
        return None
    n, value, weight = _points(bins)
    groups = min(len(bins), MOST_GROUPS)
    group = np.arange(len(bins), dtype=np.int64) * groups // len(bins)
    left_in = np.arange(-1, groups, dtype=np.int64)[:, None] != group
    fits = [fit_at(log(2) / (half * last), n, value, left_in * weight) for half in HALVES]
    losses = np.array([_loss(each, n, value, weight) for each in fits])
    changes = [_change(each, newest, last + more) for each in fits]
    means, errors = np.array([_jackknife(estimates) for estimates in changes]).T
    variance = losses.min() / (len(bins) - PARAMETERS)
    likely = np.exp(-(losses - losses.min()) / (2 * variance)) if variance > 0 else losses == 0
    likely = likely / likely.sum()
    change = float(likely @ means)
    error = sqrt(float(likely @ (errors**2 + (means - change) ** 2)))
    reach = within(CONFIDENCE, groups - PARAMETERS) * error
    if change + reach >= 0 or reach > log(WITHIN):
        return None
    # Both are unsure: the present value, and how much less it becomes.
    off = exp(hypot(log(now[2] / now[1]), reach))
    then = now[1] * exp(change)
    return Ahead(more, (then / off, then, then * off))


def _points(bins: tuple[EffectBin, ...]) -> tuple[Many, Many, Many]:
    """Repetition N, value and weight of each bin.

    A bin weighs its days over the square of its value on a first curve: days spread by a factor.
    """
    n = np.array([found.n for found in bins])
    value = np.array([found.middle for found in bins])
    days = np.array([float(found.days) for found in bins])
    size = fit(n, value, days[None]).at(n)
    return n, value, days / np.maximum(size, LITTLE * float(size.max())) ** 2


def _loss(fits: Fits, n: Many, value: Many, weight: Many) -> float:
    """Weighted sum of squares that the first of the fits leaves."""
    curve = Curve(float(fits.floor[0]), float(fits.gain[0]), float(fits.rate[0]))
    left = value - np.array([curve.at(each) for each in n.tolist()])
    return float(np.sum(weight * left**2))


def _change(fits: Fits, newest: Many, later: float) -> Many:
    """Change of the logarithm of each fit from the mean of some repetitions to a later one."""
    present = np.mean([np.log(fits.at(n)) for n in newest.tolist()], axis=0)
    change: Many = np.log(fits.at(later)) - present
    return change


def _jackknife(estimates: Many) -> tuple[float, float]:
    """First estimate, and its jackknife error; the others leave out a stretch of bins each."""
    groups = estimates.size - 1
    value = float(estimates[0])
    return value, sqrt((groups - 1) / groups * float(np.sum((estimates[1:] - value) ** 2)))
