"""Session played by a simulated foot at faster time in a real window, and what it left behind.

Each start of the program is a process of its own, on a display of its own.
"""

import json
import shutil
import subprocess
import sys
from collections.abc import Callable, Mapping, Sequence
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
"""How many times its own length a session may last on a busy machine."""
LOOKED = 0.02
"""Seconds between two looks at the events file."""
MOMENTS = ({"event": "phase", "phase": "wait"}, {"event": "verdict"})
"""Events after which the program may be killed."""
NOON = 12
"""Hour of the local day at which a session is played."""
KILLED = -9
"""Return code of a process that was killed."""

LoggedEvent = Mapping[str, Any]


@dataclass(frozen=True)
class Kill:
    """When the program is killed."""

    repetition: int
    """Number of the repetition, from 1, counting all that begin."""
    moment: int
    """Index into `MOMENTS` of the last event of that repetition."""


@dataclass(frozen=True)
class SessionRun:
    """Session that has ended, with everything the program left and wrote."""

    minutes: float
    """Planned length of the session, in minutes."""
    day: date
    """Local day of the session."""
    before: Path
    """Copy of the data folder from before the session."""
    data: Path
    """Data folder after the session."""
    planned: Sequence[LoggedEvent]
    """Rows that `stillfoot plan --json` printed before the session."""
    starts: Sequence[Sequence[LoggedEvent]]
    """Logged events of each start of the program."""
    codes: Sequence[int]
    """Return code of each start of the program."""
    output: str
    """Output of the last start of the program."""

    @property
    def events(self) -> list[LoggedEvent]:
        """Events of all starts, in order."""
        return [event for events in self.starts for event in events]

    @property
    def lost(self) -> float:
        """Share of the repetitions that are void because of gaps between reads, from 0 to 1."""
        reasons = [event["reason"] for event in self.events if event["event"] == "verdict"]
        return reasons.count(Reason.GAP) / max(len(reasons), 1)

    @cached_property
    def sessions(self) -> list[Session]:
        """Sessions of the day that are in the history, warm-ups left out."""
        with open_history(self.data, []) as history:
            sessions = sessions_on(history, self.day)
        return [session for session in sessions if session.what is SessionKind.FIVE]

    @property
    def session(self) -> Session:
        """Newest session of the day."""
        return self.sessions[-1]

    @property
    def counting(self) -> list[Result]:
        """Results of the session that count."""
        return [result for result in self.session.results if result.counts]


def play_session(
    folder: Path, minutes: float, speed: float, kill: Kill | None = None
) -> SessionRun:
    """Play a session of some minutes into a folder, `speed` times as fast as real time.

    With `kill` the program is killed once in the middle and started again.
    Raises RuntimeError where preparing it fails, TimeoutError where an event never comes.
    """
    data, before, noon = folder / "data", folder / "before", _local_noon()
    with virtual_display() as display:
        launcher = _Launcher(
            display | {"TZ": noon.tzname() or "", "PYGAME_HIDE_SUPPORT_PROMPT": "1"}
        )
        launcher.output_of("tests.game.session_process", data)
        shutil.copytree(data, before)
        plan = ("--data", data, "--minutes", f"{minutes:g}", "--json")
        planned = launcher.output_of("engine", "plan", *plan).splitlines()
        logs, codes = [folder / "events.jsonl"], list[int]()
        if kill is not None:
            with launcher.start(
                "tests.game.session_process", data, logs[0], minutes, speed
            ) as process:
                _kill(process, EventTail(logs[0], LOOKED), kill)
            codes.append(process.returncode)
            logs.append(folder / "events of the second start.jsonl")
        with launcher.start(
            "tests.game.session_process", data, logs[-1], minutes, speed
        ) as process:
            output = _output_until_end(process, PATIENCE + 60 * minutes / speed * SLOWEST)
        codes.append(process.returncode)
    starts = [EventTail(log).seen for log in logs]
    rows = [*map(json.loads, planned)]
    return SessionRun(minutes, noon.date(), before, data, rows, starts, codes, output)


def _local_noon() -> datetime:
    """Now, in a time zone where it is about noon, so that no day ends during a session."""
    utc = datetime.now(UTC)
    east = NOON - utc.hour
    # POSIX counts hours west of Greenwich.
    return utc.astimezone(timezone(timedelta(hours=east), f"NOON{-east:+d}"))


@dataclass(frozen=True)
class _Launcher:
    """Starts Python modules in processes of their own."""

    environment: Mapping[str, str]
    """Environment of the processes."""

    def start(self, module: str, *arguments: object) -> subprocess.Popen[str]:
        """Start a module; its output is piped."""
        return subprocess.Popen(
            [sys.executable, "-m", module, *map(str, arguments)],
            env=self.environment,
            cwd=ROOT,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )

    def output_of(self, module: str, *arguments: object) -> str:
        """Output of a module that ends with 0. Raises RuntimeError where it does not."""
        with self.start(module, *arguments) as process:
            output = _output_until_end(process, PATIENCE)
        if process.returncode:
            raise RuntimeError(f"{module} {arguments}: {output}")
        return output


def _output_until_end(process: subprocess.Popen[str], longest: float) -> str:
    """Output of a process, which is killed where it takes longer than so many seconds."""
    try:
        return process.communicate(timeout=longest)[0]
    except subprocess.TimeoutExpired:
        process.kill()
        return f"not over after {longest:g} s\n{process.communicate()[0]}"


def _kill(process: subprocess.Popen[str], events: EventTail, kill: Kill) -> None:
    """Kill a process in a repetition or right after it."""
    try:
        for _ in range(kill.repetition):
            events.wait(_has({"event": "screen", "name": "repetition"}), PATIENCE)
        events.wait(_has(MOMENTS[kill.moment]), PATIENCE)
    finally:
        process.kill()
        process.communicate()


def _has(wanted: LoggedEvent) -> Callable[[LoggedEvent], bool]:
    """Predicate for events with these fields."""
    return lambda event: wanted.items() <= event.items()
