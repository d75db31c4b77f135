"""What a history costs in its tenth year, against its first month.

    python tests/bench/history.py [rounds]

A month of 60 repetitions a day goes in one by one; ten years are that month over and over on later
days. Opening and going on are timed in a process each, the two histories in turn; their middles and
ratios are printed. Then what a repetition takes in the file, from quiet pedals to noisy ones.
"""

import json
import os
import resource
import shutil
import sqlite3
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from math import log2
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from drills.foot import Foot  # noqa: E402
from drills.kinds import KINDS  # noqa: E402
from drills.level import Level  # noqa: E402
from drills.measures.sampling import measure_sampling  # noqa: E402
from drills.repetition import OVER, Phase, Repetition  # noqa: E402
from drills.trace import STEP  # noqa: E402
from engine.levels import SHIPPED, load_levels  # noqa: E402
from engine.pedals.calibration import COUNTS, UNIT, Calibration, Range  # noqa: E402
from engine.pedals.port import CalibratedPedals, Reading  # noqa: E402
from engine.store import History, Record  # noqa: E402
from engine.store.history import FILE  # noqa: E402

ROUNDS = 15
A_DAY = 60  # repetitions
DAYS = 30  # in the month
MONTHS = 122  # in ten years: 219,600 repetitions
ADDED = 20  # repetitions that each timed process adds
FIRST = datetime(2014, 1, 1, 18, tzinfo=UTC)
WIDE = Calibration(Range(-0.945, 0.885), Range(-0.945, 0.885))


class Converter:
    """A foot on pedals whose device gives whole counts, each read with a noise of its own."""

    name = "bench"
    is_feet = True

    def __init__(self, foot: Foot, step: int, noise: int, scale: Calibration) -> None:
        """`step` is counts in one step of the converter, `noise` the most counts of it."""
        self._foot = foot
        self._step, self._noise, self._scale = step, noise, scale
        self._rng = np.random.default_rng(5)
        self._smooth = [0.0, 0.0]
        self.now = 0

    def read(self) -> Reading:
        """The next millisecond."""
        self.now += STEP
        brake, throttle = self._foot.step()
        if self._noise:
            # At this resolution the wander of the foot, a new push each ms, would drown the noise:
            # two lags of 20 Hz leave what a leg of some weight does.
            self._smooth[0] += 0.118 * (brake - self._smooth[0])
            self._smooth[1] += 0.118 * (self._smooth[0] - self._smooth[1])
            brake = self._smooth[1]
        scale = self._scale
        return Reading(
            self.now,
            self._count(scale.brake.raw(brake)) / COUNTS,
            self._count(scale.throttle.raw(throttle)) / COUNTS,
        )

    def _count(self, raw: float) -> int:
        noise = int(self._rng.integers(-self._noise, self._noise + 1)) if self._noise else 0
        return round(raw * COUNTS / self._step) * self._step + noise


def repetitions(
    skill: float, step: int, noise: int, scale: Calibration, count: int = A_DAY
) -> Iterator[Record]:
    """Repetitions of every level in turn."""
    levels = load_levels([SHIPPED])
    rng = np.random.default_rng(3)
    foot = Foot(skill, 3)
    pedals = Converter(foot, step, noise, scale)
    feet = CalibratedPedals(pedals, scale)
    for number in range(count):
        level = levels[number % len(levels)]
        yield _repetition(level, foot, pedals, feet, rng)
        foot.press(0.0)
        for _ in range(1000):
            pedals.read()


def _repetition(
    level: Level, foot: Foot, pedals: Converter, feet: CalibratedPedals, rng: np.random.Generator
) -> Record:
    task = KINDS[level.kind].task(level, level.targets[0], rng)
    under_way = Repetition(task, pedals.now)
    foot.press(task.target)
    while under_way.phase not in OVER:
        sample = feet.sample()
        assert sample is not None
        if under_way.feed(sample) is Phase.CUE:
            foot.blip()
    done = under_way.performance()
    assert done is not None
    assert under_way.measured_from is not None
    return Record(
        level=level.id,
        kind=level.kind,
        source="pedals",
        at=FIRST,
        target=task.target,
        tolerance=level.tolerance,
        verdict=KINDS[level.kind].judge(level, task, done),
        trace=done.trace,
        dark=done.dark,
        cues=done.cues,
        sampling=measure_sampling(done.trace, under_way.measured_from),
        calibration=feet.calibration,
        rule=level.rule,
    )


def make_month(folder: Path, day: list[Record], days: int = DAYS) -> None:
    """The same day of practice on so many days."""
    with History(folder) as history:
        for number in range(days * len(day)):
            at = FIRST + timedelta(days=number // len(day), seconds=number % len(day))
            history.add(replace(day[number % len(day)], at=at))


def make_decade(month: Path, folder: Path) -> None:
    """The month over and over, each time 30 days later."""
    folder.mkdir()
    shutil.copy(month / FILE, folder / FILE)
    with closing(sqlite3.connect(folder / FILE, isolation_level=None)) as db:
        columns = [row[1] for row in db.execute("PRAGMA table_info(repetition)")]
        later = ", ".join(
            {
                "id": "id + :by",
                "at_utc": "strftime('%Y-%m-%dT%H:%M:%f+00:00', at_utc, :days)",
            }.get(name, name)
            for name in columns
        )
        size = DAYS * A_DAY
        db.execute("BEGIN")
        for again in range(1, MONTHS):
            shift = {"by": again * size, "days": f"+{again * DAYS} days", "size": size}
            for table, chosen, key in [
                ("repetition", later, "id"),
                ("measure", "repetition + :by, name, value", "repetition"),
                ("trace", "repetition + :by, calibration, packed", "repetition"),
            ]:
                db.execute(
                    f"INSERT INTO {table} SELECT {chosen} FROM {table} WHERE {key} <= :size", shift
                )
        db.execute("COMMIT")
    with History(folder) as history:
        history.rebuild()


def timed(folder: Path, record: Record) -> dict[str, float]:
    """Time to home, from a verdict to the next repetition in all and without the disk (ms), and
    peak memory (MB).
    """
    levels = [level.id for level in load_levels([SHIPPED])]
    began = time.perf_counter()
    with History(folder) as history:
        history.standing(record.at.date())
        history.passed()
        for level in levels:
            history.level_standing(level)
        home = time.perf_counter() - began
        going_on = []
        worked = time.process_time()
        for _ in range(ADDED):
            began = time.perf_counter()
            history.add(record)
            history.standing(record.at.date())
            history.level_standing(record.level)
            history.passed()
            going_on.append(time.perf_counter() - began)
        worked = (time.process_time() - worked) / ADDED
    return {
        "home": 1000 * home,
        "next": 1000 * statistics.median(going_on),
        "next, work": 1000 * worked,
        "memory": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
    }


def apart(folder: Path, days: int) -> dict[str, float]:
    """What `timed` finds in a process of its own, on the day after the last."""
    command = [sys.executable, __file__, "timed", str(folder), str(days)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True)
    found: dict[str, float] = json.loads(done.stdout)
    return found


def compare(rounds: int, folder: Path) -> None:
    """Print the table of times and memory."""
    month, decade = folder / "month", folder / "decade"
    began = time.perf_counter()
    make_month(month, list(repetitions(0.5, 8, 0, UNIT)))
    make_decade(month, decade)
    print(f"made in {time.perf_counter() - began:.0f} s")
    with History(month) as history:
        traces = [history.raw_trace(number) for number in range(1, A_DAY + 1)]
        assert None not in traces
    # What is still on its way to the disk would be waited for by whoever writes next.
    os.sync()
    sizes = [(one / FILE).stat().st_size for one in (month, decade)]
    counts = (DAYS * A_DAY, MONTHS * DAYS * A_DAY)
    found = [(apart(month, DAYS), apart(decade, MONTHS * DAYS)) for _ in range(rounds)]
    print(f"                    {counts[0]:8d}   {counts[1]:8d} repetitions")
    for name, unit in (("home", "ms"), ("next", "ms"), ("next, work", "ms"), ("memory", "MB")):
        one, ten = (statistics.median(pair[side][name] for pair in found) for side in (0, 1))
        print(f"{name:12s} {unit:4s} {one:10.2f} {ten:10.2f}   ratio {ten / one:.2f}, aim 1.2")
    each = [size / count for size, count in zip(sizes, counts, strict=True)]
    print(f"in the file  B    {each[0]:10.0f} {each[1]:10.0f}   a repetition, aim 3000")


def weigh(folder: Path) -> None:
    """Print the table of sizes: what one more repetition takes, all told, and its trace alone."""
    print("pedals                         points   all told   trace   the noise alone   packing")
    for name, skill, step, noise, scale in (
        ("12 bits, a beginner", 0.0, 8, 0, UNIT),
        ("12 bits, halfway", 0.5, 8, 0, UNIT),
        ("12 bits, an expert", 1.0, 8, 0, UNIT),
        ("16 bits, +-2 counts", 0.5, 1, 2, WIDE),
        ("16 bits, +-4 counts", 0.5, 1, 4, WIDE),
        ("16 bits, +-6 counts", 0.5, 1, 6, WIDE),
    ):
        day = list(repetitions(skill, step, noise, scale))
        here = folder / name
        make_month(here, day, 1)
        before = (here / FILE).stat().st_size
        make_month(here, day, 5)
        grown = ((here / FILE).stat().st_size - before) / (5 * len(day))
        with closing(sqlite3.connect(here / FILE)) as db:
            trace = db.execute("SELECT avg(length(packed)) FROM trace").fetchone()[0]
        with History(here) as history:
            raws = [history.raw_trace(number) for number in range(1, len(day) + 1)]
        counts = [raw.counts for raw in raws if raw is not None]
        points = statistics.mean(one.brake.size for one in counts)
        took = []
        for one in counts:
            began = time.perf_counter()
            one.pack()
            took.append(1000 * (time.perf_counter() - began))
        floor = 2 * points * log2(2 * noise + 1) / 8
        print(
            f"{name:30s} {points:6.0f} {grown:8.0f} B {trace:5.0f} B {floor:15.0f} B"
            f" {statistics.median(took):6.1f} ms"
        )


def main() -> None:
    """Print the tables, or be one timed process."""
    if sys.argv[1:2] == ["timed"]:
        day = FIRST + timedelta(days=int(sys.argv[3]))
        record = replace(next(repetitions(0.5, 8, 0, UNIT, 1)), at=day)
        print(json.dumps(timed(Path(sys.argv[2]), record)))
        return
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS
    with tempfile.TemporaryDirectory() as name:
        weigh(Path(name))
        compare(rounds, Path(name))


if __name__ == "__main__":
    main()
