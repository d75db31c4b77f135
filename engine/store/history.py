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
from engine.store.found_words import MISSING, PRIMARY, TWICE, UNDECODABLE, found_words
from engine.store.lock import in_use
from engine.store.trouble import OnTrouble, Trouble, cause_of, give_up, is_of_the_file

T = TypeVar("T")
DAMAGE = (*MISSING, UNDECODABLE)
"""First words of errors that no error code of SQLite tells from others, and that only a damaged
history gives."""
RAISED = "user-defined function raised exception"
"""First words of the error for an SQL function of this program that raised something."""
Change = Callable[[sqlite3.Connection], Any]
"""Change of a history, made in a transaction on its database."""
Reopen = Callable[
    [sqlite3.Connection, sqlite3.Connection], tuple[sqlite3.Connection, sqlite3.Connection]
]
"""Function that is given the lock and the database of a history, and opens both once more."""
FILE = "history.sqlite3"
"""Name of the history file in the data folder."""


class History:
    """Open history of a player: all repetitions and settings. A context manager closes the file."""

    def __init__(
        self,
        path: Path,
        lock: sqlite3.Connection,
        db: sqlite3.Connection,
        on_trouble: OnTrouble = give_up,
        reopen: Reopen | None = None,
    ) -> None:
        """Called by `open_history` alone; `lock` and `db` are closed with the history.

        `lock` keeps the file from being replaced; `db` is in autocommit mode. `on_trouble` is asked
        when the file cannot be read or written; before each new try `reopen` opens it once more.
        """
        self._path = path
        self._lock = lock
        self._db = db
        self._on_trouble = on_trouble
        self._reopen = reopen
        self._damage: DamagedError | None = None
        self.unwritten: list[tuple[Change, str]] = []
        """Changes that were not made as the history turned out damaged, and what each stores."""

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
        """Context with the history's database, for reading. Errors are raised as StoreError.

        That the file can be read is made sure first; what is done in the context is not repeated.
        """
        if not self._db.in_transaction:
            self._insist(lambda db: db.execute("PRAGMA schema_version").fetchone(), "")
        with errors_of(self._path):
            yield self._db

    def write(
        self, change: Callable[[sqlite3.Connection], T], what: str = "what you did last"
    ) -> T:
        """Make a change in one transaction: committed on return, or undone on any error.

        `change` is given the history's database, and its result is returned. It may be called more
        than once, each time on a history without its change. `what` says to the player what it
        stores, such as "one repetition". Raises StoreError.
        """

        def write(db: sqlite3.Connection) -> T:
            with transaction(db):
                return change(db)

        try:
            return self._insist(write, what)
        except DamagedError:
            self.unwritten.append((change, what))
            raise

    def try_again(self, error: StoreError, waiting: str = "") -> None:
        """Ask what to do about an error, and open the file once more; raises it to give up.

        `waiting` is as in `Trouble`. Raises DamagedError if the file is damaged.
        """
        while True:
            trouble = Trouble(cause_of(error, self._path), error, self._path, waiting)
            if not self._on_trouble(trouble):
                raise error
            try:
                if self._reopen is not None:
                    self._lock, self._db = self._reopen(self._lock, self._db)
                return
            except DamagedError:
                raise
            except StoreError as another:
                error = another

    def note_damage(self, damage: DamagedError) -> None:
        """Have damage that was found in the background raised by the next read or write."""
        self._damage = damage

    @contextmanager
    def without_asking(self) -> Iterator[None]:
        """Context in which nobody is asked about trouble, for work in the background."""
        asked, self._on_trouble = self._on_trouble, give_up
        try:
            yield
        finally:
            self._on_trouble = asked

    def _insist(self, work: Callable[[sqlite3.Connection], T], waiting: str) -> T:
        """Result of work on the database, tried again as often as `on_trouble` wants it.

        `waiting` is as in `Trouble`. Raises StoreError.
        """
        if self._damage is not None:
            raise self._damage
        while True:
            try:
                with errors_of(self._path):
                    return work(self._db)
            except StoreError as error:
                if isinstance(error, DamagedError) or not is_of_the_file(error):
                    raise
                self.try_again(error, waiting)

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
            ),
            "a setting",
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
        raise DamagedError(
            f"{path}: expected a whole history, found a name that is no text"
        ) from error
    except sqlite3.Error as error:
        if "locked" in str(error):
            raise in_use(path) from error
        if is_damage(error):
            found = found_words(error)
            raise DamagedError(f"{path}: expected a whole history, found {found}") from error
        expected = f"expected a history that can be {use}"
        raise StoreError(f"{path}: {expected}, found {found_words(error)}") from error


def is_damage(error: sqlite3.Error) -> bool:
    """Whether SQLite says that a database is damaged: its pages, its tables, a row or a text."""
    code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_OK)
    damaged = code & PRIMARY in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)
    return damaged or code in TWICE or str(error).startswith(DAMAGE)


def is_stopped(error: sqlite3.Error) -> bool:
    """Whether SQLite says that a function raised something which it called, as a signal does.

    That says nothing of the database, which SQLite would have gone on with.
    """
    code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_OK) & PRIMARY
    return code == sqlite3.SQLITE_INTERRUPT or str(error).startswith(RAISED)


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
