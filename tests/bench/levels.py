"""How hard each level is for feet of every skill: share clean, and sets it takes to pass.

    python tests/bench/levels.py [REPETITIONS [LEVEL]]

Every level is played by the simulated foot without a window, 100 repetitions that count unless
told otherwise, half of them each by two feet. The sets to pass are the median over every
repetition to begin with, the last being followed by the first.
"""

from __future__ import annotations

import sys
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from itertools import islice
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.ladder.level_files import SHIPPED, load_levels  # noqa: E402
from engine.practice.passes import needed  # noqa: E402
from tests.simulated_repetitions import counted, sets_to_pass  # noqa: E402

SKILLS = (0.0, 0.25, 0.5, 0.75, 1.0)
FEET = (1, 2)  # seeds
REPETITIONS = 100
LEVELS = {level.id: level for level in load_levels([SHIPPED])}


def clean(level: str, repetitions: int, skill: float) -> list[bool]:
    """Whether each repetition of a level by feet of some skill was clean."""
    each = repetitions // len(FEET)
    passed = needed(LEVELS[level], list(LEVELS.values()))
    return [
        record.verdict.clean
        for seed in FEET
        for record in islice(counted(LEVELS[level], skill, seed, passed), each)
    ]


def main() -> None:
    """Print the table, a line a level."""
    repetitions = int(sys.argv[1]) if len(sys.argv) > 1 else REPETITIONS
    names = sys.argv[2:] or list(LEVELS)
    print("share clean and sets to pass, by skill")
    print(f"{'':18}" + "".join(f"{skill:>14g}" for skill in SKILLS))
    with ProcessPoolExecutor() as pool:
        for name in names:
            played = pool.map(partial(clean, name, repetitions), SKILLS)
            print(f"{name:18}" + "".join(_cell(one, name) for one in played), flush=True)


def _cell(played: list[bool], name: str) -> str:
    sets = sets_to_pass(played, LEVELS[name])
    return f"{sum(played) / len(played):8.2f} {'never' if sets is None else sets:>5}"


if __name__ == "__main__":
    main()
