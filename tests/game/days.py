"""Days of play, each in a process and on a screen of its own, side by side with other tests."""

import json
import shutil
import subprocess
import sys
from collections.abc import Mapping, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.game.kinds import KINDS, MIXED
from tests.game.session_run import Kill, Sat, sit_down
from tests.screen import virtual_display
from tests.waiting import EventTail

ROOT = Path(__file__).resolve().parents[2]
SIDE_BY_SIDE = 2  # more of them would keep each other from reading their pedals in time
LONGEST = 900.0
"""Seconds one script may take: a safety net that a busy machine does not need."""
MINUTES = 1.5
"""Minutes the session lasts; tests/bench/sessions.py plays whole ones."""
SPEEDS = (5.0, 2.5, 1.25)
"""How many times as fast the session is played: the next slower one where too much is lost."""
MOST_LOST = 0.1
"""Share of the repetitions of a session that may be lost to gaps between reads."""
KILL = Kill(repetition=6, moment=0)
"""In the dark, about where the steadiness band is tracked."""
DEMOS = 5
"""Times a demonstration is played at most, until its one repetition counts."""
TAIL = 30
"""Number of events that are shown of a day that failed, the newest ones."""

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
class Fault:
    """Why a day, and each day that goes on from it, cannot be tested."""

    day: str
    """Name of the day that failed."""
    wrote: str
    """Everything the program wrote, and the newest events."""


@dataclass(frozen=True)
class Day:
    """A day of play that has ended."""

    name: str
    """Name of its script."""
    data: Path
    """The data folder."""
    events: Path
    """The events file."""
    driver: str = ""
    """SDL's video driver it was played on; empty for the usual one."""
    fault: Fault | None = None
    """What went wrong; None where the program ended by itself, with 0 and without a complaint."""


class Plays:
    """Starts the days, two at a time; one that goes on from another comes after it.

    One cause, one red test: the first test that asks for a day that failed fails with all that the
    program wrote, and the others are skipped.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._pool = ThreadPoolExecutor(max_workers=SIDE_BY_SIDE)
        self._days: dict[str, Future[Day]] = {}
        self._reported: set[str] = set()
        self._start("every_kind")
        self._start("first_day", "inverted")
        self._start("two_twins")
        self._start("mouse_and_keys")
        self._days["demo"] = self._pool.submit(self._demo)
        self._start("another_window", "inverted", after="first_day")
        self._start("unplugged", "inverted", after="first_day")
        self._start("next_day", "inverted", after="first_day")
        self._start("one_twin_missing", after="two_twins")
        self._sitting = self._pool.submit(self._sit_down)

    def day(self, name: str) -> Day:
        """A day, once it has ended well."""
        day = self._days[name].result()
        self._refuse(day.fault)
        return day

    def session(self) -> Sat:
        """Five minutes, or rather fewer, killed in the middle and started again."""
        sat = self._sitting.result()
        if isinstance(sat, Fault):
            self._refuse(sat)
            raise AssertionError(sat.wrote)
        return sat

    def close(self) -> None:
        """Wait for those under way and start no more."""
        self._pool.shutdown(cancel_futures=True)

    def _refuse(self, fault: Fault | None) -> None:
        """Fail for a fault that no test has failed for yet, and skip where one has."""
        if fault is None:
            return
        if fault.day in self._reported:
            pytest.skip(f"the day {fault.day} failed, which another test reports")
        self._reported.add(fault.day)
        pytest.fail(f"the day {fault.day} failed\n{fault.wrote}", pytrace=False)

    def _start(self, name: str, *more: str, after: str | None = None) -> None:
        before = None if after is None else self._days[after]
        self._days[name] = self._pool.submit(self._play, name, more, before)

    def _play(self, name: str, more: tuple[str, ...], before: Future[Day] | None) -> Day:
        data = self.folder / name / "data"
        events = self.folder / name / "events.jsonl"
        if before is None:
            (data / "levels").mkdir(parents=True)
            (data / "levels" / "three.toml").write_text(LEVEL, encoding="utf-8")
            (data / "levels" / "mixed.toml").write_text(MIXED, encoding="utf-8")
            for scripted in KINDS:
                scripted.write(data / "levels")
        elif (fault := before.result().fault) is not None:
            return Day(name, data, events, fault=fault)
        else:
            shutil.copytree(before.result().data, data)
        command = ["-m", "tests.game.scripts", name, str(data), str(events), *more]
        return _run(name, command, data, events)

    def _demo(self) -> Day:
        """A demonstration of one repetition, again while it does not count."""
        for again in range(DEMOS):
            folder = self.folder / f"demo {again}"
            folder.mkdir()
            events = folder / "events.jsonl"
            command = ["-m", "engine", "demo", "--reps", "1", "--events", str(events)]
            day = _run("demo", command, folder / "usual", events)
            if day.fault or any(one.get("score") is not None for one in EventTail(events).seen):
                break
        return day

    def _sit_down(self) -> Sat | Fault:
        try:
            for speed in SPEEDS:
                sat = sit_down(self.folder / f"sitting at {speed:g}", MINUTES, speed, KILL)
                if sat.codes[-1] or sat.said:
                    return Fault("sitting", wrote(sat.codes[-1], sat.said, "", sat.events))
                if sat.lost <= MOST_LOST:
                    break
        except (RuntimeError, TimeoutError) as error:
            return Fault("sitting", str(error))
        return sat


def _run(name: str, command: list[str], data: Path, events: Path) -> Day:
    with virtual_display() as environment:
        driver = environment.get("SDL_VIDEODRIVER", "")
        process = subprocess.Popen(
            [sys.executable, *command],
            env=environment | {"STILLFOOT_DATA": str(data)},
            cwd=ROOT,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        try:
            out, err = process.communicate(timeout=LONGEST)
        except subprocess.TimeoutExpired:
            process.kill()
            out, err = process.communicate()
            err += f"\nkilled, as it was not over after {LONGEST:g} s"
    if process.returncode == 0 and not err:
        return Day(name, data, events, driver)
    seen = EventTail(events).seen
    return Day(name, data, events, driver, Fault(name, wrote(process.returncode, out, err, seen)))


def wrote(code: int, out: str, err: str, events: Sequence[Mapping[str, object]]) -> str:
    """What a process wrote, all of it, and the newest events."""
    newest = "\n".join(map(json.dumps, events[-TAIL:]))
    return f"exit code {code}\nstdout:\n{out}\nstderr:\n{err}\nnewest events:\n{newest}"
