"""What `stillfoot record` loses and costs, on virtual pedals beside a process that never rests.

    python tests/bench/record.py [--minutes 10] [--kills 50]

The pedals report 1000, 250 and 125 times a second and count their reports. Lost is a report that
stands in no row. Processor time is that of the thread that records. Then a recording is killed
(SIGKILL) at random moments: lost are the seconds from its last row to its end.
"""

import argparse
import json
import random
import signal
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO, Any

import numpy as np
import numpy.typing as npt

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from drills.calibration import COUNTS  # noqa: E402
from drills.recording import Format, read_recording  # noqa: E402
from drills.trace import Trace  # noqa: E402
from engine.stage.polling import PERIOD  # noqa: E402
from tests.record_process import ENDS, RATE, REPORTED, SLOWER, SPAN  # noqa: E402

Floats = npt.NDArray[np.float64]
LONG = 3600.0  # s, a recording that is killed before
EARLIEST, LATEST = 1.5, 4.0  # s from the first report to the kill
SEED = 5  # of the moments


@contextmanager
def never_at_rest() -> Iterator[None]:
    """While a process keeps one core busy."""
    busy = subprocess.Popen([sys.executable, "-c", "while True: pass"])
    try:
        yield
    finally:
        busy.kill()
        busy.wait()


def started(folder: Path, seconds: float) -> "subprocess.Popen[str]":
    """A recorder in a process of its own."""
    command = [sys.executable, str(ROOT / "tests" / "record_process.py")]
    return subprocess.Popen(
        [*command, str(folder), str(folder / "drive.csv"), f"{seconds:g}"],
        stdout=subprocess.PIPE,
        text=True,
    )


def told(stream: IO[str] | None, key: str) -> dict[str, Any]:
    """The next line of JSON that says something of this."""
    for line in stream or ():
        if line.startswith("{") and key in (found := json.loads(line)):
            return dict(found)
    raise RuntimeError(f"the recorder ended without telling of {key}")


def recorded(folder: Path) -> Trace:
    """What stands in the file."""
    return read_recording((folder / "drive.csv").read_text(), Format()).trace


def reports(percent: Floats) -> Floats:
    """The number of each report in the rows, modulo the span of an axis, without repeats."""
    raw = ENDS.rest + (ENDS.full - ENDS.rest) * percent / 100
    counts: Floats = np.rint((raw + 1) * COUNTS)
    if np.abs((raw + 1) * COUNTS - counts).max() > 1e-6:
        raise RuntimeError("a row holds no whole count")
    fresh: Floats = counts[np.append(True, np.diff(counts) != 0)]
    return fresh


def lost(percent: Floats, made: npt.NDArray[np.int64]) -> float:
    """Share of the reports made that stand in no row."""
    seen = reports(percent)
    turns = np.cumsum(np.append(False, np.diff(seen) < 0)) * SPAN
    there = np.unique(made)
    within = there[(there >= (seen + turns)[0]) & (there <= (seen + turns)[-1])]
    if not np.isin(seen + turns, there).all():
        raise RuntimeError("a row holds a report that was never made")
    return float(1 - seen.size / within.size)


def long_run(minutes: float) -> None:
    """One long recording beside a busy process."""
    with tempfile.TemporaryDirectory() as name, never_at_rest():
        folder = Path(name)
        process = started(folder, 60 * minutes)
        spent = told(process.stdout, "processor")["processor"]
        process.communicate()
        trace = recorded(folder)
        made = np.load(folder / REPORTED)
        size = (folder / "drive.csv").stat().st_size
    seconds = (trace.time[-1] - trace.time[0]) / 1e9
    gaps = np.diff(trace.time) / 1e6
    print(f"{seconds:.0f} s, exit code {process.returncode}, {size / 1e6:.1f} MB")
    print(f"processor time {100 * spent:.2f} % of a core")
    print(f"reports made {made.size / seconds:.1f} a second of {RATE:g}")
    print(f"looks {trace.time.size / seconds:.1f} a second, of {1e9 / PERIOD:g} due")
    print(
        f"between two rows {np.median(gaps):.2f} ms (median), {np.quantile(gaps, 0.99):.2f} ms "
        f"(99 %), {gaps.max():.1f} ms (longest), over 20 ms {np.mean(gaps > 20):.2e} of them"
    )
    if trace.clutch is None:
        raise RuntimeError("no clutch was recorded")
    for pedal, slower in zip((trace.brake, trace.throttle, trace.clutch), SLOWER, strict=True):
        share = lost(pedal, made // slower)
        print(f"lost of {RATE / slower:4g} reports a second: {100 * share:.3f} %")


def kill(rng: random.Random) -> float:
    """s that a recording lost which was killed."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        process = started(folder, LONG)
        began = told(process.stdout, "began")["began"] / 1e9
        time.sleep(rng.uniform(EARLIEST, LATEST))
        ended = time.monotonic()
        process.send_signal(signal.SIGKILL)
        process.communicate()
        last = began + reports(recorded(folder).brake)[-1] / RATE
    return float(ended - last)


def main() -> None:
    """Both parts."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--minutes", type=float, default=10.0)
    parser.add_argument("--kills", type=int, default=50)
    options = parser.parse_args()
    if options.minutes:
        long_run(options.minutes)
    if options.kills:
        rng = random.Random(SEED)
        gone = [kill(rng) for _ in range(options.kills)]
        print(
            f"killed {len(gone)} times: lost {statistics.median(gone):.3f} s (median), "
            f"{max(gone):.3f} s (most)"
        )


if __name__ == "__main__":
    main()
