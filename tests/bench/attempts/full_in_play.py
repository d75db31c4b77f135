"""A disk that fills while a session is played in a window, until the player was told and made room.

The window stays; the repetition that could not be written is held and stored once there is room.
"""

import resource
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import closing
from pathlib import Path
from typing import Any

from drills.phases import OVER
from engine.store.history import FILE
from tests.bench.attempts.attempt import Finding, drawn, lost, wrong
from tests.bench.attempts.command import end, start
from tests.bench.attempts.reader import is_whole
from tests.screen import virtual_display
from tests.waiting import EventTail, wait_for

SESSION = "tests.game.session_process"
MINUTES, SPEED = 5.0, 3.0
"""Length of the session, and how many times as fast it is played."""
LONGEST = 60.0
"""Seconds that it may take to prepare a history, or to do a repetition."""
TROUBLE = "trouble"
"""Name of the screen that says that the history cannot be written."""
ROOM = 6000
"""Bytes beyond the history at which the disk is full at the latest: two repetitions."""


def full_in_play(number: int, folder: Path) -> Iterator[Finding]:
    """Let the disk be full after some repetitions, and make room once the window says so."""
    rng, data, events = drawn("full in play", number), folder / "data", folder / "events.jsonl"
    with virtual_display((1280, 720)) as display:
        end(start(str(data), module=SESSION, **display), LONGEST)
        words = (str(data), str(events), f"{MINUTES:g}", f"{SPEED:g}")
        process, tail = start(*words, module=SESSION, **display), EventTail(events)

        def told() -> bool:
            return any(one.get("name") == TROUBLE for one in tail.seen)

        try:
            for _ in range(rng.randint(1, 4)):
                tail.wait(_is_verdict)
            _limit(process.pid, (data / FILE).stat().st_size + rng.randrange(ROOM))
            wait_for(lambda: process.poll() is not None or told())
            if process.poll() is not None:
                yield wrong("the window is gone when the disk is full")
            else:
                _limit(process.pid, resource.RLIM_INFINITY)
                before = sum(map(_is_verdict, tail.seen))
                wait_for(lambda: sum(map(_is_verdict, tail.seen)) > before + 1)
        finally:
            is_killed = process.poll() is None
            process.kill()
            process.communicate()
    yield from _stored(data / FILE, tail.seen, is_killed=is_killed)


def _stored(file: Path, events: Sequence[dict[str, Any]], *, is_killed: bool) -> Iterator[Finding]:
    """What of a session is not in its history; a kill at its end may cost the one under way."""
    newest = max(place for place, event in enumerate(events) if _is_verdict(event))
    ended = events[:newest] if is_killed else events
    done = sum(event.get("phase") in OVER for event in ended)
    verdicts = {event["id"] for event in events if _is_verdict(event)}
    if not is_whole(file):
        yield lost("the history is damaged")
    with closing(sqlite3.connect(file)) as db:
        there = {row[0] for row in db.execute("SELECT id FROM repetition WHERE sitting NOT NULL")}
    if not verdicts <= there:
        yield lost(f"{len(verdicts - there)} repetitions that were reported as stored")
    if len(there) < done:
        yield lost(f"{done - len(there)} repetitions that were performed")


def _is_verdict(event: dict[str, Any]) -> bool:
    return bool(event["event"] == "verdict")


def _limit(process: int, size: int) -> None:
    """Let no file of a process grow beyond so many bytes, as on a full disk."""
    hard = resource.prlimit(process, resource.RLIMIT_FSIZE)[1]
    resource.prlimit(process, resource.RLIMIT_FSIZE, (size, hard))
