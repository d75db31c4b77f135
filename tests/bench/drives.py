"""Blips missed and falsely found in drives of feet that press both pedals at once.

    python tests/bench/drives.py [DRIVES [MINUTES]]

A line a habit: left-foot braking, brake and throttle overlapping on straights, upshifts without
throttle, coasting, throttle to balance the car at the end of braking, and pauses. The figures are
of one drive of MINUTES (10) on average over DRIVES (4): false ones, those of them that are scored
and so enter the typical dip, and the share of drives whose long blips are warned of.
"""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from drills.measures.long_blips import long_blips_warning  # noqa: E402
from drills.measures.runs import measure_recording  # noqa: E402
from tests.drills.measures.drive import Drive, drive  # noqa: E402
from tests.drills.measures.feet import CLOSE, HABITS, habitual, paused  # noqa: E402
from tests.drills.measures.test_trail import against_the_chord  # noqa: E402

DRIVES = 4
MINUTES = 10.0
RATES = (333, 60)
"""Samples a second: about what `stillfoot record` writes, and what many simulators write."""

PAUSES = {"pause, no rows": False, "pause, at rest": True}
"""Whether the recording goes on in pauses, by the name in the table."""
NAMES = ("none", *HABITS, *PAUSES)
"""Names of the habits, in the order of the table."""


def main() -> None:
    """Print the table."""
    drives = int(sys.argv[1]) if len(sys.argv) > 1 else DRIVES
    minutes = float(sys.argv[2]) if len(sys.argv) > 2 else MINUTES
    print("habit           rate   blips   scored   error   missed   false  scored   told")
    for rate in RATES:
        for name in NAMES:
            made = [_drive(name, 100 + number, minutes, rate) for number in range(drives)]
            print(_row(name, rate, made), flush=True)


def _drive(name: str, seed: int, minutes: float, rate: int) -> Drive:
    """One made-up drive of a foot with the habit of this name."""
    if name in HABITS:
        return habitual(HABITS[name], seed, minutes, rate)
    if name in PAUSES:
        return paused(seed, minutes, rate, rows=PAUSES[name])
    return drive(seed, minutes, rate)


def _row(name: str, rate: int, made: list[Drive]) -> str:
    found = [against_the_chord(one, CLOSE) for one in made]
    mean = {
        what: float(np.mean([getattr(one, what) for one in found]))
        for what in ("scored", "error", "missed", "false", "false_scored")
    }
    told = float(np.mean([_is_told(one) for one in made]))
    blips = float(np.mean([one.onsets.size for one in made]))
    return (
        f"{name:15s} {rate:4d} {blips:7.1f} {mean['scored']:8.1f} {mean['error']:7.2f}"
        f" {mean['missed']:8.2f} {mean['false']:7.2f} {mean['false_scored']:7.2f} {told:6.0%}"
    )


def _is_told(made: Drive) -> bool:
    """Whether a drive is warned of for its long blips."""
    pulses = [pulse for run in measure_recording(made.trace) for pulse, _ in run.blips]
    return long_blips_warning(pulses) is not None


if __name__ == "__main__":
    main()
