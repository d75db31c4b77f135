"""Whole sessions by a simulated foot at faster time in a real window, from start to "done".

    python tests/bench/sessions.py [SEED [MINUTES]]

One is played in one go, one is killed at a repetition drawn by SEED and started again.
MINUTES is how long each lasts, 5 by default.
What must be true of them is printed line by line; the exit code is 1 where something is not.
"""

import sys
import tempfile
import time
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from tests.game.checks import CHECKS  # noqa: E402
from tests.game.session_run import MOMENTS, Kill, SessionRun, play_session  # noqa: E402

MINUTES = 5.0
"""Minutes a session lasts by default."""
SPEED = 5.0
"""How many times as fast as real time: reads may lie 10 ms apart where 50 ms are allowed."""
REPETITIONS = (3, 30)
"""First repetition in which the program may be killed, and the first in which it may not."""
SEED = 1
"""Seed of the kill by default."""


def show(title: str, run: SessionRun, took: float) -> bool:
    """Print the checks of a session; returns whether all of them hold."""
    left, results = run.session.left, run.session.results
    print(
        f"\n{title}: {len(results)} repetitions, {len(run.counting)} count, "
        f"{sum(result.clean for result in run.counting)} clean; "
        f"{60 * run.minutes - left:.1f} s of {60 * run.minutes:g} in {took:.0f} s"
    )
    well = True
    for check in CHECKS:
        faults = list(check(run))
        well = well and not faults
        print(f"  {'wrong' if faults else 'true '}  {check.__doc__}")
        for line in faults:
            print(f"           {line}")
    return well


def main() -> int:
    """Play both sessions and print their checks; returns the exit code."""
    rng = np.random.default_rng(int(sys.argv[1]) if len(sys.argv) > 1 else SEED)
    minutes = float(sys.argv[2]) if len(sys.argv) > 2 else MINUTES
    first, last = REPETITIONS
    last = first + 1 + round((last - first - 1) * minutes / MINUTES)
    kill = Kill(int(rng.integers(first, last)), int(rng.integers(len(MOMENTS))))
    killed = f"killed in repetition {kill.repetition}, at {MOMENTS[kill.moment]}"
    well = []
    for title, when in (("in one go", None), (killed, kill)):
        with tempfile.TemporaryDirectory() as folder:
            began = time.monotonic()
            run = play_session(Path(folder), minutes, SPEED, when)
            well.append(show(title, run, time.monotonic() - began))
    return 0 if all(well) else 1


if __name__ == "__main__":
    sys.exit(main())
