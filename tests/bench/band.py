"""How often the interval of the steadiness band covers it, and how soon there is one.

    python tests/bench/band.py [FEET [BLIPS [DAYS]]]

Every kind of foot is tracked FEET times (1000 by default) over DAYS (40), and its band is
compared with what three in four of its deviations stay inside on that day: on the day of its first
band, and on the last. Bias and reach are in percent of the band; `pairs` is how often the plain
interval of the same pairs of reversals covers. Intervals are of 95 %, by Clopper and Pearson. The
simulated feet give deviations that are drawn from BLIPS of their own (400).

Measured: the interval covers the band in 92 to 95 % for spreads of 0.2 to 0.8 in logarithms (the
simulated foot's is 0.35 to 0.55), for days that differ by up to 0.3, and for 3 to 12 blips a day;
in 90 % for a spread of 1. An interval of t on single middles would cover in 65 to 90 %. It
reaches some 40 % to either side at first, then some 20. Of a foot that learns 1 % a day the band is
7 % late and covered in 89 %; of one that learns 2 %, 14 % late and in 77 %. A staircase stopped by
the widest tolerance reads too narrow, by 5 % at a band of 40 points and 12 % at 47; its interval
then reaches to that limit, and the other way round at the narrowest.
"""

from __future__ import annotations

import math
import sys
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from itertools import islice, pairwise
from pathlib import Path

import numpy as np
from scipy import stats

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.ladder.level_files import load_band  # noqa: E402
from engine.practice.steadiness import LEAN, STEP, Steadiness, SteadinessBlip, steadiness  # noqa: E402
from tests.simulated_repetitions import counted  # noqa: E402
from tests.steady_foot import DAY, SteadyFoot, tracked  # noqa: E402

FEET = 1000
DAYS = 40
OWN = 400  # deviations of a simulated foot
SKILLS = (0.0, 0.25, 0.5, 0.75, 1.0)
SIX = 6  # blips a day
KINDS = {
    **{f"spread {one}": (SteadyFoot(spread=one), SIX) for one in (0.2, 0.35, 0.5, 0.8, 1.0)},
    **{f"median {one}": (SteadyFoot(median=one), SIX) for one in (1.5, 20.0, 30.0, 36.0)},
    **{f"days {one}": (SteadyFoot(day_spread=one), SIX) for one in (0.1, 0.2, 0.3)},
    **{
        f"learns {one:.1%} a day": (SteadyFoot(16, 0.4, 0.15, one), SIX)
        for one in (0.0, 0.005, 0.01, 0.02)
    },
    **{f"{one} blips a day": (SteadyFoot(day_spread=0.15), one) for one in (3, 4, 9, 12)},
}


@dataclass(frozen=True)
class Found:
    """One band of one foot, beside the true one."""

    days: int
    """count, days until then."""
    off: float
    """1, logarithm of the band over the true one."""
    covered: bool
    """Whether its interval covers the true one."""
    plain: bool
    """Whether the plain interval of the pairs of its reversals would."""
    reach: float
    """1, half the interval, in logarithms."""


def simulated(blips: int, skill: float) -> tuple[float, ...]:
    """Deviations of the simulated foot in so many blips of the drill, in points."""
    measures = (record.verdict.measures for record in counted(load_band(), skill, seed=1))
    measured = (
        max(dip, surge)
        for one in measures
        if (dip := one.get("dip")) is not None and (surge := one.get("surge")) is not None
    )
    return tuple(islice(measured, blips))


def found(foot: SteadyFoot, blips: Sequence[SteadinessBlip], band: Steadiness) -> Found:
    """A band beside the true one."""
    days = (blips[-1].day - DAY).days + 1
    true = math.log(foot.band(days))
    turns = [math.log(b.asked) for a, b in pairwise(blips) if a.inside != b.inside]
    pairs = np.array(turns[-band.reversals :]).reshape(-1, 2).mean(axis=1)
    plain = stats.t.ppf(0.975, pairs.size - 1) * stats.sem(pairs)
    middle = pairs.mean() + LEAN * math.log(STEP)
    return Found(
        days,
        math.log(band.value) - true,
        math.log(band.low) <= true <= math.log(band.high),
        bool(abs(middle - true) <= plain),
        math.log(band.high / band.low) / 2,
    )


def followed(foot: SteadyFoot, a_day: int, days: int, seed: int) -> tuple[Found, Found] | None:
    """The first band and the last of one foot; None where there was none."""
    rng = np.random.default_rng(seed)
    blips = tracked(foot.deviations(days, a_day, rng))
    last = steadiness(blips)
    for end in range(a_day, len(blips) + 1, a_day):
        first = steadiness(blips[:end])
        if first is not None and last is not None:
            return found(foot, blips[:end], first), found(foot, blips, last)
    return None


def line(days: int, feet: int, name: str, foot: SteadyFoot, a_day: int) -> str:
    """A line of the table."""
    both = [followed(foot, a_day, days, seed) for seed in range(feet)]
    player = [one for one in both if one is not None]
    if not player:
        return f"{name:20s} no band in {days} days"
    first, last = zip(*player, strict=True)
    until = [one.days for one in first]
    soon = f"{np.median(until):3.0f} {np.quantile(until, 0.9):3.0f} {feet - len(player):5d}"
    return f"{name:20s}{soon} |{_cells(first)} |{_cells(last)}"


def _cells(bands: Sequence[Found]) -> str:
    covered = sum(one.covered for one in bands)
    low, high = stats.binomtest(covered, len(bands)).proportion_ci()
    plain = np.mean([one.plain for one in bands])
    bias, reach = (np.mean([getattr(one, name) for one in bands]) for name in ("off", "reach"))
    share = f"{covered / len(bands):6.3f} ({low:.3f} to {high:.3f})"
    return f"{share} {plain:5.2f} {100 * math.expm1(bias):+6.1f} {100 * math.expm1(reach):6.1f}"


def main() -> None:
    """Print the table."""
    feet = int(sys.argv[1]) if len(sys.argv) > 1 else FEET
    blips = int(sys.argv[2]) if len(sys.argv) > 2 else OWN
    days = int(sys.argv[3]) if len(sys.argv) > 3 else DAYS
    of_one = f"{'covered':>23} pairs {'bias':>6} {'reach':>6}"
    with ProcessPoolExecutor() as pool:
        drawn_from = pool.map(partial(simulated, blips), SKILLS)
        own = {
            f"simulated, skill {skill}": (SteadyFoot(drawn=drawn), SIX)
            for skill, drawn in zip(SKILLS, drawn_from, strict=True)
        }
        rows = KINDS | own
        print(f"{'':20}first band on day; none |{'the first band':>20} | day {days}")
        print(f"{'':20}{'med':>3} {'90%':>3} {'none':>5} |{of_one} |{of_one}")
        names, kinds = list(rows), list(rows.values())
        feet_of, a_day = zip(*kinds, strict=True)
        for row in pool.map(partial(line, days, feet), names, feet_of, a_day):
            print(row, flush=True)


if __name__ == "__main__":
    main()
