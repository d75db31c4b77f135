"""How often the rules of practice are wrong, and what they find, with intervals (Wilson, 95 %).

    python tests/bench/rates.py [TIMES]

A rate is one function that plays one sitting, or one warm-up, and says whether it happened; its
line in RATES names it and the bounds of its share. A search is the same with the size of what is
there to be found; its line in SEARCHES says the sizes, and the table the first that is found in
8 of 10. A rate is played 10000 times unless told otherwise, a size a tenth of that, from one seed.
Measured: scores that do not fall are called so in under 5 of 100 sessions of 40, also where
neighbours correlate by 0.3; a fall of 2 standard deviations over 15 repetitions is found in half;
usual but called not, 6 of 100 at most.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import numpy as np
from scipy.stats import binomtest

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.five.usual_foot import WORSE  # noqa: E402
from tests.bench.falling_scores import (  # noqa: E402
    SCORE_SD,
    Chance,
    tired,
    tired_of_harder,
    tired_of_mixed,
    tires_at,
)
from tests.bench.usual_feet import (  # noqa: E402
    STILL,
    learning,
    less_steady,
    of_bad_days,
    of_days,
    of_spells,
    quick,
    said_of_worse,
    steady,
    unusual,
)

SEED = 9
TIMES = 10000
ENOUGH = 0.8  # share of sittings in which a size must be found


@dataclass(frozen=True)
class Rate:
    """A share of sittings."""

    name: str
    """What happens in it."""
    once: Callable[[Chance], bool]
    """Plays one and says whether it happened."""
    least: float = 0.0
    """1, the share must not be under it."""
    most: float = 1.0
    """1, the share must not be over it."""


@dataclass(frozen=True)
class Search:
    """The smallest of something that is found in 8 of 10."""

    name: str
    """What is found."""
    once: Callable[[Chance, float], bool]
    """Plays one with so much of it and says whether it was found."""
    sizes: tuple[float, ...]
    """Sizes to try, smallest first."""
    say: Callable[[float], str]
    """A size in words, with its unit."""

    def of(self, size: float) -> Callable[[Chance], bool]:
        """What plays one with so much of it."""
        return lambda chance: self.once(chance, size)


def hits(once: Callable[[Chance], bool], times: int, seed: int = SEED) -> int:
    """How often it happens."""
    chance = np.random.default_rng(seed)
    return sum(once(chance) for _ in range(times))


def interval(happened: int, times: int) -> tuple[float, float]:
    """Where the share lies, by Wilson 1927, at 95 %."""
    found = binomtest(happened, times).proportion_ci(0.95, method="wilson")
    return float(found.low), float(found.high)


def _points_a_repetition(fall: float) -> str:
    return f"{fall:.2f} points a repetition ({fall / SCORE_SD:.2f} SD)"


def _worse(share: float) -> str:
    return f"{100 * share:.0f} % worse ({STILL * share:.1f} points at {STILL:.0f})"


FALLS = tuple(np.arange(0.5, 9.01, 0.25).tolist())  # points a repetition
WORSE_BY = tuple(np.arange(0.1, 4.01, 0.1).tolist())  # share
AFTER = (8, 15, 30)  # days

RATES = (
    *(
        Rate(
            f"falling though not: {count} of one kind, alike by {alike:g}",
            partial(tired, count=count, alike=alike),
            most=0.05 if alike == 0 or (alike == 0.3 and count <= 40) else 1.0,
        )
        for count in (30, 40, 60, 100)
        for alike in (0.0, 0.3, 0.5)
    ),
    *(
        Rate(
            f"falling though not: 40, alike by 0.3, {name}",
            partial(tired, count=40, alike=0.3, zeros=zeros, mean=mean),
            most=0.05,
        )
        for name, zeros, mean in (("25 % of them 0", 0.25, 70.0), ("many at 100", 0.0, 95.0))
    ),
    *(
        Rate(
            f"falling though not: {count} of {kinds} kinds, alike by 0.3",
            partial(tired_of_mixed, count=count, kinds=kinds, alike=0.3),
            most=0.05,
        )
        for count, kinds in ((40, 2), (60, 3), (100, 3))
    ),
    *(
        Rate(
            f"falling though not: 30 of one kind, harder by {harder:g} half way",
            partial(tired_of_harder, count=30, harder=harder),
        )
        for harder in (6.0, 12.0, 24.0)
    ),
    *(
        Rate(
            f"found: 2 SD less over {place} 15 of 40, alike by {alike:g}",
            partial(tires_at, begin=begin, alike=alike),
            least=0.5 if begin and alike <= 0.3 else 0.0,
        )
        for place, begin in (("the last", 25), ("the middle", 12), ("the first", 0))
        for alike in (0.0, 0.3, 0.5)
    ),
    *(
        Rate(
            f"found: 2 SD less over the last 15 of 40, {name}",
            partial(tires_at, begin=25, zeros=zeros, mean=mean),
        )
        for name, zeros, mean in (("25 % of them 0", 0.25, 70.0), ("many at 100", 0.0, 95.0))
    ),
    *(
        Rate(
            f"unusual though not: {name}, {days} days",
            partial(unusual, medians=medians, days=days),
            most=most,
        )
        for name, medians, most in (
            ("steady", steady, 0.06),
            ("learning", learning, 0.06),
            ("days of its own", of_days, 0.06),
            ("learning quickly", quick, 1.0),
            ("one bad day in seven", of_bad_days, 1.0),
            ("good and bad spells", of_spells, 1.0),
        )
        for days in AFTER
    ),
    *(
        Rate(
            f"worse by half, {what}: {name}, {days} days", partial(once, medians=medians, days=days)
        )
        for name, medians in (("steady", steady), ("days of its own", of_days))
        for days in AFTER
        for what, once in (
            ("noticed", partial(less_steady, worse=WORSE)),
            ("said to be noticed", said_of_worse),
        )
    ),
)

SEARCHES = (
    *(
        Search(
            f"a fall from the start on, {count} of one kind",
            partial(tired, count=count),
            FALLS,
            _points_a_repetition,
        )
        for count in (20, 30, 60, 100)
    ),
    *(
        Search(
            f"a worse day: {name}, {days} days",
            partial(less_steady, medians=medians, days=days),
            WORSE_BY,
            _worse,
        )
        for name, medians in (("steady", steady), ("days of its own", of_days))
        for days in AFTER
    ),
)


def rate_line(rate: Rate, times: int) -> str:
    """A rate, its interval, and whether its bounds hold."""
    happened = hits(rate.once, times)
    low, high = interval(happened, times)
    share = happened / times
    bounds = "" if (rate.least, rate.most) == (0.0, 1.0) else f"{rate.least:.1%} to {rate.most:.1%}"
    fault = "" if rate.least <= share <= rate.most else "  OUT OF BOUNDS"
    return f"{rate.name:56}{share:7.2%}  {low:6.2%} to {high:6.2%}   {bounds}{fault}"


def search_line(search: Search, times: int) -> str:
    """The first size that is found in 8 of 10."""
    for size in search.sizes:
        found = hits(search.of(size), times)
        if found >= ENOUGH * times:
            low, high = interval(found, times)
            return f"{search.name:56}{search.say(size):44}{low:5.1%} to {high:5.1%}"
    return f"{search.name:56}none of those tried"


def main() -> None:
    """Print both tables, a line as it is ready."""
    times = int(sys.argv[1]) if len(sys.argv) > 1 else TIMES
    with ProcessPoolExecutor() as pool:
        print(f"{'how often, of ' + str(times):56}{'share':>7}  {'interval':16}   bounds")
        for line in pool.map(partial(rate_line, times=times), RATES):
            print(line, flush=True)
        print(f"\n{'found in 8 of 10, of ' + str(times // 10):56}{'size':44}interval")
        for line in pool.map(partial(search_line, times=times // 10), SEARCHES):
            print(line, flush=True)


if __name__ == "__main__":
    main()
