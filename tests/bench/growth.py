"""What the learning curve says of feet that are known: how often it is wrong, and how far off.

    python tests/bench/growth.py [FEET]

Every kind of foot is followed FEET times (500 unless told otherwise). Its repetitions are spread
by a factor, and so are its days, that may also come in spells; the first five of a day are worse.
The first table has what is said of each kind, in percent of feet: `left` is what is still to be
learned, in percent of what is, `fell` what was learned in the newest eight weeks, in percent of
what was. The second has the intervals: how often they cover what they are of, in percent with the
interval of Wilson, where the middle is and how far they reach, in parts of it. That is the curve
through medians of five, averaged over days, and of a flat foot the medians of its flat days.

With 500 feet of each kind: a foot that does not learn is called learning in 1 to 3 % (5 or 6 where
its days come in spells), getting worse in as many, and flat in two thirds; else nothing is said.
One that fell by a third or more and has as much left to learn is called flat in 0 to 3 % within 20
days; one that learns slowly, a fifth in 20 days, in 30 %, and in 6 to 10 % later. `half` is given
in 57 % at most, where the curve has bent and something is left; it covers in 93 to 100 %. `now`
covers in 80 to 95 %: least with ten days, as a fall is seen first where the newest days are low.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from functools import partial
from pathlib import Path

import numpy as np
from scipy.stats import binomtest

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.progress.learning_curve import NEWEST, Interval, LearningCurve, Trend, learning_curve  # noqa: E402
from tests.learning_foot import Learner  # noqa: E402

FEET = 500
SEED = 12
FEWEST = 20  # intervals, under which their share says nothing


PLAIN = Learner()
STEADY = {
    f"flat, {days} days of {a_day}{name}": replace(PLAIN, days=days, a_day=a_day, spells=spells)
    for days, a_day in ((6, 20), (10, 20), (15, 10), (20, 20), (40, 20), (60, 40))
    for name, spells in (("", 0.0), (", spells 0.4", 0.4))
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
CALM = {
    f"calm, {name}": replace(learner, spread=0.4, moods=0.1)
    for name, learner in CURVES.items()
    if name.startswith(("20 to 6, half 200", "20 to 6, half 800"))
}
WORSE = {
    f"worse by {worse:.0%} a day, {days} days": replace(PLAIN, days=days, worse=worse)
    for worse in (0.01, 0.02)
    for days in (20, 40)
}
ROWS = STEADY | WORSE | CURVES | CALM


def share(happened: int, times: int) -> str:
    """A share with its interval, in percent."""
    low, high = binomtest(happened, times).proportion_ci(0.95, method="wilson")
    return f"{100 * happened / times:5.1f} ({100 * low:4.1f} to {100 * high:5.1f})"


def lines(name: str, learner: Learner, feet: int) -> tuple[str, str]:
    """A kind of foot in each table."""
    found = [
        learning_curve(learner.course(np.random.default_rng((SEED, seed)))) for seed in range(feet)
    ]
    return f"{name:38}{_said(learner, found)}", f"{name:38}{_covered(learner, found)}"


def _said(learner: Learner, found: Sequence[LearningCurve]) -> str:
    feet = len(found)
    count = Counter(one.trend for one in found)
    last = learner.days * learner.a_day
    now, before = learner.at(last), learner.at(max(0, last - NEWEST * learner.a_day))
    told = sum(one.half is not None for one in found)
    flat = [one.flat_days for one in found if one.flat_days]
    return (
        f"{100 * (1 - learner.floor / now):5.0f} {100 * (1 - now / before):5.0f}  "
        + " ".join(f"{100 * count[going] / feet:6.1f}" for going in Trend)
        + f" {100 * told / feet:6.1f} {f'{np.median(flat):6.0f}' if flat else '':6}"
        + f"   {share(count[Trend.LEARNING], feet)}"
    )


def _covered(learner: Learner, found: Sequence[LearningCurve]) -> str:
    learns = [one for one in found if one.trend is Trend.LEARNING]
    flat = [one for one in found if one.trend is Trend.FLAT]
    now = learner.at(learner.days * learner.a_day) * learner.scale(5)
    end = learner.floor * learner.scale(5)
    return "".join(
        (
            _cell([one.now for one in learns], [now] * len(learns)),
            _cell([one.now for one in flat], [learner.over(one.flat_days) for one in flat]),
            _cell([one.end for one in learns], [end] * len(learns)),
            _cell([one.half for one in learns], [learner.half] * len(learns)),
        )
    )


def _cell(found: Sequence[Interval | None], true: Sequence[float]) -> str:
    told = [(*one, truth) for one, truth in zip(found, true, strict=True) if one is not None]
    if len(told) < FEWEST:
        return f"{'':34}"
    hits = sum(low <= truth <= high for low, _, high, truth in told)
    middle = np.median([value / truth for _, value, _, truth in told])
    reach = np.median([(high - low) / truth / 2 for low, _, high, truth in told])
    return f"{share(hits, len(told))} {middle:4.2f} {reach:4.2f}    "


def main() -> None:
    """Print both tables."""
    feet = int(sys.argv[1]) if len(sys.argv) > 1 else FEET
    names = " ".join(f"{going.name[:6].lower():>6}" for going in Trend)
    print(f"{'':38} left  fell  {names}   half flat for   learning")
    covered = []
    with ProcessPoolExecutor() as pool:
        for said, one in pool.map(partial(lines, feet=feet), ROWS, ROWS.values()):
            print(said, flush=True)
            covered.append(one)
    heads = ("now, learning", "now, flat", "end, learning", "half, learning")
    print(f"\n{'':38}" + "".join(f"{head:34}" for head in heads))
    print("\n".join(covered))


if __name__ == "__main__":
    main()
