"""Clocks that jump: a machine asleep, midnight, daylight saving, a program that is stopped.

A repetition with a gap in it is void, and one after a gap is not; days and streaks are those of the
local calendar.
"""

import signal
import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing, suppress
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from drills.phases import Phase, Transition
from drills.score import Reason
from drills.task import Task
from drills.trace import SECOND
from engine.stage.headless import ManualClock
from engine.store import History, Record, ledger, open_history
from engine.store.history import FILE
from tests.bench.attempts.attempt import Finding, drawn, wrong
from tests.bench.attempts.command import end, start
from tests.engine.five.unattended import Minutes
from tests.engine.trial.two_positions import Trying
from tests.fakes import a_stage
from tests.screen import virtual_display
from tests.stored import all_results
from tests.waiting import EventTail

HOUR = 3600 * SECOND
PHASES = (None, *(phase for phase in Phase if phase not in (Phase.DONE, Phase.VOID)))
"""When the machine falls asleep: None, before a repetition; else in this phase of it."""
BLIP, HOLD = (Phase.WAIT, Phase.ACT, Phase.TAIL), (Phase.WAIT,)
"""Phases of a blip and of a hold that are measured: an hour without a reading makes them void."""
EARLIEST, LATEST = 2, 8
"""First and last repetition of a session that the machine sleeps in."""
NIGHTS = (
    ("Europe/Paris", "2024-03-30T22:57"),
    ("Europe/Paris", "2024-03-31T00:58"),
    ("Europe/Paris", "2024-10-27T00:58"),
    ("America/New_York", "2024-11-03T05:58"),
    ("Australia/Lord_Howe", "2024-10-05T15:28"),
    ("Pacific/Apia", "2024-02-29T10:57"),
    ("UTC", "2024-12-31T23:57"),
    ("Asia/Kathmandu", "2024-02-28T18:12"),
)
"""Zones, and times in UTC some minutes before their clocks change or a day ends there."""
DAYS = 3
"""Sessions on days in a row, the first of them across such a moment."""
MINUTES = 5.0
LONGEST = 60.0
"""Seconds that it may take to prepare a history."""
STOPPED = 3.0
"""Seconds for which a program is stopped (SIGSTOP)."""
SPEED = 2.0
"""How many times as fast a session is played while its program is stopped."""


class AwakeError(Exception):
    """The repetition that the machine slept in is judged: nothing more is to be played."""


class Sleeper:
    """Listener that lets the clock jump by an hour in a repetition, or right before one."""

    def __init__(self, clock: ManualClock, number: int, phase: Phase | None) -> None:
        """`number` is that of the repetition, from 1; `phase` None: just before it begins."""
        self._clock, self._left, self._phase = clock, number, phase
        self._slept = False
        self.verdict: Reason | None = None

    def on_menu(self) -> None:
        """Do nothing: no repetition is under way."""

    def on_task(self, _task: Task) -> None:
        """Count the repetitions, and sleep before one."""
        self._left -= 1
        if self._phase in (None, Phase.RELEASE):
            self._sleep()

    def on_transition(self, transition: Transition) -> None:
        """Sleep in a phase."""
        if transition.phase is self._phase:
            self._sleep()

    def on_record(self, _place: int, record: Record) -> None:
        """Note the verdict on the repetition that was slept in."""
        if self._slept:
            self.verdict = record.verdict.reason
            raise AwakeError

    def _sleep(self) -> None:
        if self._left == 0 and not self._slept:
            self._slept = True
            self._clock.advance(HOUR)


def jumped(number: int, folder: Path) -> Iterator[Finding]:
    """Let the clock jump by an hour within a repetition, or before one."""
    rng, phase = drawn("asleep", number), PHASES[number % len(PHASES)]
    with open_history(folder, []) as history:
        played = Trying(history) if number % 2 else Minutes(history)
        sleeper = Sleeper(played.clock, rng.randint(EARLIEST, LATEST), phase)
        played.setting = replace(played.setting, stage=a_stage(played.foot, sleeper))
        with suppress(AwakeError):
            if isinstance(played, Trying):
                played.begin()
                played.walk(at_once=True)
            else:
                played.play(minutes=MINUTES)
    told = sleeper.verdict
    if told is None and (number % 2 or phase is not Phase.ACT):
        yield wrong(f"asleep in {phase}: no verdict")
    measured = BLIP if number % 2 else HOLD
    if phase in measured and told not in (None, Reason.GAP):
        yield wrong(f"asleep in {phase}: told as {told}, not as a gap")
    if phase is None and told is Reason.GAP:
        yield wrong("asleep before a repetition: told as a gap")


def night(number: int, folder: Path) -> Iterator[Finding]:
    """Play a session across a midnight or a change of the clocks, and one on each day after."""
    name, moment = NIGHTS[number % len(NIGHTS)]
    zone = ZoneInfo(name)
    began = datetime.fromisoformat(moment).replace(tzinfo=UTC)
    with open_history(folder, []) as history:
        for day in range(DAYS):
            minutes = LocalMinutes(history, began + timedelta(days=day), zone)
            minutes.play(minutes=MINUTES)
        days = {result.day for result in all_results(history) if result.is_practice}
        streak = ledger.streaks(history, max(days)).days_streak
    with closing(sqlite3.connect(folder / FILE)) as db:
        times = db.execute("SELECT at_utc FROM repetition WHERE void = 0").fetchall()
    wanted = {datetime.fromisoformat(at).astimezone(zone).date() for (at,) in times}
    if days != wanted:
        yield wrong(f"{name} {moment}: days {sorted(days)}, not {sorted(wanted)}")
    if streak != len(wanted):
        yield wrong(f"{name} {moment}: {streak} days in a row, not {len(wanted)}")


class LocalMinutes(Minutes):
    """Sessions in a zone whose clocks change."""

    def __init__(self, history: History, began: datetime, zone: ZoneInfo) -> None:
        super().__init__(history, began=began)
        self._zone = zone

    def now(self) -> datetime:
        """The local date and time, with the offset that the zone has then."""
        return super().now().astimezone(self._zone)


def stopped(number: int, folder: Path) -> Iterator[Finding]:
    """Stop a program in a window for some seconds while a repetition waits for its cue."""
    events, data = folder / "events.jsonl", str(folder / "data")
    module = "tests.game.session_process"
    with virtual_display((1280, 720)) as display:
        end(start(data, module=module, **display), LONGEST)
        process = start(data, str(events), f"{MINUTES:g}", f"{SPEED:g}", module=module, **display)
        try:
            tail = EventTail(events)
            for _ in range(number + 1):
                tail.wait(lambda event: event.get("phase") == Phase.WAIT.value)
            process.send_signal(signal.SIGSTOP)
            time.sleep(STOPPED)
            process.send_signal(signal.SIGCONT)
            verdict = tail.wait(lambda event: event["event"] == "verdict")
        finally:
            process.kill()
            process.communicate()
    if verdict["reason"] != Reason.GAP.value:
        yield wrong(f"stopped for {STOPPED:g} s: told as {verdict['reason']}, not as a gap")
