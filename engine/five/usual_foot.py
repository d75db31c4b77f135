"""Comparison of a warm-up with those of earlier days: is the foot as steady as usual today?

It uses the t prediction interval for one new value about the line through the newest earlier days
(Draper & Smith 1998, from memory), on logarithms: a deviation is never below 0, and a bad day is
further off than a good one. `tests/bench/rates.py` measures how often a usual foot is called
unusual: in at most 6 of 100 warm-ups.

What it could find is said by the same prediction: today's logarithm of a foot worse by a share is a
t with its middle moved by `log(1 + share)`, in standard errors of the prediction, and the chance
that it is over the interval's end is the chance to notice. The same bench sets it beside how often
such a foot is noticed: said on average are 33 to 50 % for feet alike from day to day, found 30 to
46 %; where days differ by 25 %, 16 to 21 % and 14 to 21 %.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import Enum
from math import exp, log, sqrt

from engine.practice.students_t import over, within

BLIPS = 8
"""Number of measured blips in a warm-up."""
DAYS = 8
"""Earlier days with a warm-up needed before today's foot is judged, as a count."""
NEWEST = 20
"""Newest earlier days used for the prediction, as a count: learning bends a line through more."""
SHARE = 0.95
"""Coverage of the prediction interval, from 0 to 1: share of usual days called usual."""
LEAST = 0.1
"""Smallest deviation used, in points: anything below is raised to it, to have a logarithm."""
WORSE = 0.5
"""Share by which a foot is worse, for which it is said how often it would be noticed."""
CLOSEST = 0.02
"""Least half-width of the prediction interval, as a logarithm of a ratio of deviations."""


class FootVerdict(Enum):
    """Verdict of a warm-up on the steadiness of today's foot."""

    NOT_ENOUGH = "not enough days yet"
    USUAL = "usual"
    STEADIER = "steadier"
    LESS_STEADY = "less steady"


@dataclass(frozen=True)
class Usual:
    """Prediction of today's mean deviation in the warm-up, from those of earlier days."""

    value: float
    """Expected mean of the largest deviation in each warm-up blip, in points."""
    low: float
    """Smallest mean deviation that is still usual, in points."""
    high: float
    """Largest mean deviation that is still usual, in points."""

    days: int
    """Earlier days that the prediction rests on, as a count."""

    @property
    def notices(self) -> float:
        """Chance, from 0 to 1, that a foot worse by half is called less steady in a warm-up."""
        df = self.days - 2
        limit = within(SHARE, df)
        error = log(self.high / self.value) / limit
        return over(limit - log(1 + WORSE) / error, df)


@dataclass(frozen=True)
class FootToday:
    """Verdict on the steadiness of today's foot, and the prediction it rests on."""

    word: FootVerdict
    """Whether today's foot is usual, steadier, less steady, or not to be judged yet."""
    missing: int = 0
    """Further days with a warm-up needed for a verdict, today's included, as a count."""
    usual: Usual | None = None
    """Mean deviation to expect in today's warm-up; None if there are too few earlier days."""


def warm_up_value(deviations: Sequence[float]) -> float | None:
    """Mean deviation of a warm-up's blips, in points; None if fewer blips than needed are given."""
    if len(deviations) < BLIPS:
        return None
    return sum(deviations) / len(deviations)


def earlier_days(warm_ups: Iterable[tuple[date, float]], today: date) -> list[float]:
    """Value of the first warm-up on each day but today, in points, in the order they were done."""
    first: dict[date, float] = {}
    for day, value in warm_ups:
        first.setdefault(day, value)
    return [value for day, value in first.items() if day != today]


def foot_today(today: float, earlier: Sequence[float]) -> FootToday:
    """Verdict on today's mean deviation, given earlier days' in order; all in points."""
    if len(earlier) < DAYS:
        return FootToday(FootVerdict.NOT_ENOUGH, missing=DAYS - len(earlier))
    usual = expected(earlier)
    now = max(today, LEAST)
    if now < usual.low:
        return FootToday(FootVerdict.STEADIER, usual=usual)
    return FootToday(
        FootVerdict.LESS_STEADY if now > usual.high else FootVerdict.USUAL, usual=usual
    )


def expected(earlier: Sequence[float]) -> Usual:
    """Prediction for the day after these daily values, in points. Raises ValueError for too few."""
    if len(earlier) < DAYS:
        raise ValueError(f"earlier: expected at least {DAYS}, found {len(earlier)}")
    logs = [log(max(value, LEAST)) for value in earlier[-NEWEST:]]
    count = len(logs)
    mean = sum(logs) / count
    places = [place - (count - 1) / 2 for place in range(count)]
    width = sum(place**2 for place in places)
    slope = sum(place * value for place, value in zip(places, logs, strict=True)) / width
    residuals = [value - mean - slope * place for place, value in zip(places, logs, strict=True)]
    spread = sqrt(sum(residual**2 for residual in residuals) / (count - 2))
    next_place = (count + 1) / 2
    half = within(SHARE, count - 2) * spread * sqrt(1 + 1 / count + next_place**2 / width)
    half = max(half, CLOSEST)
    middle = max(mean + slope * next_place, log(LEAST))
    return Usual(exp(middle), exp(middle - half), exp(middle + half), count)
