"""What the best feet reach on each level: the share of its limits three in four stay within.

    python tests/bench/reach.py [REPETITIONS [LEVEL ...]]

Every level, mixed ones too, is played without a window by the simulated foot of skill 1, 100
repetitions that count unless told otherwise, half of them each by two feet. The table shows the
75 % quantile of max(x / L), rounded to 0.05 and at most 1, beside `reach` in the level's file. The
exit code is 1 where one is more than 0.1 off; the files are from 40 repetitions of each.

A repetition of a mixed level is judged by the level that it drew, and its foot is the same.
"""

from __future__ import annotations

import sys
from itertools import islice
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.ladder.level_files import SHIPPED, load_levels  # noqa: E402
from engine.practice.passes import needed  # noqa: E402
from engine.practice.personal_limit import load_of  # noqa: E402
from engine.practice.steadiness_interval import upper_quartile  # noqa: E402
from tests.simulated_repetitions import counted  # noqa: E402

BEST = 1.0
"""Skill of the best simulated feet."""
FEET = (1, 2)
"""Seeds of the feet."""
REPETITIONS = 100
"""Repetitions of each level, as a count."""
STEP = 0.05
"""What the share is rounded to."""
OFF = 0.1
"""Furthest that a file may be off, beyond which the exit code is 1."""
LEVELS = {level.id: level for level in load_levels([SHIPPED])}


def reached(name: str, repetitions: int) -> float:
    """75 % quantile of max(x / L) of the best feet on a level."""
    level = LEVELS[name]
    passed = needed(level, list(LEVELS.values()))
    loads = [
        load_of(record.verdict.score or 0.0)
        for seed in FEET
        for record in islice(counted(level, BEST, seed, passed), repetitions // len(FEET))
    ]
    return upper_quartile(loads)


def rounded(share: float) -> float:
    """A share as a level file says it: rounded to 0.05, from 0.05 to 1."""
    return min(max(round(round(share / STEP) * STEP, 2), STEP), 1.0)


def main() -> int:
    """Print the table, a line a level; the exit code."""
    repetitions = int(sys.argv[1]) if len(sys.argv) > 1 else REPETITIONS
    is_off = False
    print(f"{'':24}reached  rounded  in the file")
    for name in sys.argv[2:] or LEVELS:
        share, written = reached(name, repetitions), LEVELS[name].reach
        off = abs(rounded(share) - written) > OFF
        is_off = is_off or off
        note = "  off" if off else ""
        print(f"{name:24}{share:7.3f}{rounded(share):9.2f}{written:13.2f}{note}", flush=True)
    return int(is_off)


if __name__ == "__main__":
    sys.exit(main())
