"""The file of a history: opened, brought to the newest version, read and written as a whole."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Self

from drills.level import PassRule
from engine.store.cells import CellError
from engine.store.records import StoreError
from engine.store.schema import MIGRATIONS, migrate, version

PAGE = 1024
"""bytes, page of a new file: a packed trace leaves little of its last one unused (measured from 512
to 65536: only 512 and 65536 leave less, and the one has more pages to go through, the other writes
a megabyte a repetition)."""


class HistoryFile:
    """An open history file; a context manager that closes it."""

    def __init__(self, path: Path, rules: Mapping[str, PassRule], patience: float) -> None:
        """Open the file, making it and its folder where they are not there yet.

        `rules` and `patience` as in History. Raises StoreError where the folder or file cannot be
        used; nothing is changed then.
        """
        self._path = path
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
        except FileExistsError as error:
            raise StoreError(
                f"{path.parent}: expected a folder to write to, found a file"
            ) from error
        except OSError as error:
            raise StoreError(
                f"{path.parent}: expected a folder to write to, found: {error.strerror}"
            ) from error
        try:
            self._db = sqlite3.connect(path, timeout=patience, isolation_level=None)
        except sqlite3.Error as error:
            raise StoreError(f"{path}: cannot be opened: {error}") from error
        try:
            with self._reading():
                self._prepare(rules)
        except BaseException:
            self._db.close()
            raise

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

    def _prepare(self, rules: Mapping[str, PassRule]) -> None:
        found = version(self._db)
        if not 0 <= found <= len(MIGRATIONS):
            newer = ", made by a newer stillfoot" if found > 0 else ""
            raise StoreError(
                f"{self._path}: expected a history of version {len(MIGRATIONS)} or older, "
                f"found version {found}{newer}"
            )
        tables = self._db.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
        if found == 0 and tables:
            raise StoreError(
                f"{self._path}: expected a history, found a database of something else"
            )
        self._db.execute(f"PRAGMA page_size = {PAGE}")
        self._db.execute("PRAGMA foreign_keys = ON")
        self._db.execute("PRAGMA synchronous = FULL")
        migrate(self._db, rules=rules)
        self._refuse_read_only()

    def _refuse_read_only(self) -> None:
        """Write what is there already: SQLite lets a transaction begin on a read-only file."""
        self._db.execute("BEGIN IMMEDIATE")
        try:
            self._db.execute(f"PRAGMA user_version = {version(self._db)}")
        finally:
            if self._db.in_transaction:
                self._db.execute("ROLLBACK")

    @contextmanager
    def _reading(self) -> Iterator[None]:
        try:
            yield
        except CellError as error:
            raise StoreError(f"{self._path}: {error}") from error
        except sqlite3.Error as error:
            raise self._plainly(error) from error

    @contextmanager
    def _transaction(self) -> Iterator[None]:
        with self._reading():
            self._db.execute("BEGIN IMMEDIATE")
            try:
                yield
                self._db.execute("COMMIT")
            except BaseException:
                if self._db.in_transaction:
                    self._db.execute("ROLLBACK")
                raise

    def _plainly(self, error: Exception) -> StoreError:
        found = str(error)
        if "locked" in found:
            return StoreError(f"{self._path}: in use by another stillfoot; close that one first")
        return StoreError(f"{self._path}: expected a history that can be written, found: {found}")
