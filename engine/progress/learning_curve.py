"""How a foot learns one kind of drill: `A + B exp(-a N)` over its repetitions, and what is left.

The curve is that of Heathcote, Brown & Mewhort 2000 for one learner. A foot has good days and bad
ones, so the unit of chance is the day: intervals are of t over a jackknife that leaves out a day,
or a stretch of days, at a time. Whether anything changes is asked of the medians of the days, by
Mann-Kendall, and not of the curve, which finds something to learn in any noise.

A foot that does not learn is called learning in 1 to 3 % (5 or 6 where its days come in spells),
getting worse in as many, and flat in two thirds; else nothing is said. One that fell by a third or
more and has as much before it is called flat in 0 to 3 % within 20 days; one that learns slowly,
a fifth in 20 days, in 30, and in 6 to 10 later. `half` is told in 57 % at most, where the curve
has bent and something is left; it covers in 93 to 100 %. `now` covers in 80 to 95 %: least with
ten days, as a fall is seen first where the newest are low. `tests/bench/growth.py` measures it.
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

SHARE = 0.95
"""1, share of intervals that are meant to cover."""
GROUPS = 20
"""count, the most stretches of days that are left out in turn."""
PARAMETERS = 3
"""count, of the curve: as many degrees of freedom are gone."""
FEWEST_DAYS = 5
"""days with practice, under which nothing is said: of five, one order in 120 falls all the way."""
NEWEST = 56
"""days back from the newest that are asked whether anything changes."""
FLAT_DAYS, FLAT_PRACTISED = 14, 8
"""days back, and days with practice in them, that it takes to call a foot flat."""
FLAT_UP_TO = 182
"""days back, the longest that is called flat: half a year."""
LEVEL = 0.025
"""1, chance of a trend as strong one way where there is none, under which it is believed."""
NO_FALL, NO_RISE = 0.25, 0.1
"""1, chance of such a trend from which on none is seen. In between nothing is said. A fall that is
missed tells a foot that learns to change something; a rise that is missed tells nothing wrong."""
STRETCHES = 16
"""count of stretches, from which on as many days as fill sixteen go into one: good and bad days
come in spells, and stretches are nearly free of each other."""
LITTLE = 0.1
"""1, what is left as a share of what is, under which nothing is left to speak of."""
TOLD = 4.0
"""1, how far the interval may reach for `half` to be told, as a factor to either side."""
AHEAD = 2.0
"""1, the highest end of it, as a multiple of the repetitions there are: a curve that has not bent
yet does not say where it ends, nor does one that some days alone keep above nothing."""


class Trend(Enum):
    """What the course of a measure says."""

    TOO_EARLY = "too early to say"
    """Too few days, or they show neither a fall nor that there is none."""
    LEARNING = "learning"
    """It falls over the newest weeks, and more is left than little."""
    FLAT = "flat"
    """Nothing changes any more, or not for weeks."""
    WORSE = "getting worse"
    """It rises over the newest weeks."""


@dataclass(frozen=True)
class Curve:
    """A fitted curve; N is the count of repetitions since it began."""

    floor: float
    """A: what is reached in the end, in the unit of the measure."""
    gain: float
    """B: what was left above it at N = 0, in the unit of the measure."""
    rate: float
    """a: per repetition."""

    def at(self, n: float) -> float:
        """The curve at repetition `n`, in the unit of the measure."""
        return self.floor + self.gain * exp(-self.rate * n)


Interval = tuple[float, float, float]
"""Low end, value and high end, 95 %."""


@dataclass(frozen=True)
class LearningCurve:
    """How one kind of drill is learned, since the last change that was marked."""

    going: Trend
    """What can be said."""
    repetitions: int
    """count of repetitions that the curve rests on."""
    days: int
    """days that they were on."""
    curve: Curve | None = None
    """The curve; None where it is too early, or none fits."""
    now: Interval | None = None
    """Low end, value and high end of where the foot is now, 95 %, in the unit of the measure; of
    a flat foot over the flat days."""
    end: Interval | None = None
    """Low end, value and high end of what is reached in the end, 95 %; None without a curve."""
    half: Interval | None = None
    """count of repetitions, low end, value and high end, to halve what is left; None unless it is
    still learned, and where it cannot be told yet."""
    flat_days: int = 0
    """days back from the newest over which nothing changed; 0 unless it is flat."""
    changed: bool = False
    """Whether it begins at a change that was marked, and not at the first repetition."""


@dataclass(frozen=True)
class _Day:
    """A day with practice."""

    day: int
    """Its ordinal."""
    median: float
    """Of its repetitions, in the unit of the measure."""
    count: int
    """count of repetitions of the kind up to its last."""


@dataclass(frozen=True)
class _Fitted:
    """The curve and what can be said of it."""

    curve: Curve
    """The curve."""
    now: Interval
    """Where it is, in the unit of the measure."""
    end: Interval
    """Where it ends, in the unit of the measure."""
    half: Interval | None
    """count of repetitions to halve what is left; None where it cannot be told."""

    @property
    def is_over(self) -> bool:
        """Whether nothing is left to speak of, as far as can be told."""
        return self.half is not None and self.now[1] - self.end[1] < LITTLE * self.now[1]


def learning_curve(course: Course, since: int = 0, changed: bool = False) -> LearningCurve:
    """How a kind is learned over the repetitions numbered after `since`.

    The measure is one that is never under 0, and of which less is better.
    """
    course = _by_day(course)
    later = course.number > since
    entering = is_in_trend(course) & later
    practised = np.unique(course.day[entering])
    seen = LearningCurve(Trend.TOO_EARLY, int(entering.sum()), practised.size, changed=changed)
    if practised.size < FEWEST_DAYS:
        return seen
    days = _newest_days(course, entering, np.cumsum(later))
    fitted = _fitted(blocks(course, since), days[-1].count)
    newest = _back(days, NEWEST)
    falling, rising = _chances(newest)
    if rising <= LEVEL:
        return replace(seen, going=Trend.WORSE)
    if falling <= LEVEL and not fitted.is_over:
        return _learning(seen, fitted)
    if falling <= LEVEL:
        # Of these the curve says that they fall by little.
        reached = (1 + LITTLE) * fitted.now[1]
        ended = [one for one in newest if fitted.curve.at(one.count) <= reached]
        return _flat(seen, ended, fitted) if _shows_none(ended, LEVEL) else seen
    if _shows_none(newest, NO_FALL):
        return _flat(seen, _extended(days, newest), fitted)
    return seen


def _by_day(course: Course) -> Course:
    """The same in the order of their days: who flies west lives a part of a day again."""
    order = np.argsort(course.day, kind="stable")
    columns = (course.number, course.day, course.place)
    number, day, place = (column[order] for column in columns)
    return Course(number, day, place, course.value[order])


def _learning(seen: LearningCurve, fitted: _Fitted) -> LearningCurve:
    """Still learning, with the curve where it says how much is left."""
    learning = replace(seen, going=Trend.LEARNING, now=fitted.now)
    if fitted.half is None:
        return learning
    return replace(learning, curve=fitted.curve, end=fitted.end, half=fitted.half)


def _shows_none(days: Sequence[_Day], no_fall: float) -> bool:
    """Whether these days are enough to call a foot flat, and show no trend."""
    if days[-1].day - days[0].day < FLAT_DAYS or len(days) < FLAT_PRACTISED:
        return False
    falling, rising = _chances(days)
    return falling >= no_fall and rising >= NO_RISE


def _flat(seen: LearningCurve, flat: Sequence[_Day], fitted: _Fitted) -> LearningCurve:
    """Flat over these days."""
    values = _stretches(flat)
    middle = fmean(values)
    reach = within(SHARE, len(values) - 1) * stdev(values) / sqrt(len(values))
    now = (max(middle - reach, 0.0), middle, middle + reach)
    back = flat[-1].day - flat[0].day
    steady = replace(seen, going=Trend.FLAT, flat_days=back, now=now)
    if fitted.half is None or not now[0] <= fitted.now[1] <= now[2]:
        return steady
    return replace(steady, curve=fitted.curve, end=fitted.end)


def _newest_days(course: Course, entering: NDArray[np.bool_], count: Ints) -> list[_Day]:
    """The days of which any could be looked at, oldest first."""
    newest = course.day[entering].max() - FLAT_UP_TO
    places = np.flatnonzero(entering & (course.day >= newest))
    day = course.day[places]
    begins = np.unique(day, return_index=True)[1]
    return [
        _Day(int(course.day[one[0]]), float(np.median(course.value[one])), int(count[one[-1]]))
        for one in np.split(places, begins[1:])
    ]


def _back(days: Sequence[_Day], back: int) -> list[_Day]:
    """Those of the days that are at most so many before the newest."""
    return [one for one in days if one.day >= days[-1].day - back]


def _chances(days: Sequence[_Day]) -> tuple[float, float]:
    """Chance of a fall as strong as that of these days, and of a rise, where there is none."""
    values = _stretches(days)
    return chance_of_fall(values), chance_of_fall([-one for one in values])


def _stretches(days: Sequence[_Day]) -> list[float]:
    """What the days were worth: the mean of their medians, a day or a stretch of days each."""
    size = max(len(days) // STRETCHES, 1)
    ends = range(len(days), 0, -size)
    return [fmean(one.median for one in days[max(end - size, 0) : end]) for end in ends][::-1]


def _extended(days: Sequence[_Day], flat: list[_Day]) -> list[_Day]:
    """The days without a trend, followed back by a week at a time until they show one."""
    for back in range(NEWEST + 7, FLAT_UP_TO + 1, 7):
        longer = _back(days, back)
        if min(_chances(longer)) <= LEVEL:
            break
        flat = longer
    return flat


def _fitted(points: Blocks, last: int) -> _Fitted:
    """The curve, and where it is at the last repetition."""
    _, which = np.unique(points.day, return_inverse=True)
    days = int(which.max()) + 1
    groups = min(days, GROUPS)
    group = which * groups // days
    left = np.arange(-1, groups)[:, None] != group
    weight = points.weight / _size(fit(points.n, points.value, points.weight[None]), points.n) ** 2
    fits = fit(points.n, points.value, left * weight)
    now, end = _interval(fits.at(last)), _interval(fits.floor)
    half = _interval(np.log(log(2) / fits.rate))
    bends = half[1] >= log(BLOCK) and half[2] <= log(AHEAD * last) and fits.floor.min() > 0
    told = bends and fits.gain[0] > 0 and half[2] - half[1] <= log(TOLD)
    return _Fitted(
        Curve(float(fits.floor[0]), float(fits.gain[0]), float(fits.rate[0])),
        (max(now[0], 0.0), now[1], now[2]),
        (max(end[0], 0.0), end[1], end[2]),
        (exp(half[0]), exp(half[1]), exp(half[2])) if told else None,
    )


def _size(fits: Fits, n: Many) -> Many:
    """What the spread of each point goes with: the curve, as a deviation spreads by its size."""
    size = fits.at(n)
    most = float(size.max())
    return np.maximum(size, LITTLE * most) if most > 0 else np.ones_like(size)


def _interval(found: Many) -> Interval:
    """Of t, by the jackknife: the first is of all the days, the others without some of them."""
    groups = found.size - 1
    value = float(found[0])
    spread = sqrt((groups - 1) / groups * float(np.sum((found[1:] - value) ** 2)))
    reach = within(SHARE, groups - PARAMETERS) * spread
    return value - reach, value, value + reach
