"""What the learning curve says of feet that are known: how often it is wrong, and its intervals.

    python tests/bench/growth.py [FEET]

Every kind of foot is followed FEET times (1000 unless told otherwise). Its repetitions are spread
by a factor, and so are its days, that may also come in spells; the first five of a day are worse.
The first table has what is said of each kind; the second how often the intervals cover what they
are of: the curve through medians of five, averaged over days. Chances are by Wilson, at 95 %.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from functools import cache, partial
from pathlib import Path

import numpy as np
from scipy.stats import binomtest

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.practice.course import Course  # noqa: E402
from engine.practice.growth import Going, Growth, growth  # noqa: E402

FEET = 1000
SEED = 12
FEWEST = 20  # intervals, under which their share says nothing
WARMING = 1.3  # factor, the first five of a day


@dataclass(frozen=True)
class Learner:
    """A foot whose curve is known."""

    floor: float = 6.0
    """points, where it ends."""
    gain: float = 0.0
    """points above that at first."""
    half: float = 200.0
    """count of repetitions, to halve what is left."""
    days: int = 20
    """days with practice."""
    a_day: int = 20
    """count of repetitions on each."""
    every: int = 1
    """days from one to the next."""
    spread: float = 0.5
    """1, log, of repetitions."""
    moods: float = 0.2
    """1, log, of days."""
    spells: float = 0.0
    """1, correlation of a day with the next."""
    worse: float = 0.0
    """1, log, by which it gets worse a day."""

    def at(self, n: np.ndarray | float) -> np.ndarray | float:
        """The median after so many repetitions on a usual day, in points."""
        return self.floor + self.gain * np.exp2(-n / self.half)

    def course(self, chance: np.random.Generator) -> Course:
        """Everything it does."""
        mood = chance.standard_normal(self.days)
        for day in range(1, self.days):
            mood[day] = self.spells * mood[day - 1] + np.sqrt(1 - self.spells**2) * mood[day]
        count = self.days * self.a_day
        number, day = np.arange(1, count + 1), np.repeat(np.arange(self.days), self.a_day)
        place = np.tile(np.arange(1, self.a_day + 1), self.days)
        value = self.at(number) * np.exp(
            self.moods * mood[day] + self.spread * chance.standard_normal(count) + self.worse * day
        )
        value[place <= 5] *= WARMING
        return Course(number, 730_000 + self.every * day, place, value)

    def over(self, back: int) -> float:
        """What the medians of the newest days are worth, in points."""
        days = np.arange(self.days - 1 - back // self.every, self.days)
        middles = self.at((days + 0.5) * self.a_day + 2.5)
        return float(np.mean(middles)) * self.scale(self.a_day - 5)

    def scale(self, count: int) -> float:
        """What medians of so many, averaged over days, are to the curve."""
        return _of_medians(self.spread, count) * float(np.exp(self.moods**2 / 2))


@cache
def _of_medians(spread: float, count: int) -> float:
    rows = np.random.default_rng(5).standard_normal((100_000, count))
    return float(np.exp(spread * np.median(rows, axis=1)).mean())


def followed(learner: Learner, seed: int) -> Growth:
    """What is said of one foot."""
    return growth(learner.course(np.random.default_rng((SEED, seed))))


PLAIN = Learner()
STEADY = {
    f"flat, {days} days of {a_day}{name}": replace(PLAIN, days=days, a_day=a_day, **more)
    for days, a_day in ((6, 20), (10, 20), (15, 10), (20, 20), (40, 20), (60, 40))
    for name, more in (("", {}), (", spells 0.4", {"spells": 0.4}))
}
CURVES = {
    f"{6 + gain:g} to 6, half {half}, {days} days of {a_day}": replace(
        PLAIN, gain=float(gain), half=float(half), days=days, a_day=a_day
    )
    for gain, half, a_day in (
        (14, 100, 20),
        (14, 200, 20),
        (14, 200, 40),
        (14, 100, 10),
        (6, 200, 20),
        (14, 800, 20),
    )
    for days in (10, 20, 40, 60)
}
OTHERS = {
    f"worse by {worse:.1%} a day, {days} days": replace(PLAIN, days=days, worse=worse)
    for worse in (0.01, 0.02)
    for days in (20, 40)
}


def share(happened: int, times: int) -> str:
    """A share with its interval."""
    low, high = binomtest(happened, times).proportion_ci(0.95, method="wilson")
    return f"{100 * happened / times:5.1f} ({100 * low:4.1f} to {100 * high:5.1f})"


def said(name: str, learner: Learner, feet: int) -> str:
    """A line of the first table."""
    found = [followed(learner, seed) for seed in range(feet)]
    count = Counter(one.going for one in found)
    told = [one.half[1] for one in found if one.half]
    flat = [one.flat_days for one in found if one.flat_days]
    now = learner.at(learner.days * learner.a_day)
    return (
        f"{name:36}{100 * (1 - learner.floor / now):4.0f} "
        + " ".join(f"{100 * count[going] / feet:6.1f}" for going in Going)
        + f" {100 * len(told) / feet:6.1f} {np.median(told) if told else np.nan:6.0f}"
        + f" {np.median(flat) if flat else np.nan:6.0f}"
        + f"   {share(count[Going.LEARNING], feet)}"
    )


def covered(name: str, learner: Learner, feet: int) -> str:
    """A line of the second table."""
    found = [followed(learner, seed) for seed in range(feet)]
    learns = [one for one in found if one.going is Going.LEARNING]
    flat = [one for one in found if one.going is Going.FLAT]
    now = learner.at(learner.days * learner.a_day) * learner.scale(5)
    ends = learner.floor * learner.scale(5)
    cells = (
        _cell([one.now for one in learns], [now] * len(learns)),
        _cell([one.now for one in flat], [learner.over(one.flat_days) for one in flat]),
        _cell([one.end for one in learns], [ends] * len(learns)),
        _cell([one.half for one in learns], [learner.half] * len(learns)),
    )
    return f"{name:36}" + " |".join(cells)


def _cell(found: Sequence[tuple[float, float, float] | None], true: Sequence[float]) -> str:
    told = [(*one, truth) for one, truth in zip(found, true, strict=True) if one is not None]
    if len(told) < FEWEST:
        return f"{'':33}"
    hits = sum(low <= truth <= high for low, _, high, truth in told)
    off = np.median([value / truth for _, value, _, truth in told])
    reach = np.median([(high - low) / truth / 2 for low, _, high, truth in told])
    return f"{share(hits, len(told))}{off:5.2f}{reach:5.2f}   "


def main() -> None:
    """Print both tables."""
    feet = int(sys.argv[1]) if len(sys.argv) > 1 else FEET
    tables: list[tuple[str, Callable[..., str], dict[str, Learner]]] = [
        (
            "left % " + " ".join(f"{going.name[:6]:>6}" for going in Going) + "   half",
            said,
            STEADY | OTHERS | CURVES,
        ),
        (
            "now, learning                 | now, flat                  | end | half",
            covered,
            STEADY | CURVES,
        ),
    ]
    with ProcessPoolExecutor() as pool:
        for head, line, rows in tables:
            print(f"{'':36}{head}")
            for row in pool.map(partial(line, feet=feet), rows, rows.values()):
                print(row, flush=True)


if __name__ == "__main__":
    main()
