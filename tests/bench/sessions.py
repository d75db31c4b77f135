"""Whole five minutes by a simulated foot at faster time in a real window, from start to "done".

    python tests/bench/sessions.py [SEED [MINUTES]]

They are played once in one go, and once killed at a repetition drawn by SEED and started again.
MINUTES is how long they last, 5 unless told otherwise.
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
from tests.game.session_run import MOMENTS, Kill, Sat, sit_down  # noqa: E402

MINUTES = 5.0
SPEED = 5.0  # times as fast: 10 ms may pass between two looks at the pedals, where 50 may
REPETITIONS = (3, 30)  # the first that it may be killed in, and the first that it may not
SEED = 1


def show(named: str, sat: Sat, took: float) -> bool:
    """Print what was checked of one; whether all of it is true."""
    left, results = sat.session.left, sat.session.results
    print(
        f"\n{named}: {len(results)} repetitions, {len(sat.counting)} count, "
        f"{sum(one.clean for one in sat.counting)} clean; "
        f"{60 * sat.minutes - left:.1f} s of {60 * sat.minutes:g} in {took:.0f} s"
    )
    well = True
    for check in CHECKS:
        wrong = list(check(sat))
        well = well and not wrong
        print(f"  {'wrong' if wrong else 'true '}  {check.__doc__}")
        for line in wrong:
            print(f"           {line}")
    return well


def main() -> int:
    """Play both, and print what is true of them."""
    rng = np.random.default_rng(int(sys.argv[1]) if len(sys.argv) > 1 else SEED)
    minutes = float(sys.argv[2]) if len(sys.argv) > 2 else MINUTES
    first, last = REPETITIONS
    last = first + 1 + round((last - first - 1) * minutes / MINUTES)
    kill = Kill(int(rng.integers(first, last)), int(rng.integers(len(MOMENTS))))
    killed = f"killed in repetition {kill.repetition}, at {MOMENTS[kill.moment]}"
    well = []
    for named, when in (("in one go", None), (killed, kill)):
        with tempfile.TemporaryDirectory() as folder:
            began = time.monotonic()
            sat = sit_down(Path(folder), minutes, SPEED, when)
            well.append(show(named, sat, time.monotonic() - began))
    return 0 if all(well) else 1


if __name__ == "__main__":
    sys.exit(main())
