"""What a history costs in its tenth year, against its first month.

    python tests/bench/history.py [rounds]

A month of 60 repetitions a day goes in one by one; ten years are that month over and over on later
days. Starting and going on run the flow of the game itself, in a process each, the two histories in
turn; their middles and ratios are printed. Then what a repetition takes in the file, from devices
that report seldom to noisy ones that report every millisecond.
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
from contextlib import closing
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from engine.flow.demonstration import Demonstration  # noqa: E402
from engine.flow.game import Offer, play  # noqa: E402
from engine.levels import load_band  # noqa: E402
from engine.pedals.calibration import Calibration, Range  # noqa: E402
from engine.pedals.rig import Rig  # noqa: E402
from engine.pedals.sdl import Devices  # noqa: E402
from engine.stage.actions import Action  # noqa: E402
from engine.stage.events import Events  # noqa: E402
from engine.stage.headless import ManualClock, NoLights  # noqa: E402
from engine.stage.scene import Attended  # noqa: E402
from engine.stage.speaker import Silence  # noqa: E402
from engine.stage.stage import Stage  # noqa: E402
from engine.store import History, Record  # noqa: E402
from engine.store.history import FILE  # noqa: E402
from tests.bench.evening import FIRST, LEVELS, Device, evening  # noqa: E402
from tests.engine.pedals.joysticks import FakeJoysticks  # noqa: E402

ROUNDS = 15
A_DAY = 60  # repetitions
DAYS = 30  # in the month
MONTHS = 122  # in ten years: 219,600 repetitions
ADDED = 10  # repetitions that each timed process plays

WIDE = Calibration(Range(-0.945, 0.885), Range(-0.945, 0.885))
USUAL = Device("12 bits, 1000 Hz", 8, 0.0, 1)
DEVICES = (
    Device("12 bits, 125 Hz, noise 1", 8, 1.0, 8),
    Device("12 bits, 250 Hz, noise 1", 8, 1.0, 4),
    USUAL,
    Device("12 bits, 1000 Hz, noise 0.5", 8, 0.5, 1),
    Device("16 bits, 250 Hz, noise 4", 1, 4.0, 4, WIDE),
    Device("16 bits, 1000 Hz, noise 4", 1, 4.0, 1, WIDE),
)


def make_month(folder: Path, day: list[Record]) -> None:
    """The same day of practice on so many days."""
    with History(folder) as history:
        history.keep_setting("cautions read", True)
        for number in range(DAYS * A_DAY):
            at = FIRST + timedelta(days=number // A_DAY, seconds=number % A_DAY)
            history.add(replace(day[number % A_DAY], at=at))


def make_decade(month: Path, folder: Path) -> None:
    """The month over and over, each time 30 days later."""
    folder.mkdir()
    shutil.copy(month / FILE, folder / FILE)
    with closing(sqlite3.connect(folder / FILE, isolation_level=None)) as db:
        columns = [row[1] for row in db.execute("PRAGMA table_info(repetition)")]
        changed = {
            "id": "id + :by",
            "at_utc": "strftime('%Y-%m-%dT%H:%M:%f+00:00', at_utc, :days)",
        }
        later = ", ".join(changed.get(name, name) for name in columns)
        tables = [
            ("repetition", later, "id"),
            ("measure", "repetition + :by, name, value", "repetition"),
            ("trace", "repetition + :by, calibration, packed", "repetition"),
        ]
        size = DAYS * A_DAY
        db.execute("BEGIN")
        for again in range(1, MONTHS):
            shift = {"by": again * size, "days": f"+{again * DAYS} days", "size": size}
            for table, chosen, key in tables:
                db.execute(
                    f"INSERT INTO {table} SELECT {chosen} FROM {table} WHERE {key} <= :size", shift
                )
        db.execute("COMMIT")
    with History(folder) as history:
        history.rebuild()


def timed(folder: Path, days: int) -> dict[str, float]:
    """Time to home and from a verdict to the next repetition (ms), and peak memory (MB)."""
    clock, today = ManualClock(), FIRST + timedelta(days=days)
    rig = Rig(clock, Devices(FakeJoysticks()))
    stage = Stage(NoLights(), Silence(), Events(None, clock))
    offer = Offer(LEVELS, load_band(), Demonstration(LEVELS[0], 1, 1, 0.5))
    going_on: list[float] = []
    began = time.perf_counter()
    with History(folder) as history:
        rng = np.random.default_rng(1)
        playing = play(rig, stage, history, offer, rng, lambda: today)
        choose(next(playing).screen, "Try with the mouse")
        home = next(playing).screen
        to_home = time.perf_counter() - began
        home.on_action(Action.GO)
        scene = next(playing)
        while len(going_on) < ADDED:
            while scene.screen.outcome is None:
                clock.advance(1_000_000)
                scene.screen.on_sample(rig.sample(), clock())
            began = time.perf_counter()
            scene = next(playing)
            if scene.screen.name == "reveal":
                scene.screen.on_action(Action.GO)
                scene = next(playing)
            going_on.append(time.perf_counter() - began)
        playing.close()
    return {
        "home": 1000 * to_home,
        "next": 1000 * statistics.median(going_on),
        "memory": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
    }


def choose(screen: Attended, label: str) -> None:
    """Choose by the label."""
    labels = screen.details()["choices"]
    assert isinstance(labels, list)
    for _ in range(labels.index(label)):
        screen.on_action(Action.NEXT)
    screen.on_action(Action.GO)


def apart(folder: Path, days: int) -> dict[str, float]:
    """What `timed` finds in a process of its own, on the day after the last."""
    command = [sys.executable, __file__, "timed", str(folder), str(days)]
    quiet = os.environ | {"PYGAME_HIDE_SUPPORT_PROMPT": "1"}
    done = subprocess.run(command, cwd=ROOT, env=quiet, capture_output=True, text=True, check=True)
    found: dict[str, float] = json.loads(done.stdout)
    return found


def compare(rounds: int, folder: Path) -> None:
    """Print the table of times and memory."""
    month, decade = folder / "month", folder / "decade"
    make_month(month, list(evening(USUAL, 0.5, folder / "day")))
    make_decade(month, decade)
    # What is still on its way to the disk would be waited for by whoever writes next.
    os.sync()
    sizes = [(one / FILE).stat().st_size for one in (month, decade)]
    counts = (DAYS * A_DAY, MONTHS * DAYS * A_DAY)
    found = [(apart(month, DAYS), apart(decade, MONTHS * DAYS)) for _ in range(rounds)]
    print(f"                  {counts[0]:10d} {counts[1]:10d} repetitions")
    for name, unit in (("home", "ms"), ("next", "ms"), ("memory", "MB")):
        one, ten = (statistics.median(pair[side][name] for pair in found) for side in (0, 1))
        print(f"{name:12s} {unit:4s} {one:10.2f} {ten:10.2f}   ratio {ten / one:.2f}, aim 1.2")
    each = [size / count for size, count in zip(sizes, counts, strict=True)]
    print(f"in the file  B    {each[0]:10.0f} {each[1]:10.0f}   a repetition, aim 3000")


def weigh(folder: Path) -> None:
    """Print the table of sizes: a repetition all told, its trace alone, and the time of packing."""
    print("pedals                          all told     trace   packing")
    for device in DEVICES:
        here = folder / device.name
        day = list(evening(device, 0.5, here))
        with closing(sqlite3.connect(here / FILE)) as db:
            trace = db.execute("SELECT avg(length(packed)) FROM trace").fetchone()[0]
        before = (here / FILE).stat().st_size
        took = []
        with History(here) as history:
            for record in day * 3:
                history.add(record)
            for number in range(1, len(day) + 1):
                raw = history.raw_trace(number)
                if raw is None:
                    continue
                began = time.perf_counter()
                raw.counts.pack()
                took.append(1000 * (time.perf_counter() - began))
        grown = ((here / FILE).stat().st_size - before) / (3 * len(day))
        print(f"{device.name:30s} {grown:7.0f} B {trace:7.0f} B {statistics.median(took):6.1f} ms")


def main() -> None:
    """Print the tables, or be one timed process."""
    if sys.argv[1:2] == ["timed"]:
        print(json.dumps(timed(Path(sys.argv[2]), int(sys.argv[3]))))
        return
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS
    with tempfile.TemporaryDirectory() as name:
        weigh(Path(name))
        compare(rounds, Path(name))


if __name__ == "__main__":
    main()
