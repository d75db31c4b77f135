"""Braking zones of the simulated foot: how it fares at three skills, part by part.

    python tests/bench/zone_feet.py [LEVEL.toml] [--zones N]

Prints the share that is clean and the 5, 50 and 95 % quantiles of each measure. An expert's dip,
timing and line errors must be small, and a beginner's not.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from itertools import islice
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from drills.kinds import KINDS  # noqa: E402
from drills.level_file import parse_level  # noqa: E402
from tests.judged_play import judged_play  # noqa: E402
from tests.made_zone import ZONE  # noqa: E402

SKILLS = (0.0, 0.5, 1.0)
SEED = 7
MEASURES = (
    *("brake_on", "rise", "peak_error", "line_error", "line_worst", "line_lag", "reversals"),
    *("dip", "surge", "lateness", "off_at", "extra_distance"),
)


def main() -> None:
    """Play the zones and print the tables."""
    parser = argparse.ArgumentParser(description="Play braking zones with the simulated foot.")
    parser.add_argument("level", nargs="?", type=Path, help="level file of the kind zone")
    parser.add_argument("--zones", type=int, default=200, help="number of zones at each skill")
    options = parser.parse_args()
    level = ZONE
    if options.level is not None:
        text = options.level.read_text("utf-8")
        level = parse_level(text, str(options.level), KINDS, "bench")
    print(level.kind.asks(level))
    for skill in SKILLS:
        verdicts = [one.verdict for one in islice(judged_play(level, skill, SEED), options.zones)]
        reasons = Counter(verdict.reason.value for verdict in verdicts)
        clean = sum(verdict.clean for verdict in verdicts)
        print(f"\nskill {skill:g}, seed {SEED}: {clean} clean of {len(verdicts)}; {dict(reasons)}")
        for name in MEASURES:
            found = [v for one in verdicts if (v := one.measures.get(name)) is not None]
            if found:
                low, middle, high = np.quantile(found, (0.05, 0.5, 0.95))
                row = f"{low:9.3f}{middle:9.3f}{high:9.3f}"
                print(f"  {name:16}{row}   of {len(found)}")


if __name__ == "__main__":
    main()
