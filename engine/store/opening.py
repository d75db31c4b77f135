"""Opening of a history file, with the checks that it is one and of a known version."""

from __future__ import annotations

import os
import re
import sqlite3
from collections.abc import Iterable
from contextlib import ExitStack, closing, suppress
from pathlib import Path
from secrets import token_hex

from drills.level import Level
from engine.errors import reason_of
from engine.store.error import DamagedError, StoreError
from engine.store.history import FILE, History, errors_of
from engine.store.lock import cannot_open, hold_open
from engine.store.migrate import fill_ledger, migrate, version
from engine.store.reopening import Reopening
from engine.store.schema import MIGRATIONS
from engine.store.trouble import OnTrouble, give_up

PAGE = 1024
"""Page size of a new history file, in bytes: a packed trace leaves little of its last page unused.

Of the sizes from 512 to 65536 only the smallest and the largest leave less; the smallest has more
pages to go through, and the largest writes a megabyte a repetition.
"""

HEADER = 100
"""Length of the header of every SQLite file, in bytes: a shorter file is none."""
FUTURE = 1000
"""Version that stillfoot does not come to: a file that says so, or more, is damaged."""
TABLE = re.compile(r"\s*CREATE TABLE (\w+)")
"""Beginning of a step of a migration that makes a table, with the table's name."""


def is_new(folder: Path) -> bool:
    """Whether a data folder has no history yet; false if anything but a folder is in its place.

    Also false if the folder may not be looked into: opening the history then says what is wrong.
    """
    try:
        return (folder.is_dir() or not folder.exists()) and not (folder / FILE).exists()
    except OSError:
        return False


def open_history(
    folder: Path,
    levels: Iterable[Level],
    patience: float = 2.0,
    on_trouble: OnTrouble = give_up,
) -> History:
    """Open the history in a data folder, making both if they do not exist yet.

    A new one has its name only when it is whole, so that no kill leaves an empty file there.

    `levels` are all levels, the player's own too: repetitions of a version 1 file have no pass rule
    and take that of their level. `patience` is how long to wait for another program that writes, in
    s. `on_trouble` is asked whether to try again when the open file can be read or written no more.
    Raises StoreError if the folder or file cannot be used, DamagedError if the file is damaged; the
    history is unchanged then.
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
        if is_new(path.parent):
            _make_history(path, levels)
        refuse_short(path)
        db = stack.enter_context(closing(connect(path, patience)))
        with errors_of(path):
            prepare(db, path, levels)
        stack.pop_all()
    return lock, db


def refuse_short(path: Path) -> None:
    """Raise DamagedError for a history file that is too short to be one."""
    try:
        length = path.stat().st_size if path.is_file() else HEADER
    except OSError:
        return
    if length < HEADER:
        raise DamagedError(f"{path}: expected a history of {HEADER} bytes or more, found {length}")


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
        # The daily copy is read through the game's own connection, from a thread of its own: so
        # what the game writes meanwhile goes into the copy, which would begin once more for what
        # another connection writes. SQLite lets only one thread at a time use a connection.
        return sqlite3.connect(
            path, timeout=patience, isolation_level=None, check_same_thread=False
        )
    except sqlite3.Error as error:
        raise cannot_open(path, error) from error


def prepare(db: sqlite3.Connection, path: Path, levels: Iterable[Level]) -> None:
    """Bring a history's database to the newest version, and make sure it can be written.

    `path` is its name in errors, `levels` are as in `open_history`. Raises StoreError, CellError,
    sqlite3.Error; the file is unchanged then.
    """
    found = check_version(db, path)
    _check_tables(db, path, found)
    db.execute(f"PRAGMA page_size = {PAGE}")
    db.execute("PRAGMA foreign_keys = ON")
    db.execute("PRAGMA synchronous = FULL")
    try:
        migrate(db, rules={level.id: level.rule for level in levels}, finish=fill_ledger)
    except sqlite3.OperationalError as error:
        if "duplicate column" in str(error):
            raise _other_tables(path, found) from error
        raise
    _refuse_read_only(db)


def check_version(db: sqlite3.Connection, path: Path) -> int:
    """Version of a history's database; 0 for an empty file.

    Raises StoreError if it is of a newer stillfoot or a database of something else, DamagedError if
    it has the tables of a history but a version that no stillfoot wrote.
    """
    found = version(db)
    if 1 <= found <= len(MIGRATIONS):
        return found
    tables = _tables(db)
    kind = DamagedError if _tables_of(len(MIGRATIONS)) & tables else StoreError
    if not 0 <= found < FUTURE:
        raise kind(
            f"{path}: expected a history of version {len(MIGRATIONS)} or older, "
            f"found version {found}"
        )
    if found:
        raise StoreError(
            f"{path}: expected a history of version {len(MIGRATIONS)} or older, "
            f"found version {found}, made by a newer stillfoot"
        )
    if tables:
        other = "one without a version" if kind is DamagedError else "a database of something else"
        raise kind(f"{path}: expected a history, found {other}")
    return 0


def _check_tables(db: sqlite3.Connection, path: Path, found: int) -> None:
    """Raise DamagedError unless a history has the tables of its version. Raises sqlite3.Error."""
    ours = _tables_of(len(MIGRATIONS))
    if _tables(db) & ours != _tables_of(found):
        raise _other_tables(path, found)


def _other_tables(path: Path, found: int) -> DamagedError:
    return DamagedError(
        f"{path}: expected the tables of a history of version {found}, found others"
    )


def _tables(db: sqlite3.Connection) -> frozenset[str]:
    found = db.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
    return frozenset(str(name) for (name,) in found)


def _tables_of(version: int) -> frozenset[str]:
    """Names of the tables that a history of a version has."""
    steps = (step for steps in MIGRATIONS[:version] for step in steps if isinstance(step, str))
    return frozenset(found[1] for step in steps if (found := TABLE.match(step)))


def _make_history(path: Path, levels: Iterable[Level]) -> None:
    """Make a new history under another name, and move it to its own.

    Another program that does so at the same time may be faster: its history stays. Raises
    StoreError, sqlite3.Error.
    """
    part = path.with_name(f"{path.name}.{token_hex(4)}.part")
    try:
        with closing(connect(part, 0.0)) as db, errors_of(path):
            prepare(db, path, levels)
        with suppress(FileExistsError):
            give_name(part, path)
    except OSError as error:
        raise StoreError(
            f"{path}: expected a file to write to, found: {reason_of(error)}"
        ) from error
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)
            part.with_name(f"{part.name}-journal").unlink(missing_ok=True)


def give_name(part: Path, path: Path) -> None:
    """Move a file to a name that is free. Raises FileExistsError if it is not, OSError."""
    try:
        os.link(part, path)
    except FileExistsError:
        raise
    except OSError:
        # Some disks have no second names for a file.
        if not path.exists():
            part.rename(path)


def _refuse_read_only(db: sqlite3.Connection) -> None:
    """Raise sqlite3.Error for a read-only file: write what is there already, and undo it."""
    db.execute("BEGIN IMMEDIATE")
    try:
        db.execute(f"PRAGMA user_version = {version(db)}")
    finally:
        if db.in_transaction:
            db.execute("ROLLBACK")
