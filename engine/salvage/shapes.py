"""Shapes of the tables of a history: which rows fit which table, and of which version a file is."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Sequence
from contextlib import closing
from dataclasses import dataclass

from engine.salvage.records import Value
from engine.store.migrate import migrate
from engine.store.schema import MIGRATIONS

LEDGER = frozenset({"progress", "day", "clean_row", "keeping", "personal"})
"""Tables that are computed from the repetitions."""
_TYPES: dict[str, tuple[type, ...]] = {
    "INTEGER": (int,),
    "REAL": (int, float),
    "TEXT": (str,),
    "BLOB": (bytes,),
}
"""Types of the values that a column of a type holds; whole numbers are stored short in REAL."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table."""

    name: str
    """Its name."""
    type: str
    """Its type in SQL."""
    needed: bool
    """Whether it must not be NULL."""
    added: bool
    """Whether rows that were stored before it was added to the table may be without it."""
    is_row_id: bool
    """Whether it is the row id, which is not stored among the values."""


@dataclass(frozen=True, slots=True)
class Shape:
    """One table of a history."""

    name: str
    """Its name."""
    columns: tuple[Column, ...]
    """Its columns in the order in which they are stored."""
    has_row_id: bool
    """Whether its rows are in a table B-tree, by their row id."""

    def row(self, key: Value, values: Sequence[Value]) -> tuple[Value, ...] | None:
        """A row of this table as SQLite would give it, without columns that it lacks.

        None if the values do not fit the table. `key` is the row id, where it has one.
        """
        if len(values) > len(self.columns) or not values:
            return None
        if not all(column.added for column in self.columns[len(values) :]):
            return None
        row: list[Value] = []
        for column, value in zip(self.columns, values, strict=False):
            if column.is_row_id:
                if value is not None:
                    return None
                value = key
            elif value is None:
                if column.needed:
                    return None
            elif not isinstance(value, _TYPES[column.type]):
                return None
            elif column.type == "REAL":
                value = float(value)
            row.append(value)
        return tuple(row)


def shapes_of(db: sqlite3.Connection) -> dict[str, Shape]:
    """Shapes of all tables of a database, by name. Raises sqlite3.Error."""
    found = db.execute("SELECT name, sql FROM sqlite_master WHERE type = 'table'").fetchall()
    return {str(name): _shape(db, str(name), str(sql)) for name, sql in found}


def shapes_of_version(version: int) -> dict[str, Shape]:
    """Shapes of the tables of a history of a version, from 1, by name."""
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as db:
        migrate(db, MIGRATIONS[:version])
        return shapes_of(db)


def version_of(statements: Iterable[str], in_header: int, columns: int) -> int:
    """Version of a damaged history: that with most of the statements found in its schema.

    `in_header` is what the file's header says, which decides where several have as many. Where no
    statement fits, `columns` decides, the most columns that a repetition was found with: the newest
    version that has no more of them than it must, as its tables take the rows of the one before
    too. The newest of all where none were found.
    """
    found = {_plain(statement) for statement in statements}
    newest = len(MIGRATIONS)
    if not found:
        if 1 <= in_header <= newest:
            return in_header
        longest = [len(shapes_of_version(v)["repetition"].columns) for v in range(1, newest + 1)]
        fewest = min((most for most in longest if most >= columns > 0), default=longest[-1])
        return newest - longest[::-1].index(fewest)
    shared = {version: len(found & _statements(version)) for version in range(1, newest + 1)}
    return max(shared, key=lambda version: (shared[version], version == in_header, version))


def _statements(version: int) -> set[str]:
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as db:
        migrate(db, MIGRATIONS[:version])
        found = db.execute("SELECT sql FROM sqlite_master WHERE sql IS NOT NULL")
        return {_plain(str(sql)) for (sql,) in found}


def _plain(statement: str) -> str:
    """A statement without what versions of SQLite write differently: spaces."""
    return "".join(statement.split())


def _shape(db: sqlite3.Connection, name: str, sql: str) -> Shape:
    has_row_id = "WITHOUT ROWID" not in sql.upper()
    columns = []
    for _, column, kind, not_null, default, key in db.execute(f'PRAGMA table_info("{name}")'):
        columns.append(
            Column(
                column,
                kind,
                bool(not_null or (key and not has_row_id)),
                bool(default is not None or not (not_null or key)),
                bool(key and has_row_id and kind == "INTEGER"),
            )
        )
    return Shape(name, tuple(columns), has_row_id)
