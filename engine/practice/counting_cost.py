"""Cost of counting: how much worse the foot does while the player counts knocks.

A movement goes by itself where a second task takes nothing from it (dual-task tests of
automaticity: Abernethy 1988, *Journal of Human Movement Studies* 14; Schmidt & Lee 2011, *Motor
Control and Learning*; Wulf, McNevin & Shea 2001, *Quarterly Journal of Experimental Psychology*
54A; all from memory). Repetitions with and without counting come in pairs, their order by chance,
so that practice and fatigue cost both alike. The cost is the mean of their differences, its
interval that of Student's t for paired values (Student 1908), wider where days differ.
`tests/bench/counting.py` measures how often the interval covers, and how often a cost is told of a
foot that has none.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import sqrt

import numpy as np

from engine.practice.clustered import ordinary_fit
from engine.practice.students_t import within

NEWEST = 36
"""Newest pairs that the present cost is told from, as a count: six weekly sessions."""
LEAST = 12
"""Fewest pairs that a cost is told from, as a count: two weekly sessions."""
COVERED = 0.95
"""Coverage of the interval of a cost, from 0 to 1."""
POWER = 0.8
"""Chance with which the smallest cost that is said to show would be told, from 0 to 1."""
NEVER = 1.2
"""Settling time of a brake that did not settle, and the longest that is compared, in s: the second
after a blip ends about then, so that not to settle is the worst there is (worst-rank scores: Lachin
1999, from memory)."""


@dataclass(frozen=True)
class CountingRepetition:
    """One repetition that counts, with or without knocks to be counted."""

    day: date
    """Local day on which it was played."""
    level: str
    """Id of its level."""
    dip: float | None
    """Dip as it would be at a blip of one size, in points; None where there was no blip."""
    settle: float | None
    """Settling time in s; None where the brake did not settle."""
    knocks: int | None = None
    """High knocks that were given, as a count; None where there was nothing to count."""
    counted: int | None = None
    """High knocks that the player answered, as a count; None where there was nothing to count."""

    @property
    def counts_knocks(self) -> bool:
        """Whether there were knocks to be counted."""
        return self.knocks is not None


@dataclass(frozen=True)
class Pair:
    """Differences of a pair of repetitions: the one with counting minus the one without."""

    day: date
    """Local day on which both were played."""
    dip: float
    """Difference of the scaled dips, in points."""
    settle: float
    """Difference of the settling times, in s."""


@dataclass(frozen=True)
class CostEstimate:
    """A mean difference with its interval."""

    value: float
    """Mean of the differences, in their unit."""
    low: float
    """Low end of the interval, in the same unit."""
    high: float
    """High end of the interval, in the same unit."""
    found: float
    """Smallest difference that as many pairs would tell in four of five tries, in the same unit."""

    @property
    def is_told(self) -> bool:
        """Whether chance alone does not explain the difference: its interval leaves out 0."""
        return self.low > 0 or self.high < 0

    def is_apart(self, other: CostEstimate) -> bool:
        """Whether this interval and another do not touch."""
        return self.low > other.high or other.low > self.high


@dataclass(frozen=True)
class CountingCost:
    """What counting costs over some pairs."""

    pairs: int
    """Pairs that it is told from, as a count."""
    first: date
    """Local day of the oldest pair."""
    last: date
    """Local day of the newest pair."""
    dip: CostEstimate
    """How much deeper the dip is with counting, in points."""
    settle: CostEstimate
    """How much longer the brake takes to settle with counting, in s."""


@dataclass(frozen=True)
class CostOverTime:
    """The cost of counting now and month by month, and how well was counted."""

    pairs: int = 0
    """Pairs that can be compared, as a count."""
    now: CountingCost | None = None
    """Cost over the newest pairs; None if there are too few."""
    months: tuple[CountingCost, ...] = ()
    """Cost in each calendar month with enough pairs, oldest first."""
    before: CountingCost | None = None
    """First month whose dip cost surely differs from the present one; None if it is not sure."""
    answers: int = 0
    """Answers since the oldest pair that the present cost is told from, as a count."""
    right: int = 0
    """Those of the answers that were exactly right, as a count."""


NO_COST = CostOverTime()
"""What is known before any pair was played."""


def pairs_of(repetitions: Sequence[CountingRepetition]) -> list[Pair]:
    """Pairs of repetitions, oldest first: each with the next one of the other condition.

    `repetitions` are those that count, oldest first, of one rig and one scale of its brake. Both of
    a pair are of one level and one day; one that is left over is in no pair. A pair is left out
    where either has no dip.
    """
    waiting: dict[tuple[date, str], CountingRepetition] = {}
    pairs = []
    for one in repetitions:
        key = one.day, one.level
        other = waiting.pop(key, None)
        if other is None or other.counts_knocks == one.counts_knocks:
            waiting[key] = one
            continue
        more, less = (one, other) if one.counts_knocks else (other, one)
        if more.dip is not None and less.dip is not None:
            settle = _settled(more.settle) - _settled(less.settle)
            pairs.append(Pair(one.day, more.dip - less.dip, settle))
    return pairs


def cost_of(pairs: Sequence[Pair]) -> CountingCost | None:
    """Cost of counting over all of these pairs, oldest first; None if there are under `LEAST`."""
    if len(pairs) < LEAST:
        return None
    days = [pair.day for pair in pairs]
    dip = paired_mean([pair.dip for pair in pairs], days)
    settle = paired_mean([pair.settle for pair in pairs], days)
    return CountingCost(len(pairs), days[0], days[-1], dip, settle)


def paired_mean(differences: Sequence[float], days: Sequence[date]) -> CostEstimate:
    """Mean of paired differences and its interval, wider where those of one day are alike.

    There are two differences or more, each with its day. Where each has a day of its own, the
    interval is that of Student's t for paired values.
    """
    values = np.array(differences, dtype=np.float64)
    fit = ordinary_fit(np.ones((len(values), 1)), values, days)
    mean, error = float(fit.coefficients[0]), sqrt(float(fit.covariance[0, 0]))
    reach = within(COVERED, fit.freedom)
    found = (reach + within(2 * POWER - 1, fit.freedom)) * error
    return CostEstimate(mean, mean - reach * error, mean + reach * error, found)


def cost_over_time(repetitions: Sequence[CountingRepetition]) -> CostOverTime:
    """Cost of counting now and by calendar month, from repetitions as for `pairs_of`.

    An earlier month is set against the present only where all its pairs came before those of the
    present, and only the first that has enough pairs: each further look is another chance of a
    difference that is none. The intervals of both must not touch.
    """
    pairs = pairs_of(repetitions)
    now = cost_of(pairs[-NEWEST:])
    by_month: dict[tuple[int, int], list[Pair]] = defaultdict(list)
    for pair in pairs:
        by_month[pair.day.year, pair.day.month].append(pair)
    months = tuple(cost for month in by_month.values() if (cost := cost_of(month)) is not None)
    before = None
    if now is not None and months and months[0].last < now.first:
        before = months[0] if months[0].dip.is_apart(now.dip) else None
    since = None if now is None else now.first
    told = [
        one
        for one in repetitions
        if one.counts_knocks and one.counted is not None and (since is None or one.day >= since)
    ]
    right = sum(one.counted == one.knocks for one in told)
    return CostOverTime(len(pairs), now, months, before, len(told), right)


def _settled(seconds: float | None) -> float:
    """Settling time that is compared, in s."""
    return NEVER if seconds is None else min(seconds, NEVER)
