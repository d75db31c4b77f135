"""How well the dip of a blip is found while the brake eases off, against chord and held brake.

    python tests/bench/trail.py [DRIVES [MINUTES]]

Six made-up drives of ten minutes whose dips are known, for each rate of reading a line.
"""

from __future__ import annotations

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from tests.drills.measures.drive import drive  # noqa: E402
from tests.drills.measures.test_trail import against_the_chord, against_what_was_held  # noqa: E402

DRIVES = 6
MINUTES = 10


def main() -> None:
    """Print the table."""
    drives = int(sys.argv[1]) if len(sys.argv) > 1 else DRIVES
    minutes = int(sys.argv[2]) if len(sys.argv) > 2 else MINUTES
    print("rate   blips  chord: scored  error  missed  false   held: scored  error  missed  false")
    for rate in (1000, 500, 250, 125, 100):
        made = [drive(100 + k, minutes, rate) for k in range(drives)]
        count = sum(one.onsets.size for one in made)
        cells = [f"{rate:4d}  {count:6d}"]
        for measure in (against_the_chord, against_what_was_held):
            found = [measure(one) for one in made]
            scored = sum(one.scored for one in found)
            error = (sum(one.error**2 * one.scored for one in found) / scored) ** 0.5
            missed, false = (
                sum(getattr(one, name) for one in found) for name in ("missed", "false")
            )
            cells.append(f"{scored:14d} {error:6.2f} {missed:7d} {false:6d}")
        print("  ".join(cells))


if __name__ == "__main__":
    main()
