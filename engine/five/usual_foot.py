"""Comparison of a warm-up with those of earlier days: is today's foot the usual foot?

It uses the t prediction interval for one new value about the line through the newest earlier days
(Draper & Smith 1998, from memory), on logarithms: a deviation is never below 0, and a bad day is
further off than a good one. `tests/bench/rates.py` measures how often a usual foot is called
unusual: in at most 6 of 100 warm-ups.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import Enum
from math import exp, log, sqrt

from engine.practice.statistics import within

BLIPS = 8
"""Measured blips in a warm-up, as a count."""
DAYS = 8
"""Earlier days with a warm-up that a verdict needs, as a count."""
NEWEST = 20
"""Newest earlier days the line is fitted to, as a count: learning bends a longer line."""
SHARE = 0.95
"""Share of usual days that are to be called usual, from 0 to 1."""
LEAST = 0.1
"""Smallest deviation in points; anything below it is taken as this."""
CLOSEST = 0.02
"""Narrowest half of an interval, as a logarithm of a ratio: no foot repeats itself better."""


class FootVerdict(Enum):
    """Verdict of a warm-up on today's foot."""

    NOT_ENOUGH = "not enough days yet"
    USUAL = "usual"
    STEADIER = "steadier"
    LESS_STEADY = "less steady"


@dataclass(frozen=True)
class Usual:
    """Prediction of today's value from earlier days, with its interval."""

    value: float
    """Expected mean of the blips' largest deviations, in points."""
    low: float
    """Smallest value that is still usual, in points."""
    high: float
    """Largest value that is still usual, in points."""

    @property
    def sees(self) -> float:
        """Smallest worsening that is noticed in half of all cases, in points."""
        return self.high - self.value


@dataclass(frozen=True)
class FootToday:
    """Verdict on today's foot, and the prediction it rests on."""

    word: FootVerdict
    """Whether it is the usual foot."""
    missing: int = 0
    """Further days with a warm-up, from today on, that a verdict needs, as a count."""
    usual: Usual | None = None
    """The prediction for today; None where days are missing."""


def warm_up_value(deviations: Sequence[float]) -> float | None:
    """Value of a warm-up: the mean deviation of its blips, in points; None where any is missing."""
    if len(deviations) < BLIPS:
        return None
    return sum(deviations) / len(deviations)


def earlier_days(warm_ups: Iterable[tuple[date, float]], today: date) -> list[float]:
    """The first value of each day but today, in points, of warm-ups in the order they were done."""
    first: dict[date, float] = {}
    for day, value in warm_ups:
        first.setdefault(day, value)
    return [value for day, value in first.items() if day != today]


def foot_today(today: float, earlier: Sequence[float]) -> FootToday:
    """Verdict on today's value, given those of earlier days, one a day, oldest first, in points."""
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
    """Prediction for the day after these values, in points. Raises ValueError for too few days."""
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
    return Usual(exp(middle), exp(middle - half), exp(middle + half))
