"""Opening of a history file, with the checks that it is one and of a known version."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from contextlib import ExitStack, closing
from pathlib import Path

from drills.level import Level
from engine.errors import reason_of
from engine.store.error import StoreError
from engine.store.history import FILE, History, errors_of
from engine.store.lock import hold_open
from engine.store.migrate import fill_ledger, migrate, version
from engine.store.reopening import Reopening
from engine.store.schema import MIGRATIONS
from engine.store.trouble import OnTrouble, give_up

PAGE = 1024
"""Page size of a new history file, in bytes: a packed trace leaves little of its last page unused.

Of the sizes from 512 to 65536 only the smallest and the largest leave less; the smallest has more
pages to go through, and the largest writes a megabyte a repetition.
"""


def is_new(folder: Path) -> bool:
    """Whether a data folder has no history yet; false if a file is in the folder's place.

    Also false if the folder may not be looked into: opening the history then says what is wrong.
    """
    try:
        return not folder.is_file() and not (folder / FILE).exists()
    except OSError:
        return False


def open_history(
    folder: Path,
    levels: Iterable[Level],
    patience: float = 2.0,
    on_trouble: OnTrouble = give_up,
) -> History:
    """Open the history in a data folder, making both if they do not exist yet.

    `levels` are all levels, the player's own too: repetitions of a version 1 file have no pass rule
    and take that of their level. `patience` is how long to wait for another program that writes, in
    s. `on_trouble` is asked whether to try again when the open file can be read or written no more.
    Raises StoreError if the folder or file cannot be used; the history is unchanged then.
    """
    path, known = folder / FILE, tuple(levels)

    def open_files() -> tuple[sqlite3.Connection, sqlite3.Connection]:
        return _open(path, known, patience)

    make_folder(folder)
    lock, db = open_files()
    return History(path, lock, db, on_trouble, Reopening(path, open_files))


def _open(
    path: Path, levels: Iterable[Level], patience: float
) -> tuple[sqlite3.Connection, sqlite3.Connection]:
    """Lock and database of the history file at `path`; see `open_history`. Raises StoreError."""
    with ExitStack() as stack:
        lock = stack.enter_context(closing(hold_open(path, patience)))
        db = stack.enter_context(closing(connect(path, patience)))
        with errors_of(path):
            prepare(db, path, levels)
        stack.pop_all()
    return lock, db


def make_folder(folder: Path) -> None:
    """Make a data folder if it does not exist yet. Raises StoreError."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except FileExistsError as error:
        raise StoreError(f"{folder}: expected a folder to write to, found a file") from error
    except OSError as error:
        raise StoreError(
            f"{folder}: expected a folder to write to, found: {reason_of(error)}"
        ) from error


def connect(path: Path, patience: float) -> sqlite3.Connection:
    """Connection to a database file, in autocommit mode. Raises StoreError.

    `patience` is how long to wait for another program that writes, in s.
    """
    try:
        return sqlite3.connect(path, timeout=patience, isolation_level=None)
    except sqlite3.Error as error:
        raise StoreError(f"{path}: cannot be opened: {error}") from error


def prepare(db: sqlite3.Connection, path: Path, levels: Iterable[Level]) -> None:
    """Bring a history's database to the newest version, and make sure it can be written.

    `path` is its name in errors, `levels` are as in `open_history`. Raises StoreError, CellError,
    sqlite3.Error; the file is unchanged then.
    """
    check_version(db, path)
    db.execute(f"PRAGMA page_size = {PAGE}")
    db.execute("PRAGMA foreign_keys = ON")
    db.execute("PRAGMA synchronous = FULL")
    migrate(db, rules={level.id: level.rule for level in levels}, finish=fill_ledger)
    _refuse_read_only(db)


def check_version(db: sqlite3.Connection, path: Path) -> int:
    """Version of a history's database; 0 for an empty file.

    Raises StoreError if it is of a newer stillfoot or a database of something else.
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
    """Raise sqlite3.Error for a read-only file: write what is there already, and undo it."""
    db.execute("BEGIN IMMEDIATE")
    try:
        db.execute(f"PRAGMA user_version = {version(db)}")
    finally:
        if db.in_transaction:
            db.execute("ROLLBACK")
