"""Days of play, each in a process and on a screen of its own, side by side with other tests."""

import shutil
import subprocess
import sys
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from tests.game.kinds import KINDS, MIXED
from tests.game.sat import Kill, Sat, sit_down
from tests.screen import virtual_display

ROOT = Path(__file__).resolve().parents[2]
SIDE_BY_SIDE = 2  # more of them would keep each other from reading their pedals in time
LONGEST = 150.0  # s, for one script on a busy machine
SITTING = (1.5, 5.0)  # min it lasts, and times as fast; tests/bench/sitting.py plays whole ones
KILL = Kill(repetition=6, moment=0)  # in the dark, about where the steadiness band is tracked

LEVEL = """
id = "three-blips"
title = "Three blips"
purpose = "A short level for the tests."
kind = "blip"
targets = [60]
tolerance = 15
aid = "bubble"
repetitions = 3
foreperiod = { shift = 1.0, mean = 0.2, cut = 0.5 }

[limits]
dip = 15
surge = 15
"""


@dataclass(frozen=True)
class Day:
    """A day of play that has ended."""

    ended: subprocess.CompletedProcess[str]
    """The process."""
    data: Path
    """The data folder."""
    events: Path
    """The events file."""
    driver: str
    """SDL's video driver it was played on; empty for the usual one."""


class Plays:
    """Starts the days, two at a time; one that goes on from another comes after it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._pool = ThreadPoolExecutor(max_workers=SIDE_BY_SIDE)
        self._days: dict[str, Future[Day]] = {}
        self._start("every_kind")
        self._start("first_day", "inverted")
        self._start("two_twins")
        self._start("mouse_and_keys")
        self._days["demo"] = self._pool.submit(self._demo)
        self._start("another_window", "inverted", after="first_day")
        self._start("unplugged", "inverted", after="first_day")
        self._start("next_day", "inverted", after="first_day")
        self._start("one_twin_missing", after="two_twins")
        self._sitting = self._pool.submit(sit_down, self.folder / "sitting", *SITTING, KILL)

    def day(self, name: str) -> Day:
        """A day, once it has ended."""
        return self._days[name].result()

    def sitting(self) -> Sat:
        """Five minutes, or rather fewer, killed in the middle and started again."""
        return self._sitting.result()

    def close(self) -> None:
        """Wait for those under way and start no more."""
        self._pool.shutdown(cancel_futures=True)

    def _start(self, name: str, *more: str, after: str | None = None) -> None:
        before = None if after is None else self._days[after]
        self._days[name] = self._pool.submit(self._play, name, more, before)

    def _play(self, name: str, more: tuple[str, ...], before: Future[Day] | None) -> Day:
        data = self.folder / name / "data"
        if before is None:
            (data / "levels").mkdir(parents=True)
            (data / "levels" / "three.toml").write_text(LEVEL, encoding="utf-8")
            (data / "levels" / "mixed.toml").write_text(MIXED, encoding="utf-8")
            for scripted in KINDS:
                scripted.write(data / "levels")
        else:
            shutil.copytree(before.result().data, data)
        events = self.folder / name / "events.jsonl"
        command = ["-m", "tests.game.scripts", name, str(data), str(events), *more]
        return _run(command, data, events)

    def _demo(self) -> Day:
        folder = self.folder / "demo"
        folder.mkdir()
        events = folder / "events.jsonl"
        command = ["-m", "engine", "demo", "--reps", "1", "--events", str(events)]
        return _run(command, folder / "usual", events)


def _run(command: list[str], data: Path, events: Path) -> Day:
    with virtual_display() as environment:
        ended = subprocess.run(
            [sys.executable, *command],
            env=environment | {"STILLFOOT_DATA": str(data)},
            cwd=ROOT,
            capture_output=True,
            text=True,
            timeout=LONGEST,
            check=False,
        )
    return Day(ended, data, events, environment.get("SDL_VIDEODRIVER", ""))
