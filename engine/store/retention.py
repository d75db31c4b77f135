"""Retention of each passed level, as the ledger holds it; the table is called `keeping`."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable

from engine.practice.retention import IN_THE_END, Retention
from engine.store.cells import Row, marked
from engine.store.history import History

_SELECT = "SELECT level, due, outlasted, missed, day, first FROM keeping"
_REPLACE = (
    "INSERT OR REPLACE INTO keeping (level, due, outlasted, missed, day, first)"
    " VALUES (?, ?, ?, ?, ?, ?)"
)


def all_retention(history: History) -> dict[str, Retention]:
    """Retention of each level that was passed, by the id of the level. Raises StoreError."""
    with history.reading() as db:
        found = db.execute(_SELECT)
        return {Row("keeping").text("level", cells[0]): _retention(cells) for cells in found}


def read_retention(db: sqlite3.Connection, level: str) -> Retention:
    """Retention of the level with this id. Raises CellError, sqlite3.Error."""
    found = db.execute(f"{_SELECT} WHERE level = ?", (level,)).fetchone()
    return Retention() if found is None else _retention(found)


def write_retention(db: sqlite3.Connection, levels: Iterable[tuple[str, Retention]]) -> None:
    """Store the retention of those levels, by id, that are passed. Raises sqlite3.Error."""
    db.executemany(_REPLACE, [_cells(level, one) for level, one in levels if one.due is not None])


def _retention(cells: tuple[object, ...]) -> Retention:
    level, due, outlasted, missed, day, first = cells
    row = Row(f"retention of '{level}'")
    return Retention(
        row.day("due", due),
        row.whole("outlasted", outlasted, 0),
        row.truth("missed", missed),
        None if day is None else row.day("day", day),
        row.marks("first", first, IN_THE_END.of),
    )


def _cells(level: str, one: Retention) -> tuple[object, ...]:
    due = None if one.due is None else one.due.isoformat()
    day = None if one.day is None else one.day.isoformat()
    return level, due, one.outlasted, one.missed, day, marked(one.first)
