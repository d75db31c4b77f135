"""Intervals of steadiness: by order statistics, and one that allows for days and learning.

`order_interval` is exact for independent draws of one foot, whatever their distribution. But blips
of one day are alike, and older ones are of a foot that has learned since; and it is narrow by
chance where it misses. `steadiness_interval` contains it, and reaches as far as six days can tell.
`tests/bench/band.py` measures both side by side.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from math import exp, fsum, log, sqrt
from statistics import NormalDist, quantiles

LOW, HIGH = 22, 33
"""Order statistics at the ends of the order interval, counted from 1, the smallest of 36.

The 75 % quantile of the foot lies between them where 22 to 32 of 36 blips lie below it. By the
binomial that happens in 0.968."""
FURTHEST = 10.0
"""Factor from the steadiness, down and up, beyond which a deviation counts as no further away."""
USUAL_SPREAD = 0.3
"""Standard deviation between the days of a usual foot, in logarithms: days differ by 15 to 30 %."""
USUAL_DAYS = 20
"""Weight of the usual spread between days, as a count of days: a window has four to some twelve."""
LEARNED = 0.02
"""Logarithm by which a foot may have got steadier on each day since a blip."""
OLDEST = 14
"""Days after which a blip counts as no older: a foot does not learn through a long break."""
DOWN, UP = 1.0, 2.2
"""Standard errors that the interval reaches down and up from the steadiness, as factors.

They are unequal, as what a foot learned and the order interval widen the low end already. Both were
chosen by simulation, so that nine of ten intervals cover, also among the narrowest tenth."""


def upper_quartile(deviations: Sequence[float]) -> float:
    """75 % quantile of deviations by definition 7 of Hyndman & Fan (1996), in their unit."""
    return quantiles(deviations, n=4, method="inclusive")[2]


def order_interval(deviations: Sequence[float]) -> tuple[float, float]:
    """The 22nd and the 33rd of 36 deviations by size (David & Nagaraja 2003, from memory)."""
    ranked = sorted(deviations)
    return ranked[LOW - 1], ranked[HIGH - 1]


def steadiness_interval(days: Mapping[date, Sequence[float]]) -> tuple[float, float]:
    """Low and high end of the interval of steadiness, in points.

    `days` are the scaled deviations of 36 blips, in points, by the day on which they were played;
    there are two days or more. With x the 36 deviations and q their 75 % quantile:

    - y = log(x / q), where x / q is taken as at least 1/10 and at most 10. Of D days, day d has
      n[d] blips and the mean m[d] of its y; m is the mean of all 36 y.
    - within = (sum of (y - m[d])^2 over all blips) / (36 - D).
    - between = ((sum of n[d] (m[d] - m)^2) / (D - 1) - within) / n0, at least 0, where
      n0 = (36 - (sum of n[d]^2) / 36) / (D - 1): the analysis of variance of one random factor
      (Searle, Casella & McCulloch 1992, from memory).
    - shrunk = (20 * 0.3^2 + (D - 1) between) / (20 + D - 1): six days tell little of how days
      differ, so most of it is what is usual.
    - error^2 = c within / 36 + shrunk (sum of n[d]^2) / 36^2, where c = 0.1875 / f^2 and f is the
      normal density at its 75 % quantile (0.3178): the variance of the quantile of independent
      normal draws (David & Nagaraja 2003, from memory), and that of a mean of days.
    - age = mean over the blips of the days between theirs and the newest, each at most 14.

    The interval reaches from q exp(-error - 0.02 age) or x[22], the lower of both, to
    q exp(2.2 error) or x[33], the higher of both, with x sorted as x[1] to x[36]. Where q is 0, it
    is from x[22] to x[33].
    """
    deviations = [one for of_day in days.values() for one in of_day]
    low, high = order_interval(deviations)
    value = upper_quartile(deviations)
    if value == 0:
        return low, high
    error = _standard_error([[_log_ratio(one, value) for one in day] for day in days.values()])
    newest = max(days)
    ages = (len(of_day) * min((newest - day).days, OLDEST) for day, of_day in days.items())
    learned = LEARNED * sum(ages) / len(deviations)
    return min(low, value * exp(-DOWN * error - learned)), max(high, value * exp(UP * error))


def _log_ratio(deviation: float, value: float) -> float:
    """Logarithm of a deviation over the steadiness, at most a factor of 10 from it."""
    return log(min(max(deviation / value, 1 / FURTHEST), FURTHEST))


def _standard_error(days: Sequence[Sequence[float]]) -> float:
    """Standard error of the 75 % quantile of logarithms that are given by days.

    Sums are exact, so that the order of blips within a day does not change the last digit.
    """
    count, free = sum(map(len, days)), len(days) - 1
    mean = fsum(one for day in days for one in day) / count
    means = [fsum(day) / len(day) for day in days]
    squares = fsum(
        (one - of_day) ** 2 for day, of_day in zip(days, means, strict=True) for one in day
    )
    within = squares / (count - len(days))
    crowding = sum(len(day) ** 2 for day in days) / count
    apart = fsum(len(day) * (one - mean) ** 2 for day, one in zip(days, means, strict=True))
    between = max(apart / free - within, 0.0) / ((count - crowding) / free)
    shrunk = (USUAL_DAYS * USUAL_SPREAD**2 + free * between) / (USUAL_DAYS + free)
    normal = NormalDist()
    of_quantile = 0.75 * 0.25 / normal.pdf(normal.inv_cdf(0.75)) ** 2
    return sqrt((of_quantile * within + shrunk * crowding) / count)
