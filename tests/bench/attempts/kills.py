"""Kills (SIGKILL) at random moments of everything that writes, and at each step of a copy.

Afterwards the history is whole, its ledger is that of its repetitions, all that was reported as
stored is in it, and the next start works.
"""

import random
import sqlite3
import subprocess
import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import closing
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from drills.measures.definition import DEFINITION
from engine.store import open_history
from engine.store.history import FILE
from tests.bench.attempts import histories
from tests.bench.attempts.attempt import Attempt, Finding, drawn, lost, wrong
from tests.bench.attempts.command import call, end, faults, start
from tests.bench.attempts.game import opened
from tests.bench.attempts.reader import Fact, facts_in, facts_of, is_whole
from tests.bench.record import recorded, started, told
from tests.stored import rebuild_ledger
from tests.waiting import EventTail

LATEST = 1.0
"""Seconds from the first stored repetition to the latest kill."""
STEPS = 15
"""Kills of a copy that come at its steps on the disk; the others come at random moments."""
STARTS = 5
"""Of so many kills one is followed by a start of the game."""
RECORDED = (1.0, 2.5)
"""Seconds from the first report of the pedals to the earliest and the latest kill."""
MOST_LOST = 1.0
"""Seconds at the end of a recording that a kill may lose, of a promised quarter of one."""
LEDGER = ("progress", "day", "clean_row")
"""Tables that are made from the repetitions alone."""


def of_practice(what: str) -> Attempt:
    """Attempts that kill practice of a sort: see `playing`."""

    def attempt(number: int, folder: Path) -> Iterator[Finding]:
        rng, data, events = drawn(f"kill {what}", number), folder / "data", folder / "events.jsonl"
        words = (what, str(data), str(events))
        with start(*words, module="tests.bench.attempts.playing") as process:
            try:
                EventTail(events).wait(lambda event: event["event"] == "verdict")
                time.sleep(rng.uniform(0, LATEST))
            finally:
                process.kill()
                process.communicate()
        yield from after_kill(data, stored_by(events))
        if number % STARTS == 0:
            yield from faults(opened(data), allowed=(0,))

    return attempt


def stored_by(events: Path) -> list[int]:
    """Numbers of the repetitions that an events file says are stored."""
    return [int(event["id"]) for event in EventTail(events).seen if event["event"] == "verdict"]


def after_kill(data: Path, reported: Iterable[int]) -> Iterator[Finding]:
    """What is lost or wrong in a history after a kill; all numbers reported are to be there."""
    yield from faults(call("plan", "--data", str(data)), allowed=(0,))
    file = data / FILE
    if not is_whole(file):
        yield lost("the history is damaged")
        return
    with closing(sqlite3.connect(file)) as db:
        there = {row[0] for row in db.execute("SELECT id FROM repetition")}
    gone = set(reported) - there
    if gone:
        yield lost(f"{len(gone)} repetitions that were reported as stored")
    if len(there) > len(set(reported)) + 1 and reported:
        yield wrong("more than one repetition stored that was not reported")
    before = _ledger(file)
    with open_history(data, histories.LEVELS) as history:
        rebuild_ledger(history)
    if _ledger(file) != before:
        yield wrong("the ledger is not that of the repetitions")
    yield from faults(call("demo", "--headless", "--reps", "1", "--data", str(data)), allowed=(0,))


def _ledger(file: Path) -> list[list[tuple[object, ...]]]:
    """All rows of the ledger."""
    with closing(sqlite3.connect(file)) as db:
        return [
            sorted(db.execute(f"SELECT * FROM {table}").fetchall(), key=str) for table in LEDGER
        ]


def of_recording(number: int, folder: Path) -> Iterator[Finding]:
    """Kill a recording of a drive; what stands in its file can be read, up to the last second."""
    process = started(folder, 60.0)
    began = told(process.stdout, "began")["began"] / 1e9
    time.sleep(drawn("kill record", number).uniform(*RECORDED))
    ended = time.monotonic()
    process.kill()
    process.communicate()
    trace = recorded(folder)
    seconds = float(trace.time[-1] - trace.time[0]) / 1e9
    if seconds < ended - began - MOST_LOST:
        yield lost(f"{ended - began - seconds:.1f} s of a recording, over {MOST_LOST:g} s")
    yield from after_kill(folder, ())


Killed = Callable[[Path, set[Fact]], Iterator[Finding]]
"""What is lost or wrong in a folder after a kill, given what was in its history before."""


def of_copy(name: str, words: str, begin: Callable[[], Path], after: Killed) -> Attempt:
    """Attempts that kill a command on a copy of a history: at its steps, then at random moments.

    `begin` makes the history; in `words` places stand as in `histories.filled`.
    """

    def attempt(number: int, folder: Path) -> Iterator[Finding]:
        before = facts_of(histories.copied(begin(), folder / "data"))
        line = histories.filled(f"{words} --data {folder / 'data'}", folder)
        if number < STEPS:
            end(start(f"{number + 1}", *line, module="tests.bench.attempts.dying"))
        else:
            _kill_at_random(line, drawn(f"kill {name}", number), _seconds_of(words, begin))
        yield from after(folder, before)

    return attempt


@cache
def _seconds_of(words: str, begin: Callable[[], Path]) -> float:
    """Seconds that a command takes from its start to its end."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        histories.copied(begin(), folder / "data")
        began = time.monotonic()
        end(start(*histories.filled(f"{words} --data {folder / 'data'}", folder)))
        return time.monotonic() - began


def _kill_at_random(line: list[str], rng: random.Random, whole: float) -> None:
    """Start a command and kill it before it would have ended."""
    process = start(*line)
    try:
        # In the first part of it Python only loads the program.
        process.wait(rng.uniform(0.3, 1.0) * whole)
    except subprocess.TimeoutExpired:
        process.kill()
    process.communicate()


def after_backup(folder: Path, before: set[Fact]) -> Iterator[Finding]:
    """The history is what it was, the copy is whole or not there, and the next one works."""
    data, copy = folder / "data", folder / "copy"
    if facts_of(data / FILE) != before:
        yield lost("backup: the history is not what it was")
    if copy.exists() and (not is_whole(copy) or facts_of(copy) != before):
        yield lost("backup: half a copy under the name of a whole one")
    yield from faults(call("backup", f"{folder / 'again'}", "--data", str(data)), allowed=(0,))
    yield from after_kill(data, ())


def after_restore(folder: Path, before: set[Fact]) -> Iterator[Finding]:
    """The history is the one before or the backup, whole, and the one before is still there."""
    data = folder / "data"
    yield from faults(call("plan", "--data", str(data)), allowed=(0,))
    there = facts_of(data / FILE)
    if not before <= there and not facts_of(histories.long()) <= there:
        yield wrong("restore: the next start has neither the history before nor the backup")
    if not before <= facts_in(data):
        yield lost("restore: the history before is gone")
    yield from after_kill(data, ())


def after_remeasure(folder: Path, before: set[Fact]) -> Iterator[Finding]:
    """Nothing is lost, and the next one measures what is left."""
    data = folder / "data"
    if not before <= facts_of(data / FILE):
        yield lost("remeasure: what was played is not what it was")
    yield from after_kill(data, ())
    yield from faults(call("remeasure", "--data", str(data)), allowed=(0,))
    with closing(sqlite3.connect(data / FILE)) as db:
        left = db.execute(
            "SELECT count(*) FROM repetition WHERE fixed = 0 AND definition < ?", (DEFINITION,)
        ).fetchone()[0]
    if left:
        yield wrong(f"remeasure: {left} repetitions are not measured by the next one")
