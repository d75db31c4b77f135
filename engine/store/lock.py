"""Lock beside a history file: many programs may have it open, but only one may replace it.

The lock is SQLite's own, on an empty database, so it works on every system and ends with its
process, however that ends.
"""

from __future__ import annotations

import sqlite3
from pathlib import Path

from engine.store.error import InUseError, StoreError
from engine.store.found_words import found_words

LOCK = "history.lock"
"""Name of the file in the data folder that serves as the lock; nothing is ever written to it."""


def hold_open(history: Path, patience: float) -> sqlite3.Connection:
    """Keep a history file from being replaced, until the lock that is returned is closed.

    `patience` is how long to wait for a program that is replacing it, in s. Raises StoreError.
    """
    # A read whose transaction is not ended keeps a shared lock.
    return _lock(history, patience, "BEGIN", "SELECT count(*) FROM sqlite_master")


def hold_readable(history: Path, patience: float) -> sqlite3.Connection:
    """Keep a history file from being replaced, as `hold_open` does, without making the lock's file.

    Nothing is held where that file does not exist or may not be read. Raises StoreError.
    """
    path = history.with_name(LOCK)
    try:
        path.open("rb").close()
    except OSError:
        return sqlite3.connect(":memory:")
    return _lock(history, patience, "BEGIN", "SELECT count(*) FROM sqlite_master", mode="ro")


def hold_alone(history: Path) -> sqlite3.Connection:
    """Keep other programs from opening a history file, until the lock that is returned is closed.

    Raises StoreError if one of them has it open.
    """
    return _lock(history, 0.0, "BEGIN EXCLUSIVE")


def hold_copying(history: Path) -> sqlite3.Connection | None:
    """Keep other programs from making an automatic copy, until the lock that is returned is closed.

    None if one of them is making one. They may have the history open, and open it. Raises
    StoreError.
    """
    try:
        # Others may read beside it, and every open history holds a read of this lock. A journal in
        # a file would be left by a program that is killed.
        return _lock(history, 0.0, "PRAGMA journal_mode = MEMORY", "BEGIN IMMEDIATE")
    except InUseError:
        return None


def in_use(history: Path) -> InUseError:
    """Error for a history file that another program uses."""
    return InUseError(f"{history}: in use by another stillfoot; close that one first")


def cannot_open(path: Path, error: sqlite3.Error) -> StoreError:
    """Error for a history file that SQLite cannot open."""
    return StoreError(f"{path}: expected a history to open, found {found_words(error)}")


def _lock(
    history: Path, patience: float, *statements: str, mode: str = "rwc"
) -> sqlite3.Connection:
    """Lock that some statements take; `mode` is that of SQLite's URIs. Raises StoreError."""
    path = history.with_name(LOCK)
    uri = f"{path.absolute().as_uri()}?mode={mode}"
    try:
        lock = sqlite3.connect(uri, uri=True, timeout=patience, isolation_level=None)
    except sqlite3.Error as error:
        raise cannot_open(history, error) from error
    try:
        for statement in statements:
            lock.execute(statement).fetchall()
    except sqlite3.Error as error:
        lock.close()
        if "locked" in str(error):
            raise in_use(history) from error
        found = found_words(error)
        raise StoreError(f"{path}: expected a file to lock, found {found}") from error
    return lock
