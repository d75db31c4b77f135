"""Text of `stillfoot backup --list`: the automatic copies, and why the newest is not newer."""

from __future__ import annotations

import json
import os
import shutil
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from engine.commands.data import repetitions
from engine.store.cells import CellError
from engine.store.copies import (
    FAILED,
    MONTHLY,
    NO_ROOM,
    RECENT,
    SHARE,
    Copy,
    DiskUsage,
    automatic_copies,
    latest_day,
    places,
)
from engine.store.history import FILE

NONE_YET = "No copies yet. The game makes one after a day's first session.\n"
"""Text where nothing was practised yet."""
TODAY = " yet: it comes after five minutes, or when you leave"
"""What the copy of this day waits for where nothing is known to be in its way."""
EARLIER = " yet: it comes when the game starts"
"""What the copy of an earlier day waits for where nothing is known to be in its way."""

MOST = f"together they take at most {1 / SHARE:.0%} of the free disk"
"""Reason why there is room for fewer copies than are kept elsewhere."""


@dataclass(frozen=True)
class _Practised:
    """What a history says of its copies."""

    day: date
    """Latest local day practised."""
    failure: str
    """Why that day's copy failed; empty if it did not."""


def copy_list(folder: Path, today: date, usage: DiskUsage = shutil.disk_usage) -> str:
    """List of the automatic copies in a data folder, one a line, oldest first.

    It needs no history, and no copy that can be read. Raises StoreError if the folder cannot be
    read.
    """
    copies = automatic_copies(folder)
    lines = [f"{_line(copy)}\n" for copy in copies]
    practised = _practised(folder / FILE, today)
    if practised is None:
        return "".join(lines) or NONE_YET
    if practised.day not in [copy.day for copy in copies]:
        why_not = _why_not(folder, practised, today, usage)
        lines.append(f"No copy of {practised.day}{why_not}.\n")
    room = places(folder / FILE, usage)
    if room < RECENT + MONTHLY:
        lines.append(f"Room for {room} of {RECENT + MONTHLY} copies: {MOST}.\n")
    return "".join(lines)


def _line(copy: Copy) -> str:
    """Date, repetitions, size and path of a copy."""
    try:
        with closing(_read_only(copy.path)) as db:
            holds = repetitions(db.execute("SELECT count(*) FROM repetition").fetchone()[0])
    except sqlite3.Error:
        holds = "cannot be read"
    return f"{copy.day}  {holds:>19}  {copy.size / 1e6:>9,.1f} MB  {copy.path}"


def _practised(history: Path, today: date) -> _Practised | None:
    """What a history says of its copies; None if it cannot be read or has no practice."""
    try:
        with closing(_read_only(history)) as db:
            day = latest_day(db, today)
            found = db.execute("SELECT value FROM setting WHERE key = ?", (FAILED,)).fetchone()
        failed = json.loads(found[0]) if found else {}
        if day is None:
            return None
        is_of_day = isinstance(failed, dict) and failed.get("day") == day.isoformat()
        return _Practised(day, str(failed.get("why", "")) if is_of_day else "")
    except (sqlite3.Error, CellError, ValueError, TypeError):
        return None


def _why_not(folder: Path, practised: _Practised, today: date, usage: DiskUsage) -> str:
    """End of the sentence that the latest day practised has no copy. Raises StoreError."""
    if not places(folder / FILE, usage):
        return f": {NO_ROOM}"
    if not os.access(folder, os.W_OK, effective_ids=os.access in os.supports_effective_ids):
        return f": {folder} cannot be written to"
    if practised.failure:
        return f": {practised.failure}"
    return TODAY if practised.day == today else EARLIER


def _read_only(file: Path) -> sqlite3.Connection:
    """Connection to a history file that changes nothing. Raises sqlite3.Error."""
    return sqlite3.connect(f"{file.absolute().as_uri()}?mode=ro", uri=True)
