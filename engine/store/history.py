"""The history file: repetitions with their traces, where they leave the player, and settings."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import fields
from datetime import date
from pathlib import Path
from typing import Any, Self

from drills.level import PassRule
from drills.measures.sampling import Sampling
from drills.trace import Trace
from engine.practice.progress import LevelStanding
from engine.practice.results import Result, Standing
from engine.store import ledger
from engine.store.cells import CellError, Row
from engine.store.raw import RawTrace
from engine.store.records import Record, StoreError
from engine.store.repetitions import add_guess, add_repetition, guesses, results
from engine.store.schema import MIGRATIONS, migrate, version
from engine.store.traces import keep_trace, pack_trace, read_trace

FILE = "history.sqlite3"
"""Name of the history file in the data folder."""
PLACED = "placed"
"""Setting: ids of the levels that a placing set went past."""
PAGE = 1024
"""bytes, page of a new file: a packed trace leaves little of its last one unused (measured from 512
to 65536: only 512 and 65536 leave less, and the one has more pages to go through, the other writes
a megabyte a repetition)."""


class History:
    """Everything a player has done; a context manager that closes the file."""

    def __init__(
        self, folder: Path, rules: Mapping[str, PassRule] | None = None, patience: float = 2.0
    ) -> None:
        """Open the history in `folder`, making both where they are not there yet.

        `rules` are the pass rules in force by level id: a history of version 1 does not say its
        own. `patience` is s to wait for another program that writes. Raises StoreError where the
        folder or file cannot be used; nothing is changed then.
        """
        self._path = folder / FILE
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise StoreError(
                f"{folder}: expected a folder to write to, found: {error.strerror}"
            ) from error
        try:
            self._db = sqlite3.connect(self._path, timeout=patience, isolation_level=None)
        except sqlite3.Error as error:
            raise StoreError(f"{self._path}: cannot be opened: {error}") from error
        try:
            with self._reading():
                self._prepare(rules or {})
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

    def add(self, record: Record) -> int:
        """Keep one repetition; its number. Committed on return. Raises StoreError."""
        packed = None if record.trace is None else pack_trace(record.trace, record.calibration)
        with self._transaction():
            number, result = add_repetition(self._db, record)
            if packed is not None:
                keep_trace(self._db, number, packed, record.calibration)
            ledger.enter(self._db, result)
        return number

    def keep_guess(self, number: int, value: float, measure: str) -> None:
        """Keep what was guessed of a measure of one repetition. Raises StoreError."""
        with self._transaction():
            add_guess(self._db, number, value, measure)

    def guesses(self, level: str) -> list[tuple[float, float]]:
        """What was guessed on a level and what it was, oldest first. Raises StoreError."""
        with self._reading():
            return guesses(self._db, level)

    def standing(self, today: date) -> Standing:
        """Where the player stands on a day. Raises StoreError."""
        with self._reading():
            return ledger.standing(self._db, today)

    def level_standing(self, level: str) -> LevelStanding:
        """How the level with this id stands. Raises StoreError."""
        with self._reading():
            return ledger.level_standing(self._db, level)

    def passed(self) -> frozenset[str]:
        """Ids of the levels passed. Raises StoreError."""
        with self._reading():
            return ledger.passed(self._db)

    def placed(self) -> frozenset[str]:
        """Ids of the levels that a placing set went past. Raises StoreError."""
        kept = self.setting(PLACED)
        if kept is None:
            return frozenset()
        if not isinstance(kept, list) or not all(isinstance(one, str) for one in kept):
            raise StoreError(
                f"{self.path}: setting '{PLACED}': expected a list of ids, found {kept!r:.60}"
            )
        return frozenset(kept)

    def keep_placed(self, levels: Iterable[str]) -> None:
        """Keep that a placing set went past these levels too. Raises StoreError."""
        self.keep_setting(PLACED, sorted(self.placed().union(levels)))

    def rebuild(self) -> None:
        """Make what is passed, the streaks and today anew; needed only where they were damaged.

        The time grows with the history. Raises StoreError.
        """
        with self._transaction():
            ledger.rebuild(self._db, results(self._db))

    def results(self) -> list[Result]:
        """Every repetition, oldest first, as the rules of practice see it; grows with the history.

        Raises StoreError.
        """
        with self._reading():
            return list(results(self._db))

    def measures(self, number: int) -> dict[str, float | None]:
        """The measures of one repetition by name. Raises StoreError."""
        row = Row(f"repetition {number}")
        with self._reading():
            found = self._db.execute(
                "SELECT measure_name.name, value"
                " FROM measure JOIN measure_name ON measure_name.id = measure.name"
                " WHERE repetition = ?",
                (number,),
            )
            return {row.text("measure", name): row.number(name, value) for name, value in found}

    def trace(self, number: int) -> Trace | None:
        """The trace of one repetition, on the grid it was measured on; None where it has none.

        Raises StoreError.
        """
        found = self._trace(number)
        return found.trace() if isinstance(found, RawTrace) else found

    def raw_trace(self, number: int) -> RawTrace | None:
        """The axis counts of one repetition, to be measured anew under another calibration.

        None where it has no trace, or one that is kept as percent. Raises StoreError.
        """
        found = self._trace(number)
        return found if isinstance(found, RawTrace) else None

    def sampling(self, number: int) -> Sampling:
        """How well one repetition was sampled. Raises StoreError."""
        names = [field.name for field in fields(Sampling)]
        row = Row(f"repetition {number}")
        with self._reading():
            found = self._repetition(number, ", ".join(names))
            return Sampling(
                *(row.number(name, value) for name, value in zip(names, found, strict=True))
            )

    def setting(self, key: str) -> Any:
        """A saved setting as plain data; None where there is none. Raises StoreError."""
        with self._reading():
            found = self._db.execute("SELECT value FROM setting WHERE key = ?", (key,)).fetchone()
            return None if found is None else Row(f"setting '{key}'").json("value", found[0])

    def keep_setting(self, key: str, value: Any) -> None:
        """Save a setting (plain data). Committed on return. Raises StoreError."""
        with self._transaction():
            self._db.execute(
                "INSERT INTO setting (key, value) VALUES (?, ?)"
                " ON CONFLICT (key) DO UPDATE SET value = excluded.value",
                (key, json.dumps(value)),
            )

    def _trace(self, number: int) -> RawTrace | Trace | None:
        with self._reading():
            self._repetition(number, "id")
            return read_trace(self._db, number)

    def _repetition(self, number: int, columns: str) -> tuple[object, ...]:
        found: tuple[object, ...] | None = self._db.execute(
            f"SELECT {columns} FROM repetition WHERE id = ?", (number,)
        ).fetchone()
        if found is None:
            raise StoreError(f"{self._path}: no repetition {number}")
        return found

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
