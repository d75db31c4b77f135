"""An open history file: brought to the newest version, read, and written in transactions."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Self

from drills.level import Level
from engine.store.cells import CellError
from engine.store.lock import in_use
from engine.store.records import StoreError
from engine.store.schema import MIGRATIONS, fill_ledger, migrate, version

PAGE = 1024
"""Page size of a new file, in bytes: a packed trace leaves little of its last page unused.

Of the sizes from 512 to 65536 only the two ends leave less, and the one has more pages to go
through, the other writes a megabyte a repetition.
"""


class HistoryFile:
    """An open history file; a context manager that closes it."""

    def __init__(self, path: Path, lock: sqlite3.Connection, db: sqlite3.Connection) -> None:
        """`lock` keeps the file from being replaced, `db` is in autocommit mode; both are closed
        with the file. To be called by `open_history` alone.
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
        """The file."""
        return self._path

    def close(self) -> None:
        """Close the file."""
        self._db.close()
        self._lock.close()

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """The database, to read from. What goes wrong with it is raised as StoreError."""
        with errors_of(self._path):
            yield self._db

    @contextmanager
    def transaction(self) -> Iterator[sqlite3.Connection]:
        """The database, to write to: committed at the end, undone where anything is raised.

        What goes wrong with it is raised as StoreError.
        """
        with self.reading() as db, one_transaction(db):
            yield db


def make_folder(folder: Path) -> None:
    """Make a data folder where there is none yet. Raises StoreError."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except FileExistsError as error:
        raise StoreError(f"{folder}: expected a folder to write to, found a file") from error
    except OSError as error:
        raise StoreError(
            f"{folder}: expected a folder to write to, found: {error.strerror}"
        ) from error


def connect(path: Path, patience: float) -> sqlite3.Connection:
    """A connection to a database file, in autocommit mode. Raises StoreError.

    `patience` is how long to wait for another program that writes, in s.
    """
    try:
        return sqlite3.connect(path, timeout=patience, isolation_level=None)
    except sqlite3.Error as error:
        raise StoreError(f"{path}: cannot be opened: {error}") from error


@contextmanager
def errors_of(path: Path) -> Iterator[None]:
    """What goes wrong with a history file, raised as StoreError that names it."""
    try:
        yield
    except CellError as error:
        raise StoreError(f"{path}: {error}") from error
    except sqlite3.Error as error:
        if "locked" in str(error):
            raise in_use(path) from error
        found = str(error)
        raise StoreError(
            f"{path}: expected a history that can be written, found: {found}"
        ) from error


@contextmanager
def one_transaction(db: sqlite3.Connection) -> Iterator[None]:
    """A transaction that is committed at the end, and undone where anything is raised."""
    db.execute("BEGIN IMMEDIATE")
    try:
        yield
        db.execute("COMMIT")
    except BaseException:
        if db.in_transaction:
            db.execute("ROLLBACK")
        raise


def prepare(db: sqlite3.Connection, path: Path, levels: Iterable[Level]) -> None:
    """Bring a database to the newest version of a history, and make sure it can be written.

    `path` is what errors call it, `levels` are as in `open_history`. Raises StoreError, CellError,
    sqlite3.Error; the file stays as it was then.
    """
    check_version(db, path)
    db.execute(f"PRAGMA page_size = {PAGE}")
    db.execute("PRAGMA foreign_keys = ON")
    db.execute("PRAGMA synchronous = FULL")
    migrate(db, rules={level.id: level.rule for level in levels}, finish=fill_ledger)
    _refuse_read_only(db)


def check_version(db: sqlite3.Connection, path: Path) -> int:
    """The version of a history, 0 for an empty file.

    Raises StoreError for one of a newer stillfoot or a database of something else.
    """
    found = version(db)
    if not 0 <= found <= len(MIGRATIONS):
        newer = ", made by a newer stillfoot" if found > 0 else ""
        raise StoreError(
            f"{path}: expected a history of version {len(MIGRATIONS)} or older, "
            f"found version {found}{newer}"
        )
    tables = db.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
    if found == 0 and tables:
        raise StoreError(f"{path}: expected a history, found a database of something else")
    return found


def _refuse_read_only(db: sqlite3.Connection) -> None:
    """Write what is there already: SQLite lets a transaction begin on a read-only file."""
    db.execute("BEGIN IMMEDIATE")
    try:
        db.execute(f"PRAGMA user_version = {version(db)}")
    finally:
        if db.in_transaction:
            db.execute("ROLLBACK")
