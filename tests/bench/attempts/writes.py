"""Failures of single steps that write, and disks that fill at any point of whatever writes.

Each command refuses in one line or goes on; the history is whole and has all that it had; nothing
half written stands under the name of something whole; and the same works once there is room.
"""

import errno
import os
import shutil
import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

from engine.store.history import FILE
from tests.bench.attempts import histories
from tests.bench.attempts.attempt import Finding, drawn, lost, wrong
from tests.bench.attempts.command import call, faults
from tests.bench.attempts.reader import facts_in, facts_of, is_whole
from tests.bench.attempts.steps import steps
from tests.full_disk import no_file_longer
from tests.unprivileged import unprivileged

WRITING = (
    "demo --headless --reps 2",
    "backup NEW/copy.sqlite3",
    "restore BACKUP",
    "remeasure",
    "export NEW/csv --traces",
    "report --html NEW/page.html --png NEW/picture.png",
    "score DRIVE --keep",
    "demo --headless --reps 1 --events NEW/events.jsonl",
)
"""Commands that write, to the history or beside it."""
READING = (
    *("plan", "levels", "report", "report --html NEW/page.html", "export NEW/csv"),
    *("export NEW/csv --traces", "pedals --replay HEALTH", "remeasure --dry-run"),
    "backup NEW/copy.sqlite3",
)
"""Commands that need only read the history."""
GROWTH = 200_000
"""Bytes beyond a history at which the disk is full at the latest: enough for every command."""
Failing = Callable[[], AbstractContextManager[None]]
"""Makes a context in which something cannot be written."""


def failing_step(number: int, folder: Path) -> Iterator[Finding]:
    """Let one step of a command fail that changes what is on the disk."""
    words, step = WRITING[number % len(WRITING)], number // len(WRITING) + 1
    yield from _tried(words, folder, lambda: steps().at(step, _fail))


def full(number: int, folder: Path) -> Iterator[Finding]:
    """Let the disk be full from some size of a file on."""
    rng = drawn("full disk", number)
    begin = histories.long() if number % len(WRITING) == 3 else histories.usual()
    size = rng.randrange(begin.stat().st_size + GROWTH)
    yield from _tried(WRITING[number % len(WRITING)], folder, lambda: no_file_longer(size), begin)


def _fail(event: str) -> None:
    """Raise what the step raises on a disk that is broken."""
    if event == "sqlite3.connect":
        raise sqlite3.OperationalError("disk I/O error")
    raise OSError(errno.EIO, os.strerror(errno.EIO))


def _tried(
    words: str, folder: Path, failing: Failing, begin: Path | None = None
) -> Iterator[Finding]:
    """Findings of a command while something cannot be written, and of the same command later."""
    data = folder / "data"
    before = facts_of(histories.copied(begin or histories.usual(), data))
    line = histories.filled(words, folder / "new")
    with failing():
        ended = call(*line, "--data", str(data))
    yield from faults(ended)
    if not before <= facts_in(data):
        yield lost(f"{ended.name}: what was in the history")
    if not is_whole(data / FILE):
        yield lost(f"{ended.name}: the history is damaged")
    copy = folder / "new" / "copy.sqlite3"
    if copy.exists() and not (is_whole(copy) and before <= facts_of(copy)):
        yield wrong(f"{ended.name}: half a copy under the name of a whole one")
    if not ended.code:
        return
    for part in ("page.html", "picture.png"):
        if (folder / "new" / part).exists() and not (folder / "new" / part).stat().st_size:
            yield wrong(f"{ended.name}: an empty {part}")
    again = histories.filled(words, folder / "again")
    yield from faults(call(*again, "--data", str(data)), allowed=(0,))


@contextmanager
def temporary_files_in(folder: Path) -> Iterator[None]:
    """Have temporary files made in a folder, as the system's may be closed to others."""
    before, tempfile.tempdir = tempfile.tempdir, str(folder)
    try:
        yield
    finally:
        tempfile.tempdir = before


def unwritable(number: int, folder: Path) -> Iterator[Finding]:
    """Read a history, as a user who may write neither to it nor to its folder."""
    words = READING[number % len(READING)]
    data, new, health = folder / "data", folder / "new", folder / "health.txt"
    before = facts_of(histories.copied(histories.usual(), data))
    shutil.copy(histories.health(), health)
    line = histories.filled(words.replace("HEALTH", str(health)), new)
    # With all rights first: modules are loaded that another user may not be able to read.
    histories.copied(histories.usual(), folder / "first")
    first = histories.filled(words, folder / "first" / "new")
    yield from faults(call(*first, "--data", str(folder / "first")), allowed=(0,))
    for place, mode in ((folder, 0o755), (health, 0o644), (new, 0o777), (data, 0o555)):
        place.chmod(mode)
    (data / FILE).chmod(0o444)
    with unprivileged(), temporary_files_in(new):
        ended = call(*line, "--data", str(data))
    yield from faults(ended, allowed=(0,))
    if facts_of(data / FILE) != before:
        yield lost(f"{ended.name}: what was in a history that must not be written to")
