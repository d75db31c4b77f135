"""Opening of a history for reading only: nothing in the data folder is made or changed.

So a history can be read that may not be written, such as a backup on another disk, and while
another program writes to it. What cannot be read as it is, is read as a copy in memory.
"""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import ExitStack, closing, contextmanager
from pathlib import Path

from drills.level import Level
from engine.errors import reason_of
from engine.store.backup import copy_database, journal_of
from engine.store.error import DamagedError, StoreError
from engine.store.found_words import PRIMARY
from engine.store.history import FILE, History, errors_of
from engine.store.lock import hold_readable
from engine.store.opening import check_version, prepare
from engine.store.schema import MIGRATIONS
from engine.store.temporary import temporary_folder

CANNOT_ROLL_BACK = (sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_READONLY)
"""Kinds of error that SQLite gives where a transaction that a crash broke off must be undone before
a file can be read, but the file may not be written."""


@contextmanager
def open_for_reading(
    folder: Path, levels: Iterable[Level], patience: float = 2.0
) -> Iterator[History]:
    """Context with the history in a data folder, for reading only: `write` raises StoreError.

    One of an older version is brought to the newest in memory; `levels` are as in `open_history`.
    `patience` is how long to wait for another program that writes, in s. Raises StoreError if the
    file cannot be read, DamagedError if it is damaged.
    """
    path = folder / FILE
    _refuse_file(folder)
    with ExitStack() as stack:
        with errors_of(path, "read"):
            lock = stack.enter_context(closing(hold_readable(path, patience)))
            db = stack.enter_context(closing(_readable(path, patience)))
            found = check_version(db, path)
            if found == 0:
                raise DamagedError(f"{path}: expected a whole history, found none in it")
            if found < len(MIGRATIONS):
                db = stack.enter_context(closing(_in_memory(db)))
                prepare(db, path, levels)
            db.execute("PRAGMA query_only = ON")
        yield History(path, lock, db)


def _refuse_file(folder: Path) -> None:
    """Raise StoreError for anything but a folder, and for one that may not be looked into."""
    expected = f"{folder}: expected a folder with a history, found"
    try:
        if folder.exists() and not folder.is_dir():
            raise StoreError(f"{expected} a file")
    except OSError as error:
        raise StoreError(f"{expected}: {reason_of(error)}") from error


def _readable(path: Path, patience: float) -> sqlite3.Connection:
    """Connection to a history file that never writes to it.

    A file that SQLite would have to write to before it is read is read as a copy. Raises
    StoreError, sqlite3.Error.
    """
    db = _connect(path, patience)
    try:
        db.execute("SELECT count(*) FROM sqlite_master").fetchone()
        return db
    except (sqlite3.Error, UnicodeDecodeError) as error:
        db.close()
        kind = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_OK) & PRIMARY
        if kind not in CANNOT_ROLL_BACK or not journal_of(path).exists():
            raise
    return _rolled_back(path)


def _connect(path: Path, patience: float) -> sqlite3.Connection:
    """Connection to a database file for reading only, in autocommit mode. Raises sqlite3.Error."""
    uri = f"{path.absolute().as_uri()}?mode=ro"
    return sqlite3.connect(uri, uri=True, timeout=patience, isolation_level=None)


def _rolled_back(path: Path) -> sqlite3.Connection:
    """Copy in memory of a history file whose last transaction was broken off, and is undone in it.

    Raises StoreError, sqlite3.Error.
    """
    with temporary_folder() as folder:
        copy = folder / FILE
        try:
            shutil.copyfile(path, copy)
            shutil.copyfile(journal_of(path), journal_of(copy))
        except OSError as error:
            raise StoreError(
                f"{path}: expected a history to copy, found: {reason_of(error)}"
            ) from error
        with closing(sqlite3.connect(copy, isolation_level=None)) as db:
            return _in_memory(db)


def _in_memory(source: sqlite3.Connection) -> sqlite3.Connection:
    """Copy in memory of a whole database, in autocommit mode. Raises sqlite3.Error."""
    copy = sqlite3.connect(":memory:", isolation_level=None)
    try:
        copy_database(source, copy)
    except BaseException:
        copy.close()
        raise
    return copy
