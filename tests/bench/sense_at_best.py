"""What the best rule could tell of the sense of pressure after 30 squeezes, beside the program's.

    python tests/bench/sense_at_best.py [FEET]

The best rule knows what no rule can: how much the days of a foot differ. It weighs the squeezes by
that (generalised least squares) and tells an error where the largest of three t, or the joint F of
gain and offset, is over what 95 % of true feet of that kind reach: so it tells 5 % of them. Errors
below 3 points are told by none. FEET feet (2000) press 6 + 0.85 x, and as many what is asked.

Measured on 1,000 feet each: of feet that miss by 6 % of the weight the best rule tells 95, 94 and
88 %, where days differ by 0, 0.3 and 0.5 of that, and the program 91, 88 and 81 %. Of feet that
miss by 8 % the best tells 77, 69 and 59 %, the program 67, 61 and 53 %, with 3 to 4 % of true feet.
So no rule tells three in four of them after 30 squeezes where days differ.
"""

from __future__ import annotations

import sys
from dataclasses import replace
from itertools import product
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.practice.clustered import Reals  # noqa: E402
from engine.practice.sense import LEAST, LEAST_TOLD, Squeeze, sense_of  # noqa: E402
from tests.bench.sense import A_DAY, LEAST_ASKED, MOST_ASKED, Presser  # noqa: E402

FEET = 2000
TOLD_OF_TRUE = 0.05
MISSES, DAYS = (0.06, 0.08), (0.0, 0.3, 0.5)
WEIGHTS = (LEAST_ASKED, (LEAST_ASKED + MOST_ASKED) / 2, MOST_ASKED)
DAY = np.arange(LEAST) // A_DAY


def largest_t_and_f(squeezes: list[Squeeze], days: float) -> Reals:
    """Largest t of the three errors, and joint F, by a rule that knows how much days differ.

    `days` is the standard deviation between them, as a share of that within one. Shape (2,); both
    are 0 where no error reaches the smallest that is told.
    """
    asked = np.array([one.asked for one in squeezes])
    pressed = np.array([one.pressed for one in squeezes])
    covariance = np.eye(LEAST) + days**2 * (DAY[:, None] == DAY)
    whiten = np.linalg.inv(np.linalg.cholesky(covariance))
    columns = whiten @ np.column_stack((np.ones(LEAST), 1 / asked))
    values = whiten @ ((pressed - asked) / asked)
    inverse = np.linalg.inv(columns.T @ columns)
    found = inverse @ columns.T @ values
    residuals = values - columns @ found
    variance = float(residuals @ residuals) / (LEAST - 2)
    factors = np.array([[weight, 1.0] for weight in WEIGHTS])
    errors = factors @ found
    spread = np.sqrt(variance * np.einsum("ij,jk,ik->i", factors, inverse, factors))
    told = np.abs(errors) >= LEAST_TOLD
    joint = float(found @ columns.T @ columns @ found) / 2 / variance
    return np.array([np.max(np.where(told, np.abs(errors) / spread, 0.0)), joint * np.any(told)])


def row(feet: int, miss: float, days: float) -> str:
    """A row of the table: what is told of wrong feet by each rule, and of true ones by ours."""
    true = Presser(miss, days=days)
    wrong = replace(true, gain=0.85, offset=6.0)
    played = {
        foot: [foot.squeezes(LEAST, np.random.default_rng(seed)) for seed in range(feet)]
        for foot in (true, wrong)
    }
    knows = {
        foot: np.array([largest_t_and_f(one, days) for one in squeezes])
        for foot, squeezes in played.items()
    }
    best = np.mean(knows[wrong] > np.quantile(knows[true], 1 - TOLD_OF_TRUE, axis=0), axis=0)
    ours = [np.mean([_is_told(one) for one in played[foot]]) for foot in (wrong, true)]
    figures = "".join(f"{100 * share:10.1f}" for share in (*best, *ours))
    return f"misses by {100 * miss:g} %, days {days:<6g}{figures}"


def _is_told(squeezes: list[Squeeze]) -> bool:
    sense = sense_of(squeezes)
    return sense is not None and sense.fault is not None


def main() -> None:
    """Print the table."""
    feet = int(sys.argv[1]) if len(sys.argv) > 1 else FEET
    heads = ("largest t", "joint F", "ours", "of true")
    print(f"{'told, %':27}" + "".join(f"{head:>10}" for head in heads))
    for miss, days in product(MISSES, DAYS):
        print(row(feet, miss, days), flush=True)


if __name__ == "__main__":
    main()
