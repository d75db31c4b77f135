"""How likely a level is called kept on a day, by its true share clean: formula and simulation.

    python tests/bench/retention.py [DAYS]

Kept with 4 clean of the first 5, else with 8 of the first 10.
"""

from __future__ import annotations

import sys
from datetime import date
from math import comb
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

import numpy as np  # noqa: E402

from engine.practice.retention import AT_ONCE, IN_THE_END, CheckOutcome, Retention  # noqa: E402

SHARES = (0.3, 0.5, 0.7, 0.8, 0.9, 0.95)
DAYS = 20_000
DAY = date(2024, 5, 1)


def kept(share: float) -> float:
    """1, chance to be called kept at a true share clean, by the binomial distribution."""
    rest = IN_THE_END.of - AT_ONCE.of
    at_once = _at_least(AT_ONCE.clean, AT_ONCE.of, share)
    late = sum(
        _exactly(early, AT_ONCE.of, share) * _at_least(IN_THE_END.clean - early, rest, share)
        for early in range(AT_ONCE.clean)
    )
    return at_once + late


def shown(share: float, days: int, seed: int) -> tuple[float, float]:
    """1, of days on which the program calls it kept; count, repetitions it takes on one."""
    rng = np.random.default_rng(seed)
    kept, played = 0, 0
    for _ in range(days):
        retention = Retention(due=DAY)
        while retention.outcome_on(DAY) in (None, CheckOutcome.OPEN):
            retention = retention.after(DAY, bool(rng.random() < share))
            played += 1
        kept += retention.is_retained
    return kept / days, played / days


def main() -> None:
    """Print the table."""
    days = int(sys.argv[1]) if len(sys.argv) > 1 else DAYS
    print(f"{'true share':>10} {'formula':>8} {f'{days} days':>12} {'repetitions':>12}")
    for number, share in enumerate(SHARES):
        simulated, played = shown(share, days, number)
        print(f"{share:10g} {kept(share):8.4f} {simulated:12.4f} {played:12.1f}")


def _exactly(clean: int, of: int, share: float) -> float:
    return comb(of, clean) * share**clean * (1 - share) ** (of - clean)


def _at_least(clean: int, of: int, share: float) -> float:
    return sum(_exactly(one, of, share) for one in range(clean, of + 1))


if __name__ == "__main__":
    main()
