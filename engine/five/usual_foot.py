"""Whether today's foot is the usual foot: the warm-up against those of the player's earlier days.

The prediction interval of t for one new value, about the line through the newest earlier days
(Draper & Smith 1998, from memory). It is taken of logarithms, as a deviation is never under 0 and
a bad day is further off than a good one; about a line, or a foot that learns would be called
steadier too often; and of at most twenty days, as learning slows down and leaves a longer line.
So a foot like that of its earlier days is called unusual in at most 6 of 100 warm-ups, one that
learns or has good and bad days too: `tests/bench/rates.py`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from enum import Enum
from math import exp, log, sqrt

from engine.practice.statistics import within

BLIPS = 8
"""count of blips in a warm-up."""
DAYS = 8
"""days, earlier ones that it takes to say anything."""
NEWEST = 20
"""days, the newest of the earlier ones that are looked at."""
SHARE = 0.95
"""1, share of usual days that are called usual."""
LEAST = 0.1
"""points, under which a deviation is no longer told from none."""
CLOSEST = 0.02
"""log of a ratio, half of an interval is never narrower: no foot repeats itself so well."""


class FootVerdict(Enum):
    """What a warm-up ends with."""

    NOT_ENOUGH = "not enough days yet"
    USUAL = "usual"
    STEADIER = "steadier"
    LESS_STEADY = "less steady"


@dataclass(frozen=True)
class Usual:
    """What is to be expected of the player's foot today."""

    value: float
    """points, mean largest deviation of the brake."""
    low: float
    """points, least that is still usual."""
    high: float
    """points, most that is still usual."""

    @property
    def sees(self) -> float:
        """Points, smallest difference towards worse that is told from chance, in half of cases."""
        return self.high - self.value


@dataclass(frozen=True)
class FootToday:
    """Today's foot beside the usual one."""

    word: FootVerdict
    """Whether it is the usual foot."""
    missing: int = 0
    """days, with a warm-up from today on, before it can be said."""
    usual: Usual | None = None
    """What was to be expected; None where days are missing."""


def value_of(deviations: Sequence[float]) -> float | None:
    """What a warm-up is worth, in points: the mean over its blips; None where any is missing."""
    if len(deviations) < BLIPS:
        return None
    return sum(deviations) / len(deviations)


def earlier_days(warm_ups: Iterable[tuple[date, float]], today: date) -> list[float]:
    """The first value of every other day, of warm-ups in the order they were done."""
    first: dict[date, float] = {}
    for day, value in warm_ups:
        first.setdefault(day, value)
    return [value for day, value in first.items() if day != today]


def foot_today(today: float, earlier: Sequence[float]) -> FootToday:
    """Today's value beside those of earlier days, one a day, oldest first, in points."""
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
    """What the earlier days say of the next one. Raises ValueError where there are too few."""
    if len(earlier) < DAYS:
        raise ValueError(f"earlier: expected at least {DAYS}, found {len(earlier)}")
    logs = [log(max(value, LEAST)) for value in earlier[-NEWEST:]]
    count = len(logs)
    mean = sum(logs) / count
    places = [place - (count - 1) / 2 for place in range(count)]
    width = sum(place**2 for place in places)
    slope = sum(place * one for place, one in zip(places, logs, strict=True)) / width
    off = [one - mean - slope * place for place, one in zip(places, logs, strict=True)]
    spread = sqrt(sum(one**2 for one in off) / (count - 2))
    ahead = (count + 1) / 2
    half = within(SHARE, count - 2) * spread * sqrt(1 + 1 / count + ahead**2 / width)
    half = max(half, CLOSEST)
    middle = max(mean + slope * ahead, log(LEAST))
    return Usual(exp(middle), exp(middle - half), exp(middle + half))
