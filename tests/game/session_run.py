"""Five minutes by a simulated foot at faster time, each start of the program a process of its own,
on a screen of its own; and what is left of them to be looked at.
"""

import json
import shutil
import subprocess
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, timezone
from functools import cached_property
from pathlib import Path
from typing import Any

from drills.score import Reason
from engine.five.saved import sessions_on
from engine.practice.results import Result, Session, SessionKind
from engine.store import open_history
from tests.screen import virtual_display
from tests.waiting import PATIENCE, EventTail

ROOT = Path(__file__).resolve().parents[2]
SLOWEST = 4.0
"""Times as long as it should take that a session may take on a busy machine."""
LOOKED = 0.02  # s between two looks at the events
MOMENTS = ({"event": "phase", "phase": "wait"}, {"event": "verdict"})  # in which it may be killed
NOON = 12
KILLED = -9  # what a process that was killed returns

Told = Mapping[str, Any]


@dataclass(frozen=True)
class Kill:
    """When the program is killed."""

    repetition: int
    """From 1, of those that begin."""
    moment: int
    """index of what is seen last of it among `MOMENTS`."""


@dataclass(frozen=True)
class Sat:
    """Five minutes that have ended."""

    minutes: float
    """min, how long they were to be."""
    day: date
    """The local day they were played on."""
    before: Path
    """The data folder as it was before."""
    data: Path
    """The data folder."""
    planned: Sequence[Told]
    """What `stillfoot plan --json` said before."""
    starts: Sequence[Sequence[Told]]
    """The events of each start of the program."""
    codes: Sequence[int]
    """What each start of it returned."""
    said: str
    """What the last start of it said."""

    @property
    def events(self) -> list[Told]:
        """Those of all starts."""
        return [event for events in self.starts for event in events]

    @property
    def lost(self) -> float:
        """Share of its repetitions that were lost to gaps between reads, from 0 to 1."""
        told = [event["reason"] for event in self.events if event["event"] == "verdict"]
        return told.count(Reason.GAP) / max(len(told), 1)

    @cached_property
    def sessions(self) -> list[Session]:
        """The five minutes of the day in the history."""
        with open_history(self.data, []) as history:
            found = sessions_on(history, self.day)
        return [one for one in found if one.what is SessionKind.FIVE]

    @property
    def session(self) -> Session:
        """The newest of them."""
        return self.sessions[-1]

    @property
    def counting(self) -> list[Result]:
        """Its repetitions that count."""
        return [one for one in self.session.results if one.counts]


def sit_down(folder: Path, minutes: float, speed: float, kill: Kill | None = None) -> Sat:
    """Play five minutes that last so many into a folder, `speed` times as fast as time goes."""
    data, before, noon = folder / "data", folder / "before", _local_noon()
    with virtual_display() as display:
        run = _Runs(display | {"TZ": noon.tzname() or "", "PYGAME_HIDE_SUPPORT_PROMPT": "1"})
        run.well("tests.game.session_process", data)
        shutil.copytree(data, before)
        plan = ("--data", data, "--minutes", f"{minutes:g}", "--json")
        planned = run.well("engine", "plan", *plan).splitlines()
        logs, codes = [folder / "events.jsonl"], list[int]()
        if kill is not None:
            with run.start("tests.game.session_process", data, logs[0], minutes, speed) as process:
                _kill(process, EventTail(logs[0], LOOKED), kill)
            codes.append(process.returncode)
            logs.append(folder / "events of the second start.jsonl")
        with run.start("tests.game.session_process", data, logs[-1], minutes, speed) as process:
            said = _until_it_ends(process, PATIENCE + 60 * minutes / speed * SLOWEST)
        codes.append(process.returncode)
    told = [EventTail(log).seen for log in logs]
    return Sat(minutes, noon.date(), before, data, [*map(json.loads, planned)], told, codes, said)


def _local_noon() -> datetime:
    """Now, where it is about noon: no day ends while its five minutes are played."""
    utc = datetime.now(UTC)
    east = NOON - utc.hour
    # POSIX counts hours west of Greenwich.
    return utc.astimezone(timezone(timedelta(hours=east), f"NOON{-east:+d}"))


@dataclass(frozen=True)
class _Runs:
    """Starts modules in an environment."""

    environment: Mapping[str, str]
    """Of their processes."""

    def start(self, module: str, *arguments: object) -> subprocess.Popen[str]:
        """Start one."""
        return subprocess.Popen(
            [sys.executable, "-m", module, *map(str, arguments)],
            env=self.environment,
            cwd=ROOT,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )

    def well(self, module: str, *arguments: object) -> str:
        """What one says that ends well. Raises RuntimeError where it does not."""
        with self.start(module, *arguments) as process:
            said = _until_it_ends(process, PATIENCE)
        if process.returncode:
            raise RuntimeError(f"{module} {arguments}: {said}")
        return said


def _until_it_ends(process: subprocess.Popen[str], longest: float) -> str:
    """What a process says until it ends; one that takes too long is killed."""
    try:
        return process.communicate(timeout=longest)[0]
    except subprocess.TimeoutExpired:
        process.kill()
        return f"not over after {longest:g} s\n{process.communicate()[0]}"


def _kill(process: subprocess.Popen[str], events: EventTail, kill: Kill) -> None:
    """Kill a process in the middle of a repetition, or right after it."""
    try:
        for _ in range(kill.repetition):
            events.wait(_like({"event": "screen", "name": "repetition"}), PATIENCE)
        events.wait(_like(MOMENTS[kill.moment]), PATIENCE)
    finally:
        process.kill()
        process.communicate()


def _like(wanted: Told) -> Any:
    return lambda event: wanted.items() <= event.items()
