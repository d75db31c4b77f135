"""How well the cost of counting is told of made-up feet whose true cost is known.

    python tests/bench/counting.py [FEET [YEARS]]

A foot plays six pairs a week. Its dips are skewed (gamma, shape 3: most are small, a few are deep)
with a mean of 9 points without counting, and of 9 and the cost while it counts; each day has a
factor of its own on all its dips, log-normal with mean 1 and a spread of 15 or 30 %. A foot that
learns has 2 % less without counting every week. Where the dip is over 5 points the brake takes
0.2 s and 0.02 s a point to settle, and never settles where it is over 30; so a foot without a cost
has none in settling either.

FEET feet (500 by default) are looked at once after 12 pairs and once after 36: how often a cost is
told, the mean of cost and interval, how often the interval of the dip covers the true cost, beside
the plain interval of Student's t, and how often a cost of settling is told. YEARS feet (60) are
looked at after every week for a year: how often a cost was ever told, and how often the present one
was ever told to differ from an earlier month. In one row the cost falls from 8 to 2 in a year.

Measured on 1000 and 200 feet: a foot without a cost is told one in 2 of 100 looks, but in 42 of
100 years of weekly looks. A cost of 4 points is told in 15 of 100 after 12 pairs and in 57 after
36, one of 8 in 45 and in 98. The interval covers in 95 to 99 of 100, the plain one of Student's t
in 91 to 96. A constant cost is told to differ from an earlier month in at most 2 of 100 years, one
that falls from 8 to 2 in 42.
"""

from __future__ import annotations

import sys
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from datetime import date, timedelta
from functools import partial
from math import log, sqrt
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.practice.counting_cost import (  # noqa: E402
    NEWEST,
    CountingRepetition,
    cost_of,
    cost_over_time,
    pairs_of,
)
from engine.practice.students_t import within  # noqa: E402

FEET, YEARS = 500, 60
FIRST = date(2024, 1, 1)
A_WEEK, WEEKS = 6, 52
BASE = 9.0
SHAPE = 3.0
LEARNED = 0.98


@dataclass(frozen=True)
class Counter:
    """A foot that dips deeper by some points while the player counts."""

    cost: float
    """True cost of counting in the first week, in points."""
    days: float
    """Spread of the factors of days, as a share."""
    learns: bool = False
    """Whether the dip without counting falls by 2 % a week."""
    last: float | None = None
    """True cost in the last week of the year, in points; None for that of the first."""

    def cost_in(self, week: int) -> float:
        """True cost of counting in a week, from 0, in points."""
        last = self.cost if self.last is None else self.last
        return self.cost + (last - self.cost) * week / (WEEKS - 1)

    def played(self, weeks: int, rng: np.random.Generator) -> list[CountingRepetition]:
        """Six pairs in each of so many weeks, the order in a pair by chance."""
        made = []
        spread = sqrt(log(1 + self.days**2))
        for week in range(weeks):
            base = BASE * (LEARNED**week if self.learns else 1.0)
            factor = float(np.exp(spread * rng.normal() - spread**2 / 2))
            for _ in range(A_WEEK):
                first = bool(rng.integers(2))
                for counts in (first, not first):
                    mean = base + (self.cost_in(week) if counts else 0.0)
                    dip = factor * float(rng.gamma(SHAPE, mean / SHAPE))
                    made.append(repetition(week, dip, counts=counts))
        return made


def repetition(week: int, dip: float, *, counts: bool) -> CountingRepetition:
    """A repetition on the first day of a week with a dip in points."""
    settle = None if dip > 30 else 0.2 + 0.02 * dip if dip > 5 else 0.0
    day, knocks = FIRST + timedelta(weeks=week), 5 if counts else None
    return CountingRepetition(day, "counting", dip, settle, knocks, knocks)


def looked_at(foot: Counter, weeks: int, seed: int) -> tuple[float, ...]:
    """What is told after so many weeks: told, cost, low, high, covered, plain, settling told."""
    pairs = pairs_of(foot.played(weeks, np.random.default_rng(seed)))[-NEWEST:]
    cost = cost_of(pairs)
    assert cost is not None
    dip, values = cost.dip, [pair.dip for pair in pairs]
    plain = within(0.95, len(values) - 1) * float(np.std(values, ddof=1)) / sqrt(len(values))
    covered = dip.low <= foot.cost <= dip.high
    return (
        float(dip.is_told),
        *(dip.value, dip.low, dip.high),
        float(covered),
        float(abs(dip.value - foot.cost) <= plain),
        float(cost.settle.is_told),
    )


def watched(foot: Counter, seed: int) -> tuple[bool, bool]:
    """Whether in a year of looks a cost was told, and a difference from an earlier month."""
    played = foot.played(WEEKS, np.random.default_rng(seed))
    told = differs = False
    for weeks in range(1, WEEKS + 1):
        cost = cost_over_time(played[: 2 * A_WEEK * weeks])
        told = told or (cost.now is not None and cost.now.dip.is_told)
        differs = differs or cost.before is not None
    return told, differs


def line(feet: int, years: int, name: str, foot: Counter) -> str:
    """A row of the table."""
    row = f"{name:30}"
    for weeks in (2, 6):
        seen = np.mean([looked_at(foot, weeks, seed) for seed in range(feet)], axis=0)
        told, value, low, high, covered, plain, settles = (float(one) for one in seen)
        row += f"{100 * told:7.1f}{value:6.1f}{low:6.1f}{high:6.1f}{100 * covered:7.1f}"
        row += f"{100 * plain:7.1f}{100 * settles:7.1f} "
    told, differs = 100 * np.mean([watched(foot, seed) for seed in range(years)], axis=0)
    return f"{row}{told:7.1f}{differs:8.1f}"


ROWS = {
    f"cost {cost:g}, days {100 * days:g} %{', learns' if learns else ''}": Counter(
        cost, days, learns
    )
    for cost in (0.0, 4.0, 8.0)
    for days, learns in ((0.15, False), (0.3, False), (0.3, True))
} | {"cost 8 to 2, days 15 %, learns": Counter(8.0, 0.15, True, 2.0)}


def main() -> None:
    """Print the table."""
    feet, years = [*map(int, sys.argv[1:]), *(FEET, YEARS)[len(sys.argv) - 1 :]]
    heads = ("told", "cost", "low", "high", "cover", "plain", "settle")
    widths = (7, 6, 6, 6, 7, 7, 7)
    once = "".join(f"{head:>{width}}" for head, width in zip(heads, widths, strict=True))
    print(f"{'':30}{'after 12 pairs':^46} {'after 36 pairs':^46} {'a year of looks':>15}")
    print(f"{'%, points':30}{once} {once} {'told':>7}{'differs':>8}")
    with ProcessPoolExecutor() as pool:
        for row in pool.map(partial(line, feet, years), ROWS, ROWS.values()):
            print(row, flush=True)


if __name__ == "__main__":
    main()
