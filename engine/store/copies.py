"""Automatic copies of the history, one a day of practice, beside the history file.

They are made by `back_up`, never replace one another, and hold everything that was stored when they
were made. Some are kept, and never take more than a small part of the free disk.
"""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Callable, Iterable, Sequence
from contextlib import closing, suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Protocol

from engine.errors import reason_of
from engine.store.backup import PART, Tell, back_up
from engine.store.cells import Row
from engine.store.error import StoreError
from engine.store.history import History
from engine.store.lock import hold_copying

NAME = "history-copy-{}.sqlite3"
"""Name of an automatic copy: the latest local day that was practised when it was made."""
RECENT = 3
"""Number of the newest copies that are kept."""
MONTHLY = 3
"""Number of months before those copies of which the newest copy is kept too."""
SHARE = 10
"""How many times the size of all automatic copies has to be free on the disk beside them."""
PAGES = 64
"""Number of database pages copied at a time while a game runs, 64 KB: 0.2 to 0.4 ms."""
FAILED = "copy failed"
"""Key of the setting with the day whose copy could not be made, and why."""
NO_ROOM = f"it would take more than {1 / SHARE:.0%} of the free disk"
"""Reason why there is no copy of a history that is too large for its disk."""


class Usage(Protocol):
    """Interface of a disk's usage, as `shutil.disk_usage` gives it."""

    @property
    def free(self) -> int:
        """Free space that this program may use, in bytes."""
        ...


DiskUsage = Callable[[Path], Usage]
"""Function that gives the usage of the disk that a folder is on. Raises OSError."""


@dataclass(frozen=True)
class Copy:
    """One automatic copy of the history."""

    day: date
    """Latest local day that was practised when the copy was made."""
    path: Path
    """Path of the copy."""
    size: int
    """Size of the copy, in bytes."""


def automatic_copies(folder: Path) -> list[Copy]:
    """Automatic copies in a data folder, oldest first. Raises StoreError."""
    found = []
    try:
        for path in folder.glob(NAME.format("*")):
            day = day_of(path.name)
            if day is not None and path.is_file():
                found.append(Copy(day, path, path.stat().st_size))
    except OSError as error:
        raise StoreError(f"{folder}: expected a folder to read, found: {reason_of(error)}") from (
            error
        )
    return sorted(found, key=lambda copy: copy.day)


def newest_copies(folder: Path) -> list[Path]:
    """Paths of the automatic copies in a data folder, newest first. Raises StoreError."""
    return [copy.path for copy in reversed(automatic_copies(folder))]


def days_kept(days: Iterable[date]) -> list[date]:
    """Days whose copies are kept: the newest three, and the newest of three months before those.

    A month of which one of the newest three is needs no other, so that the six copies reach back
    as far as they can. The day that matters most comes first.
    """
    latest = sorted(days, reverse=True)
    recent, older = latest[:RECENT], latest[RECENT:]
    covered = {(day.year, day.month) for day in recent}
    months: dict[tuple[int, int], date] = {}
    for day in older:
        if (day.year, day.month) not in covered:
            months.setdefault((day.year, day.month), day)
    return [*recent, *list(months.values())[:MONTHLY]]


def day_without_copy(history: History, today: date) -> date | None:
    """Latest day practised up to today, if it has no copy yet; else None. Raises StoreError."""
    with history.reading() as db:
        day = latest_day(db, today)
    has_copy = day is None or history.path.with_name(NAME.format(day.isoformat())).exists()
    return None if has_copy else day


def latest_day(db: sqlite3.Connection, today: date) -> date | None:
    """Latest local day practised up to today; None if there is none.

    Raises CellError, sqlite3.Error.
    """
    found = db.execute("SELECT max(day) FROM day WHERE day <= ?", (today.isoformat(),)).fetchone()[
        0
    ]
    return None if found is None else Row("newest day").day("day", found)


def make_copy(
    history: History, day: date, tell: Tell, usage: DiskUsage = shutil.disk_usage
) -> None:
    """Make the automatic copy of a day, then remove those that need not be kept.

    `tell` is called every few milliseconds. Nothing is done while another program makes a copy in
    the same folder. Raises StoreError; no copy is removed then.
    """
    lock = hold_copying(history.path)
    if lock is None:
        return
    with closing(lock):
        folder, file = history.path.parent, history.path.with_name(NAME.format(day.isoformat()))
        _remove_unfinished(folder)
        if file.exists():
            return
        if not places(history.path, usage):
            raise StoreError(NO_ROOM)
        back_up(history, file, tell, PAGES)
        _remove_needless(folder, day, usage)


def places(history: Path, usage: DiskUsage = shutil.disk_usage) -> int:
    """Number of copies of a history file that the disk has room for: at most all that are kept.

    Raises StoreError.
    """
    try:
        room = _room(history.parent, automatic_copies(history.parent), usage)
        return min(room // max(history.stat().st_size, 1), RECENT + MONTHLY)
    except OSError as error:
        raise StoreError(f"{history}: expected a file to copy, found: {reason_of(error)}") from (
            error
        )


def _room(folder: Path, there: Sequence[Copy], usage: DiskUsage) -> int:
    """Most bytes that all copies may take, so that SHARE times as much stays free. Raises OSError.

    `there` are the copies that are on the disk already.
    """
    return (usage(folder).free + sum(copy.size for copy in there)) // (SHARE + 1)


def _remove_needless(folder: Path, made: date, usage: DiskUsage) -> None:
    """Remove the copies that are not kept or have no room; that of the day `made` stays."""
    there = {copy.day: copy for copy in automatic_copies(folder)}
    with suppress(OSError):
        room = _room(folder, list(there.values()), usage)
        # A clock that was ahead may have left copies of days to come.
        ordered = dict.fromkeys([made, *days_kept(there)])
        for day in ordered:
            room -= there[day].size
            if room < 0 and day != made:
                break
            del there[day]
        for copy in there.values():
            copy.path.unlink(missing_ok=True)


def _remove_unfinished(folder: Path) -> None:
    """Remove what a copy that was killed has left."""
    with suppress(OSError):
        for part in folder.glob(NAME.format("*") + PART + "*"):
            part.unlink(missing_ok=True)


def day_of(name: str) -> date | None:
    """Day of the automatic copy with this file name; None for another file."""
    before, after = NAME.split("{}")
    try:
        day = date.fromisoformat(name.removeprefix(before).removesuffix(after))
    except ValueError:
        return None
    return day if name == NAME.format(day.isoformat()) else None
