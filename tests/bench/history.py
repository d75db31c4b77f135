"""What a history costs in its tenth year, against its first month.

    python tests/bench/history.py [--parts weigh,game,best,copy,jobs] [--rounds N] [--months N]
        [--days N] [--levels N] [--devices N]

A month of 60 repetitions a day goes in one by one; ten years are that month over and over on later
days. `weigh` is what a repetition takes in the file, from devices that report seldom to noisy ones
that report every millisecond. `game` starts and goes on by the flow of the game itself, in a
process each, the two histories in turn: their medians and ratios. `best` finds the best repetitions
of a level, as the second hold of a reveal does. `copy` makes the day's copy in
the steps of a game: how long the game waits for all of them and for the longest, each over the
time of reading the file once. `jobs` do what reads or writes
all of it, once each, on all cores: the ratio is of the time for a repetition, so that 1 is linear.
Ten years as CSV take 30 GB for a while and some quarter of an hour; fewer `--months` do with less,
as do fewer `--days` in a month and fewer `--levels` in a day of practice; fewer `--devices` are
weighed in less time.
"""

import argparse
import os
import shutil
import sqlite3
import statistics
import sys
import tempfile
import time
from contextlib import closing
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from drills.counts import Counts  # noqa: E402
from engine.store import open_history  # noqa: E402
from engine.store.best import best_repetitions  # noqa: E402
from engine.store.history import FILE  # noqa: E402
from engine.store.repetitions import add_repetition, recent_results  # noqa: E402
from engine.store.traces import trace_of  # noqa: E402
from tests.bench.copy_timing import timed_copy  # noqa: E402
from tests.bench.game_timing import apart  # noqa: E402
from tests.bench.jobs import JOBS, cost  # noqa: E402
from tests.bench.long_histories import (  # noqa: E402
    DEVICES,
    USUAL,
    Size,
    make_month,
    make_years,
)
from tests.bench.simulated_practice import evening  # noqa: E402

ROUNDS = 15
PARTS = ("weigh", "game", "best", "copy", "jobs")


def compare(rounds: int, pasts: tuple[Path, Path], size: Size) -> None:
    """Print the table of times and memory in the game."""
    # What is still on its way to the disk would be waited for by whoever writes next.
    os.sync()
    days = size.days, size.months * size.days
    sizes = [(one / FILE).stat().st_size for one in pasts]
    counts = [size.a_day * one for one in days]
    found = [[apart(*one) for one in zip(pasts, days, strict=True)] for _ in range(rounds)]
    print(f"                  {counts[0]:10d} {counts[1]:10d} repetitions")
    for name, unit in (("home", "ms"), ("next", "ms"), ("memory", "MB")):
        one, ten = (statistics.median(pair[side][name] for pair in found) for side in (0, 1))
        print(f"{name:12s} {unit:4s} {one:10.2f} {ten:10.2f}   ratio {ten / one:.2f}, aim 1.2")
    each = [size / count for size, count in zip(sizes, counts, strict=True)]
    print(f"in the file  B    {each[0]:10.0f} {each[1]:10.0f}   a repetition, aim 3000")


def best(pasts: tuple[Path, Path]) -> None:
    """Print the time in which the best repetitions of a level are found."""
    for past in pasts:
        with open_history(past, []) as history:
            levels = {result.level for result in recent_results(history, Size.a_day)}
            took = []
            for level in sorted(levels):
                began = time.perf_counter()
                best_repetitions(history, level, None, 0, 3)
                took.append(1000 * (time.perf_counter() - began))
        print(f"best of a level  {statistics.median(took):7.1f} ms, longest {max(took):7.1f} ms")


def copy(pasts: tuple[Path, Path]) -> None:
    """Print the table of the day's copy, made in steps."""
    print("day's copy       file   read it   steps   their sum           99th percentile   longest")
    for past in pasts:
        os.sync()
        size = (past / FILE).stat().st_size / 1e6
        read, steps = timed_copy(past)
        total, tail, longest = sum(steps), sorted(steps)[len(steps) * 99 // 100], max(steps)
        print(
            f"{size:15.1f} MB {read:7.3f} s {len(steps):7d}"
            f" {total:7.2f} s, ratio {total / read:5.1f}"
            f" {1000 * tail:8.1f} ms {1000 * longest:8.1f} ms, ratio {longest / read:.3f}",
            flush=True,
        )


def work(pasts: tuple[Path, Path], size: Size) -> None:
    """Print the table of what is done with all of it."""
    counts = size.month, size.months * size.month
    left = [past.with_name(f"left of {past.name}") for past in pasts]
    for folder in left:
        folder.mkdir()
    print(f"s, MB        {counts[0]:10d} {counts[1]:10d} repetitions")
    for job in JOBS:
        os.sync()
        one, ten = (cost(job, *paths) for paths in zip(pasts, left, strict=True))
        ratio = ten.seconds / counts[1] / (one.seconds / counts[0])
        print(
            f"{job.name:12s} {one.seconds:10.2f} {ten.seconds:10.2f}   ratio {ratio:.2f}, aim 1.2,"
            f" on {ten.cores:.1f} cores; {one.memory:.0f} and {ten.memory:.0f} MB, aim 400",
            flush=True,
        )
    for folder in left:
        shutil.rmtree(folder)


def weigh(folder: Path, levels: int | None, devices: int | None) -> None:
    """Print the table of sizes: a repetition all told, its trace alone, and the time of packing."""
    print("pedals                          all told     trace   packing")
    for device in DEVICES[:devices]:
        here = folder / device.name
        day = list(evening(device, 0.5, here, levels))
        with closing(sqlite3.connect(here / FILE)) as db:
            size = db.execute("SELECT avg(length(packed)) FROM trace").fetchone()[0]
        before = (here / FILE).stat().st_size
        took = []
        with open_history(here, []) as history:
            for record in day * 3:
                add_repetition(history, record)
            for number in range(1, len(day) + 1):
                trace = trace_of(history, number)
                counts = None if trace is None else Counts.of(trace)
                if counts is None:
                    continue
                began = time.perf_counter()
                counts.pack()
                took.append(1000 * (time.perf_counter() - began))
        grown = ((here / FILE).stat().st_size - before) / (3 * len(day))
        print(f"{device.name:30s} {grown:7.0f} B {size:7.0f} B {statistics.median(took):6.1f} ms")


def main() -> None:
    """Print the tables that are asked for."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--parts", default=",".join(PARTS), help="some of: %(default)s")
    parser.add_argument("--rounds", type=int, default=ROUNDS, help="of the game (%(default)s)")
    parser.add_argument("--months", type=int, default=Size.months, help="of many (%(default)s)")
    parser.add_argument("--days", type=int, default=Size.days, help="of a month (%(default)s)")
    parser.add_argument("--levels", type=int, help="of a day of practice (all)")
    parser.add_argument("--devices", type=int, help="to weigh (all)")
    options = parser.parse_args()
    parts = options.parts.split(",")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        if "weigh" in parts:
            weigh(folder, options.levels, options.devices)
        if {"game", "best", "copy", "jobs"} & set(parts):
            pasts = folder / "month", folder / "years"
            day = list(evening(USUAL, 0.5, folder / "day", options.levels))
            size = Size(options.days, min(len(day), Size.a_day), options.months)
            make_month(pasts[0], day, size)
            make_years(*pasts, size)
            if "game" in parts:
                compare(options.rounds, pasts, size)
            if "best" in parts:
                best(pasts)
            if "copy" in parts:
                copy(pasts)
            if "jobs" in parts:
                work(pasts, size)


if __name__ == "__main__":
    main()
