"""Scripted days of play, each in a process on a display of its own, while other tests run."""

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import pytest

from tests.game.counting import COUNTING
from tests.game.kinds import KINDS, MIXED
from tests.game.session_run import Kill, SessionRun, play_session
from tests.screen import virtual_display
from tests.waiting import EventTail

Event = Mapping[str, Any]

ROOT = Path(__file__).resolve().parents[2]
SIDE_BY_SIDE = 2
"""Number of days played at once: more of them would read their pedals too late."""
LONGEST = 900.0
"""Seconds one script may take: a safety net that a busy machine does not need."""
MINUTES = 1.5
"""Minutes the session lasts; tests/bench/sessions.py plays whole ones."""
SPEEDS = (5.0, 2.5, 1.25)
"""How many times as fast the session is played: the next slower one where too much is lost."""
MOST_LOST = 0.1
"""Share of the repetitions of a session that may be lost to gaps between reads."""
KILL = Kill(repetition=6, moment=0)
"""During a wait, about where the steadiness blips come."""
ENDS = {"closed": 0, "SIGINT": 130, "SIGTERM": 143, "SIGHUP": 129}
"""Exit code of the game for each way in which it is ended after a cue."""
DEMOS = 5
"""Number of times a demonstration or an end is played at most until it is as it is to be."""
TAIL = 30
"""Number of the newest events printed for a day that failed."""

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
    """Failure of a day, which each day that continues it shares."""

    day: str
    """Name of the day that failed."""
    wrote: str
    """Everything the program wrote, with the newest events."""


@dataclass(frozen=True)
class Day:
    """Scripted day that has ended."""

    name: str
    """Name of the script that was played."""
    data: Path
    """Data folder of the day."""
    events: Path
    """Events file of the day."""
    driver: str = ""
    """SDL video driver of the process; empty for SDL's choice."""
    fault: Fault | None = None
    """What went wrong; None where the program ended with the code it was to, and no error."""


class ScriptedDays:
    """Scripted days, two at a time; a day that continues another waits for it.

    One cause, one red test: the first test that asks for a failed day fails with all that the
    program wrote, and the later ones are skipped.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._pool = ThreadPoolExecutor(max_workers=SIDE_BY_SIDE)
        self._days: dict[str, Future[Day]] = {}
        self._reported: set[str] = set()
        self._start("every_kind")
        self._start("first_day", "inverted")
        self._start("two_twins")
        self._start("six_shifts")
        self._start("two_counted")
        self._start("mouse_and_keys")
        self._start("first_minutes")
        self._start("first_minutes_by_keys")
        self._days["demo"] = self._pool.submit(self._demo, "demo", _is_scored, "--reps", "1")
        faulty = ("--reps", "2", "--fault", "unplugged")
        self._days["faulty demo"] = self._pool.submit(
            self._demo, "faulty demo", _is_unplugged, *faulty
        )
        self._start("another_window", "inverted", after="first_day")
        self._start("unplugged", "inverted", after="first_day")
        self._start("rest_moved", "inverted", after="first_day")
        self._start("next_day", "inverted", after="first_day")
        self._start("locked", "inverted", after="first_day")
        self._start("one_twin_missing", after="two_twins")
        for how in ENDS if os.name == "posix" else ["closed"]:
            self._days[f"ended {how}"] = self._pool.submit(
                self._end, f"ended {how}", ENDS[how], self._days["first_day"]
            )
        self._session = self._pool.submit(self._play_session)

    def day(self, name: str) -> Day:
        """Day of this name, once it has ended well; fails or skips the test where it did not."""
        day = self._days[name].result()
        self._refuse(day.fault)
        return day

    def session(self) -> SessionRun:
        """Session by itself, killed in the middle and started again."""
        run = self._session.result()
        if isinstance(run, Fault):
            self._refuse(run)
            raise AssertionError(run.wrote)
        return run

    def close(self) -> None:
        """Wait for the days under way and start no more."""
        self._pool.shutdown(cancel_futures=True)

    def _refuse(self, fault: Fault | None) -> None:
        """Fail the first test that meets a fault, and skip the later ones."""
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
            for scripted in (*KINDS, COUNTING):
                scripted.write(data / "levels")
        elif (fault := before.result().fault) is not None:
            return Day(name, data, events, fault=fault)
        else:
            shutil.copytree(before.result().data, data)
        return played(name, data, events, *more)

    def _end(self, name: str, code: int, before: Future[Day]) -> Day:
        """Day that ends after a cue, repeated where a gap between reads came before its end."""
        first = before.result()
        if first.fault is not None:
            return replace(first, name=name)
        for again in range(DEMOS):
            folder = self.folder / f"{name} {again}"
            shutil.copytree(first.data, folder / "data")
            events = folder / "events.jsonl"
            day = played(name, folder / "data", events, "inverted", code=code)
            if day.fault or any(map(_is_left, EventTail(events).seen)):
                break
        return day

    def _demo(self, name: str, is_wanted: Callable[[Event], bool], *more: str) -> Day:
        """Demonstration with options `more`, repeated until an event of it is as wanted."""
        for again in range(DEMOS):
            folder = self.folder / f"{name} {again}"
            folder.mkdir()
            events = folder / "events.jsonl"
            command = ["-m", "engine", "demo", *more, "--events", str(events)]
            day = _run(name, command, folder / "usual", events)
            if day.fault or any(map(is_wanted, EventTail(events).seen)):
                break
        return day

    def _play_session(self) -> SessionRun | Fault:
        try:
            for speed in SPEEDS:
                run = play_session(self.folder / f"session at {speed:g}", MINUTES, speed, KILL)
                if run.codes[-1] or run.output:
                    return Fault("session", wrote(run.codes[-1], run.output, "", run.events))
                if run.lost <= MOST_LOST:
                    break
        except (RuntimeError, TimeoutError) as error:
            return Fault("session", str(error))
        return run


def _is_scored(event: Event) -> bool:
    return event.get("score") is not None


def _is_left(event: Event) -> bool:
    return event.get("reason") == "left after the cue"


def _is_unplugged(event: Event) -> bool:
    return event.get("reason") == "unplugged"


def played(name: str, data: Path, events: Path, *more: str, code: int = 0) -> Day:
    """Day that a script has played in a process of its own, `more` being its arguments.

    `code` is the exit code of a day that ended well.
    """
    command = ["-m", "tests.game.scripts", name, str(data), str(events), *more]
    return _run(name, command, data, events, code)


def _run(name: str, command: list[str], data: Path, events: Path, code: int = 0) -> Day:
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
    if process.returncode == code and not err:
        return Day(name, data, events, driver)
    fault = Fault(name, wrote(process.returncode, out, err, EventTail(events).seen))
    return Day(name, data, events, driver, fault)


def wrote(code: int, out: str, err: str, events: Sequence[Mapping[str, object]]) -> str:
    """Everything a process wrote, with the newest events, for a message."""
    newest = "\n".join(map(json.dumps, events[-TAIL:]))
    return f"exit code {code}\nstdout:\n{out}\nstderr:\n{err}\nnewest events:\n{newest}"
