"""Open history file, for reading, transactions and settings.

Functions that read or write it take a `History`: those of several rooms are in this package, those
of one room in that room's `saved.py`.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Self, TypeVar

from engine.store.cells import CellError, Row
from engine.store.error import DamagedError, StoreError
from engine.store.lock import in_use

T = TypeVar("T")
PRIMARY = 0xFF
"""Bits of an error code of SQLite that name the kind of error; the others tell it more exactly."""
UNDECODABLE = "Could not decode to UTF-8"
"""First words of the error for a text in a cell that is not UTF-8; it has no error code."""
DAMAGE = ("no such table", "no such column", UNDECODABLE)
"""First words of errors that no error code of SQLite tells from others, and that only a damaged
history gives."""
FILE = "history.sqlite3"
"""Name of the history file in the data folder."""


class History:
    """Open history of a player: all repetitions and settings. A context manager closes the file."""

    def __init__(self, path: Path, lock: sqlite3.Connection, db: sqlite3.Connection) -> None:
        """Called by `open_history` alone; `lock` and `db` are closed with the history.

        `lock` keeps the file from being replaced; `db` is in autocommit mode.
        """
        self._path = path
        self._lock = lock
        self._db = db

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    @property
    def path(self) -> Path:
        """Path of the history file."""
        return self._path

    def close(self) -> None:
        """Close the history file and release its lock."""
        self._db.close()
        self._lock.close()

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """Context with the history's database, for reading. Errors are raised as StoreError."""
        with errors_of(self._path):
            yield self._db

    def write(self, change: Callable[[sqlite3.Connection], T]) -> T:
        """Make a change in one transaction: committed on return, or undone on any error.

        `change` is given the history's database, and its result is returned. It may be called more
        than once, each time on a history without its change. Raises StoreError.
        """
        with self.reading() as db, transaction(db):
            return change(db)

    def setting(self, key: str) -> Any:
        """Saved setting of a key as plain data; None if there is none. Raises StoreError."""
        with self.reading() as db:
            found = db.execute("SELECT value FROM setting WHERE key = ?", (key,)).fetchone()
            return None if found is None else Row(f"setting '{key}'").json("value", found[0])

    def keep_setting(self, key: str, value: Any) -> None:
        """Save a setting (plain data) under a key. Committed on return. Raises StoreError."""
        data = json.dumps(value)
        self.write(
            lambda db: db.execute(
                "INSERT INTO setting (key, value) VALUES (?, ?)"
                " ON CONFLICT (key) DO UPDATE SET value = excluded.value",
                (key, data),
            )
        )


@contextmanager
def errors_of(path: Path, use: str = "written") -> Iterator[None]:
    """Context that raises errors of the history file as StoreError, which names the file.

    `use` is what the file is needed for: to be "written" or "read".
    """
    try:
        yield
    except CellError as error:
        raise DamagedError(f"{path}: {error}") from error
    except UnicodeDecodeError as error:
        # Python makes it of an error of SQLite that quotes a damaged name.
        raise DamagedError(f"{path}: expected a whole history, found a name in bytes") from error
    except sqlite3.Error as error:
        if "locked" in str(error):
            raise in_use(path) from error
        if is_damage(error):
            raise DamagedError(f"{path}: expected a whole history, found: {error}") from error
        raise StoreError(f"{path}: expected a history that can be {use}, found: {error}") from error


def is_damage(error: sqlite3.Error) -> bool:
    """Whether SQLite says that a database is damaged: its pages, its tables or a text."""
    code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_OK) & PRIMARY
    damaged = code in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)
    return damaged or str(error).startswith(DAMAGE)


@contextmanager
def transaction(db: sqlite3.Connection) -> Iterator[None]:
    """Context of a database transaction: committed at the end, undone if anything is raised.

    The connection must be in autocommit mode. Raises sqlite3.Error.
    """
    db.execute("BEGIN IMMEDIATE")
    try:
        yield
        db.execute("COMMIT")
    except BaseException:
        if db.in_transaction:
            db.execute("ROLLBACK")
        raise
