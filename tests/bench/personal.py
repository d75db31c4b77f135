"""How often a new best of a personal limit is told, and how low the best reads.

    python tests/bench/personal.py [--feet N] [--days N] [--seed N]

A made-up foot plays one level some times a day, its factors lognormal about one that stays (flat),
or that halves in 90 days (learning), with a standard deviation of 0.5 in logarithms, and days that
differ by 0.15 or 0.3. Of flat feet the table shows the share that is told a new best at least once
in all the days, which is false, and the medians of the best over the foot's own limit, and of the
present limit over it. Of learning feet it shows the share told one, and the median of the last
day on which one was told.

Measured on 100 feet a line, one false telling in 100 years of a level is 1 %: 1 to 2 % once a day,
1 to 4 % three times, 2 and 15 % nine times a day; 90 to 100 % of halves are told. The best reads
0.93 to 0.84 of a flat foot's own limit. A minimum at the end of every day would read 0.79 to 0.57
of it, and a limit under the best alone would be told in most years.
"""

import argparse
import math
import statistics
import sys
from collections.abc import Iterable
from datetime import date, timedelta
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.practice.personal_limit import PersonalLimit  # noqa: E402

SPREAD = 0.5
"""Standard deviation of a foot's factors on one day, in logarithms."""
QUARTILE = 0.6745
"""Standard deviations of a normal distribution below which three of four values lie."""
BEGAN = date(2024, 1, 1)
"""Day on which every made-up foot begins."""
HALVES = 90
"""Days in which the factors of a learning foot halve."""


def played(
    rng: np.random.Generator, days: int, a_day: int, between: float, *, learns: bool
) -> PersonalLimit:
    """Personal limit of a made-up foot after some days."""
    limit = PersonalLimit()
    for day in range(days):
        middle = between * rng.standard_normal()
        middle -= math.log(2) * min(day / HALVES, 1.0) if learns else 0.0
        for factor in np.exp(middle + SPREAD * rng.standard_normal(a_day)):
            limit = limit.after(BEGAN + timedelta(days=day), float(factor))
    return limit


def row(rng: np.random.Generator, feet: int, days: int, a_day: int, between: float) -> str:
    """Line of the table: feet that play one level `a_day` times a day."""
    true = math.exp(QUARTILE * math.hypot(SPREAD, between))
    flat = [played(rng, days, a_day, between, learns=False) for _ in range(feet)]
    learning = [played(rng, days, a_day, between, learns=True) for _ in range(feet)]
    told = [limit.told for limit in learning if limit.told is not None]
    last = statistics.median((day - BEGAN).days for day in told) if told else math.nan
    best = _median(limit.best for limit in flat) / true
    now = _median(limit.factor for limit in flat) / true
    false = sum(limit.told is not None for limit in flat)
    return (
        f"{a_day:5d} {between:8.2f} {100 * false / feet:8.1f} % {best:9.2f} {now:6.2f}"
        f" {100 * len(told) / feet:8.1f} % {last:9.0f}"
    )


def _median(found: Iterable[float | None]) -> float:
    """Median of those numbers that there are; NaN where there are none."""
    return statistics.median([one for one in found if one is not None] or [math.nan])


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--feet", type=int, default=200, help="of each line (%(default)s)")
    parser.add_argument("--days", type=int, default=365, help="of each foot (%(default)s)")
    parser.add_argument("--seed", type=int, default=1, help="of all feet (%(default)s)")
    options = parser.parse_args()
    rng = np.random.default_rng(options.seed)
    print("a day  days by  flat, told  its best    now  learning  last told, day")
    for a_day in (1, 3, 9):
        for between in (0.15, 0.3):
            print(row(rng, options.feet, options.days, a_day, between), flush=True)


if __name__ == "__main__":
    main()
