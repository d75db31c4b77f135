"""How well the dip of a blip is found while the brake eases off, against chord and held brake.

    python tests/bench/trail.py [DRIVES [MINUTES]]

Six made-up drives of ten minutes whose dips are known, for each rate of reading a line; then runs
of quick blips 0.3 to 0.5 s apart, and drives over kerbs that shake the pedals.
"""

from __future__ import annotations

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from tests.drills.measures.drive import CLOSE, Drive, drive  # noqa: E402
from tests.drills.measures.kerbs import CLEAR, over_kerbs  # noqa: E402
from tests.drills.measures.test_trail import against_the_chord, against_what_was_held  # noqa: E402

DRIVES = 6
MINUTES = 10
RECORDED = 333
"""Samples a second of a drive that `stillfoot record` wrote, about."""


def main() -> None:
    """Print the table."""
    drives = int(sys.argv[1]) if len(sys.argv) > 1 else DRIVES
    minutes = int(sys.argv[2]) if len(sys.argv) > 2 else MINUTES
    print("rate   blips  chord: scored  error  missed  false   held: scored  error  missed  false")
    seeds = range(100, 100 + drives)
    for rate in (1000, 500, 250, 125, 100):
        print(_row(f"{rate:4d}", [drive(seed, minutes, rate) for seed in seeds]))
    print(_row("close", [drive(seed, minutes, RECORDED, blips=CLOSE) for seed in seeds]))
    smooth = [drive(seed, minutes, RECORDED) for seed in seeds]
    print(_row("kerbs", [over_kerbs(one, CLEAR, seed) for seed, one in enumerate(smooth)]))


def _row(label: str, made: list[Drive]) -> str:
    """Row of the table: how well the dips of some drives are found."""
    cells = [f"{label:5s} {sum(one.onsets.size for one in made):6d}"]
    for measure in (against_the_chord, against_what_was_held):
        found = [measure(one) for one in made]
        scored = sum(one.scored for one in found)
        error = (sum(one.error**2 * one.scored for one in found) / scored) ** 0.5
        missed, false = (sum(getattr(one, name) for one in found) for name in ("missed", "false"))
        cells.append(f"{scored:13d} {error:6.2f} {missed:7d} {false:6d}")
    return "  ".join(cells)


if __name__ == "__main__":
    main()
