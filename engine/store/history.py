"""The history file: repetitions with their raw traces, and the settings of the rig."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import astuple
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, Self

from drills.measures.sampling import Sampling
from drills.trace import Trace, TraceError
from engine.practice.results import Result
from engine.store.records import Record, StoreError
from engine.store.schema import MIGRATIONS, migrate, version

FILE = "history.sqlite3"
"""Name of the history file in the data folder."""


class History:
    """Everything a player has done; a context manager that closes the file."""

    def __init__(self, folder: Path) -> None:
        """Open the history in `folder`, making both where they are not there yet.

        Raises StoreError where the folder or file cannot be used; nothing is changed then.
        """
        self._path = folder / FILE
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise StoreError(
                f"{folder}: expected a folder to write to, found: {error.strerror}"
            ) from error
        try:
            self._db = sqlite3.connect(self._path, timeout=2.0, isolation_level=None)
        except sqlite3.Error as error:
            raise StoreError(f"{self._path}: cannot be opened: {error}") from error
        try:
            self._prepare()
        except BaseException:
            self._db.close()
            raise

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """Close the file."""
        self._db.close()

    def add(self, record: Record) -> int:
        """Keep one repetition; its number. Committed on return. Raises StoreError."""
        verdict = record.verdict
        utc = record.at.astimezone(UTC)
        offset = record.at.utcoffset() or timedelta(0)
        row = (
            record.level,
            record.kind,
            record.source,
            utc.isoformat(timespec="milliseconds"),
            round(offset.total_seconds() / 60),
            record.target,
            record.tolerance,
            verdict.score,
            verdict.clean,
            verdict.void,
            verdict.reason.value,
            json.dumps(verdict.over),
            record.dark,
            json.dumps(record.cues),
            *(astuple(record.sampling) if record.sampling else (None,) * 4),
            None if record.trace is None else record.trace.changes().pack(),
        )
        with self._transaction():
            cursor = self._db.execute(
                "INSERT INTO repetition (level, kind, source, at_utc, offset, target, tolerance,"
                " score, clean, void, reason, over, dark_ns, cues_ns, rate, gap_p99, gap_max,"
                f" resolution, trace) VALUES ({', '.join('?' * len(row))})",
                row,
            )
            number = int(cursor.lastrowid or 0)
            self._db.executemany(
                "INSERT INTO measure (repetition, name, value) VALUES (?, ?, ?)",
                [(number, name, value) for name, value in verdict.measures.items()],
            )
        return number

    def results(self) -> list[Result]:
        """Every repetition, oldest first, as the rules of practice see it. Raises StoreError."""
        with self._reading():
            rows = self._db.execute(
                "SELECT level, at_utc, offset, score, clean, void FROM repetition ORDER BY id"
            ).fetchall()
        return [
            Result(
                level,
                (datetime.fromisoformat(at) + timedelta(minutes=offset)).date(),
                score,
                bool(clean),
                bool(void),
            )
            for level, at, offset, score, clean, void in rows
        ]

    def measures(self, number: int) -> dict[str, float | None]:
        """The measures of one repetition by name. Raises StoreError."""
        with self._reading():
            return dict(
                self._db.execute(
                    "SELECT name, value FROM measure WHERE repetition = ?", (number,)
                ).fetchall()
            )

    def trace(self, number: int) -> Trace | None:
        """The raw trace of one repetition; None where it has none. Raises StoreError."""
        with self._reading():
            row = self._db.execute(
                "SELECT trace FROM repetition WHERE id = ?", (number,)
            ).fetchone()
        if row is None:
            raise StoreError(f"{self._path}: no repetition {number}")
        try:
            return None if row[0] is None else Trace.unpack(row[0])
        except TraceError as error:
            raise StoreError(f"{self._path}: repetition {number}: {error}") from error

    def sampling(self, number: int) -> Sampling:
        """How well one repetition was sampled. Raises StoreError."""
        with self._reading():
            row = self._db.execute(
                "SELECT rate, gap_p99, gap_max, resolution FROM repetition WHERE id = ?", (number,)
            ).fetchone()
        if row is None:
            raise StoreError(f"{self._path}: no repetition {number}")
        return Sampling(*row)

    def setting(self, key: str) -> Any:
        """A saved setting as plain data; None where there is none. Raises StoreError."""
        with self._reading():
            row = self._db.execute("SELECT value FROM setting WHERE key = ?", (key,)).fetchone()
        return None if row is None else json.loads(row[0])

    def keep_setting(self, key: str, value: Any) -> None:
        """Save a setting (plain data). Committed on return. Raises StoreError."""
        with self._transaction():
            self._db.execute(
                "INSERT INTO setting (key, value) VALUES (?, ?)"
                " ON CONFLICT (key) DO UPDATE SET value = excluded.value",
                (key, json.dumps(value)),
            )

    def _prepare(self) -> None:
        try:
            found = version(self._db)
            if found > len(MIGRATIONS):
                raise StoreError(
                    f"{self._path}: expected a history of version {len(MIGRATIONS)} or older, "
                    f"found version {found}, made by a newer stillfoot"
                )
            tables = self._db.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
            if found == 0 and tables:
                raise StoreError(
                    f"{self._path}: expected a history, found a database of something else"
                )
            self._db.execute("PRAGMA foreign_keys = ON")
            self._db.execute("PRAGMA synchronous = FULL")
            migrate(self._db)
            self._refuse_read_only()
        except sqlite3.Error as error:
            raise self._plainly(error) from error

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
        except (sqlite3.Error, json.JSONDecodeError) as error:
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
