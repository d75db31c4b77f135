"""Opening of a history file once more, after it could not be read or written.

Where the file was deleted or replaced, the open connection still reads the history (on POSIX
systems): it is put back, or kept beside the file that took its place. So nothing is lost.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from itertools import count
from pathlib import Path

from engine.errors import reason_of
from engine.store.error import StoreError
from engine.store.history import errors_of
from engine.store.lock import hold_alone

ASIDE = "history-before-replaced-{}.sqlite3"
"""Name of the copy of a history that another file took the place of, with the first free number."""
PAGES = 4096
"""Number of database pages copied at a time, 4 MB."""

Files = tuple[sqlite3.Connection, sqlite3.Connection]
"""Lock of a history file, and its database."""


class Reopening:
    """Opens a history file once more: where it was, where it is back, or put back."""

    def __init__(self, path: Path, open_files: Callable[[], Files]) -> None:
        """`open_files` opens the file at `path`, with all checks. Called when it is open."""
        self._path = path
        self._open_files = open_files
        self._opened = _identity(path)

    def __call__(self, lock: sqlite3.Connection, db: sqlite3.Connection) -> Files:
        """Open the file once more and close its old lock and database.

        Raises StoreError; the old database stays open then.
        """
        now = _identity(self._path)
        if now is None:
            # Held by us, it would keep the file from being put back.
            lock.close()
            _put_back(db, self._path)
        elif now != self._opened:
            _keep_beside(db, self._path)
        files = self._open_files()
        self._opened = _identity(self._path)
        lock.close()
        db.close()
        return files


def _identity(path: Path) -> tuple[int, int] | None:
    """Device and number of a file, which tell it from one that takes its place; None for none."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino


def _put_back(db: sqlite3.Connection, path: Path) -> None:
    """Write a history that is in no folder any more to its place. Raises StoreError."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise _unwritable(path, reason_of(error)) from error
    with closing(hold_alone(path)):
        if _identity(path) is None:
            _copy(db, path)


def _keep_beside(db: sqlite3.Connection, path: Path) -> None:
    """Copy a history that was replaced to a new file beside its place. Raises StoreError.

    One that cannot be read any more is let go: its disk was taken out, and put in once more.
    """
    names = (path.with_name(ASIDE.format(number)) for number in count(1))
    try:
        db.execute("SELECT count(*) FROM repetition").fetchone()
    except sqlite3.Error:
        return
    _copy(db, next(name for name in names if not name.exists()))


def _copy(db: sqlite3.Connection, path: Path) -> None:
    """Copy a database to a file that does not exist yet, whole or not at all. Raises StoreError."""
    part = path.with_name(f"{path.name}.part")
    journals = [one.with_name(f"{one.name}-journal") for one in (part, path)]
    try:
        try:
            for left in (part, *journals):
                left.unlink(missing_ok=True)
            with errors_of(path), closing(sqlite3.connect(part)) as copy:
                db.backup(copy, pages=PAGES)
            part.replace(path)
        finally:
            part.unlink(missing_ok=True)
    except OSError as error:
        raise _unwritable(path, reason_of(error)) from error


def _unwritable(path: Path, found: str) -> StoreError:
    return StoreError(f"{path}: expected a file to write to, found: {found}")
