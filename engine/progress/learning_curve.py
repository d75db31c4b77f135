"""Learning curve of one kind of drill: fits `A + B exp(-a N)`, tells learning, flat or worse.

The curve is that of Heathcote, Brown & Mewhort 2000 for one learner. A foot has good days and bad
ones, so the unit of chance is the day: intervals are of t over a jackknife that leaves out a day,
or a stretch of days, at a time. Whether anything changes is tested on the medians of the days, by
Mann-Kendall, and not on the curve, which finds something to learn in any noise. Its error rates
are measured by `tests/bench/growth.py`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import Enum
from math import exp, log, sqrt
from statistics import fmean, stdev

import numpy as np
from numpy.typing import NDArray

from engine.practice.course import Course, Ints
from engine.practice.statistics import chance_of_fall, within
from engine.progress.bins import is_in_trend
from engine.progress.curve_points import BLOCK, Blocks, blocks
from engine.progress.exponential import Fits, Many, fit

CONFIDENCE = 0.95
"""Coverage of the intervals around a fitted learning curve, from 0 to 1."""
MOST_GROUPS = 20
"""Largest number of stretches of days, each of which the jackknife leaves out in turn."""
PARAMETERS = 3
"""Number of parameters of the learning curve: degrees of freedom that its fit uses up."""
FEWEST_DAYS = 5
"""Days of practice needed before any trend is told: one order of five in 120 falls all the way."""
NEWEST = 56
"""Length of the time up to the newest day of practice that is tested for a trend, in days."""
FLAT_DAYS, FLAT_PRACTISED = 14, 8
"""Days back, and days of practice among them, needed to call a learning curve flat."""
FLAT_UP_TO = 182
"""Longest time for which a learning curve is called flat, in days: half a year."""
LEVEL = 0.025
"""One-sided p-value at or below which a fall or a rise of the deviation is believed."""
NO_FALL, NO_RISE = 0.25, 0.1
"""One-sided p above which there is taken to be no fall, and no rise; between these and `LEVEL` no
trend is told. A missed fall tells a foot that learns to change something, while a missed rise
tells nothing wrong: so the limit for a fall is the stricter one."""
STRETCHES = 16
"""Number of stretches that the days are averaged into if there are at least twice as many days:
good and bad days come in spells, and stretches are nearly independent of each other."""
LITTLE = 0.1
"""What is left to learn, as a share of the present deviation, below which learning is over."""
WIDEST_HALF = 4.0
"""Largest factor from `half` to the upper end of its interval with which it is still told."""
BENT_WITHIN = 2.0
"""Largest upper end of the interval of `half` with which the curve is told, as a multiple of the
repetitions done. A curve that has not bent yet does not say where it ends, nor does one kept above
0 by a few days alone."""


class Trend(Enum):
    """Trend of the deviation in one kind of drill over the newest weeks."""

    TOO_EARLY = "too early to say"
    """Not known: there are too few days, or they show neither a fall nor the lack of one."""
    LEARNING = "learning"
    """The deviation falls over the newest weeks, and more than a little is left to learn."""
    FLAT = "flat"
    """The deviation has stopped changing, or has not changed for weeks."""
    WORSE = "getting worse"
    """The deviation rises over the newest weeks."""


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


Interval = tuple[float, float, float]
"""Low end, value and high end of a 95 % interval."""


@dataclass(frozen=True)
class LearningCurve:
    """How a foot learns one kind of drill, since the first repetition or the last change."""

    trend: Trend
    """Trend of the deviation over the newest weeks."""
    repetitions: int
    """Number of repetitions used for the learning curve."""
    days: int
    """Number of days on which those repetitions were played."""
    curve: Curve | None = None
    """Fitted curve; None if it is too early for one, or if none fits well enough."""
    now: Interval | None = None
    """Present deviation, in the unit of the measure; for a flat foot the mean of the flat days."""
    end: Interval | None = None
    """Deviation the curve reaches in the end, in the unit of the measure; None without a curve."""
    half: Interval | None = None
    """Number of repetitions that halve what is left to learn; None unless the foot is learning and
    the number can be told."""
    flat_days: int = 0
    """Days back from the newest without a change of deviation; 0 unless the trend is flat."""
    changed: bool = False
    """Whether the curve begins at a marked change, not at the first repetition."""


@dataclass(frozen=True)
class _Day:
    """One day of practice, as the tests for a trend use it."""

    day: int
    """Ordinal of the day of practice."""
    median: float
    """Median deviation of the day's repetitions, in the unit of the measure."""
    count: int
    """Number of repetitions since the curve began, up to the day's last one."""


@dataclass(frozen=True)
class _Fitted:
    """Fitted learning curve, and its values with 95 % intervals."""

    curve: Curve
    """Fitted curve through all points."""
    now: Interval
    """Deviation on the curve at the newest repetition, in the unit of the measure."""
    end: Interval
    """Deviation that the curve reaches in the end, in the unit of the measure."""
    half: Interval | None
    """Number of repetitions that halve what is left to learn; None if that cannot be told."""

    @property
    def is_over(self) -> bool:
        """Whether learning is over: hardly anything is left to learn; False if that is unknown."""
        return self.half is not None and self.now[1] - self.end[1] < LITTLE * self.now[1]


def learning_curve(course: Course, since: int = 0, changed: bool = False) -> LearningCurve:
    """Learning curve of a kind of drill over the repetitions numbered after `since`.

    The course is of a measure that is never negative, and of which less is better. `changed` says
    that the curve begins at a marked change.
    """
    course = _in_order_of_days(course)
    later = course.number > since
    used = is_in_trend(course) & later
    practised = np.unique(course.day[used])
    undecided = LearningCurve(Trend.TOO_EARLY, int(used.sum()), practised.size, changed=changed)
    if practised.size < FEWEST_DAYS:
        return undecided
    days = _newest_days(course, used, np.cumsum(later, dtype=np.int64))
    fitted = _fitted(blocks(course, since), days[-1].count)
    newest = _last(days, NEWEST)
    p_fall, p_rise = _trend_tests(newest)
    if p_rise <= LEVEL:
        return replace(undecided, trend=Trend.WORSE)
    if p_fall <= LEVEL and not fitted.is_over:
        return _learning(undecided, fitted)
    if p_fall <= LEVEL:
        # The days on which the curve had nearly reached its present value.
        reached = (1 + LITTLE) * fitted.now[1]
        level_days = [day for day in newest if fitted.curve.at(day.count) <= reached]
        if _shows_no_trend(level_days, LEVEL):
            return _flat(undecided, level_days, fitted)
        return undecided
    if _shows_no_trend(newest, NO_FALL):
        return _flat(undecided, _extended(days, newest), fitted)
    return undecided


def _in_order_of_days(course: Course) -> Course:
    """The course sorted by local day: a flight west can repeat a part of a day."""
    return course.only(np.argsort(course.day, kind="stable"))


def _learning(undecided: LearningCurve, fitted: _Fitted) -> LearningCurve:
    """Result for a foot that still learns, with the curve if it shows how much is left."""
    learning = replace(undecided, trend=Trend.LEARNING, now=fitted.now)
    if fitted.half is None:
        return learning
    return replace(learning, curve=fitted.curve, end=fitted.end, half=fitted.half)


def _shows_no_trend(days: Sequence[_Day], no_fall: float) -> bool:
    """Whether these days are enough to call the foot flat: with neither a fall nor a rise."""
    if days[-1].day - days[0].day < FLAT_DAYS or len(days) < FLAT_PRACTISED:
        return False
    p_fall, p_rise = _trend_tests(days)
    return p_fall >= no_fall and p_rise >= NO_RISE


def _flat(undecided: LearningCurve, days: Sequence[_Day], fitted: _Fitted) -> LearningCurve:
    """Result for a foot that is flat over these days, with the curve if it agrees with them."""
    values = _stretch_means(days)
    mean = fmean(values)
    reach = within(CONFIDENCE, len(values) - 1) * stdev(values) / sqrt(len(values))
    now = (max(mean - reach, 0.0), mean, mean + reach)
    flat = replace(undecided, trend=Trend.FLAT, flat_days=days[-1].day - days[0].day, now=now)
    if fitted.half is None or not now[0] <= fitted.now[1] <= now[2]:
        return flat
    return replace(flat, curve=fitted.curve, end=fitted.end)


def _newest_days(course: Course, used: NDArray[np.bool_], count: Ints) -> list[_Day]:
    """Days of practice in the half year up to the newest one, oldest first."""
    first = course.day[used].max() - FLAT_UP_TO
    places = np.flatnonzero(used & (course.day >= first))
    starts = np.unique(course.day[places], return_index=True)[1]
    return [
        _Day(
            int(course.day[of_day[0]]),
            float(np.median(course.value[of_day])),
            int(count[of_day[-1]]),
        )
        for of_day in np.split(places, starts[1:])
    ]


def _last(days: Sequence[_Day], back: int) -> list[_Day]:
    """Those of the days that are at most `back` days before the newest, oldest first."""
    return [day for day in days if day.day >= days[-1].day - back]


def _trend_tests(days: Sequence[_Day]) -> tuple[float, float]:
    """One-sided Mann-Kendall p of a fall and of a rise of the deviation over these days."""
    values = _stretch_means(days)
    return chance_of_fall(values), chance_of_fall([-value for value in values])


def _stretch_means(days: Sequence[_Day]) -> list[float]:
    """Means of the daily medians over stretches of days; of single days if there are few."""
    size = max(len(days) // STRETCHES, 1)
    ends = range(len(days), 0, -size)
    return [fmean(day.median for day in days[max(end - size, 0) : end]) for end in ends][::-1]


def _extended(days: Sequence[_Day], flat: list[_Day]) -> list[_Day]:
    """The `flat` days, extended back week by week for as long as they show no trend."""
    for back in range(NEWEST + 7, FLAT_UP_TO + 1, 7):
        longer = _last(days, back)
        if min(_trend_tests(longer)) <= LEVEL:
            break
        flat = longer
    return flat


def _fitted(points: Blocks, last: int) -> _Fitted:
    """Curve fitted through the points, with its intervals at repetition `last`."""
    _, day_index = np.unique(points.day, return_inverse=True)
    days = int(day_index.max()) + 1
    groups = min(days, MOST_GROUPS)
    group = day_index * groups // days
    # The first row leaves nothing out.
    left_in = np.arange(-1, groups, dtype=np.int64)[:, None] != group
    weight = points.weight / _size(fit(points.n, points.value, points.weight[None]), points.n) ** 2
    fits = fit(points.n, points.value, left_in * weight)
    now, end = _jackknife(fits.at(last)), _jackknife(fits.floor)
    half = _jackknife(np.log(log(2) / fits.rate))
    bends = half[1] >= log(BLOCK) and half[2] <= log(BENT_WITHIN * last) and fits.floor.min() > 0
    is_sure = bends and fits.gain[0] > 0 and half[2] - half[1] <= log(WIDEST_HALF)
    return _Fitted(
        Curve(float(fits.floor[0]), float(fits.gain[0]), float(fits.rate[0])),
        (max(now[0], 0.0), now[1], now[2]),
        (max(end[0], 0.0), end[1], end[2]),
        (exp(half[0]), exp(half[1]), exp(half[2])) if is_sure else None,
    )


def _size(fits: Fits, n: Many) -> Many:
    """Size of each point, to which its spread is taken as proportional: the curve, never near 0."""
    size = fits.at(n)
    most = float(size.max())
    return np.maximum(size, LITTLE * most) if most > 0 else np.ones_like(size)


def _jackknife(estimates: Many) -> Interval:
    """Jackknife t interval; `estimates` are that of all days, then those that leave some out."""
    groups = estimates.size - 1
    value = float(estimates[0])
    error = sqrt((groups - 1) / groups * float(np.sum((estimates[1:] - value) ** 2)))
    reach = within(CONFIDENCE, groups - PARAMETERS) * error
    return value - reach, value, value + reach
