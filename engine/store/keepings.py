"""How well each passed level is kept, as the ledger holds it."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable

from engine.practice.retention import IN_THE_END, Keeping
from engine.store.cells import Row, marked

_KEEPING = "SELECT level, due, outlasted, missed, day, first FROM keeping"
_KEEP = (
    "INSERT OR REPLACE INTO keeping (level, due, outlasted, missed, day, first)"
    " VALUES (?, ?, ?, ?, ?, ?)"
)


def keeping(db: sqlite3.Connection, level: str) -> Keeping:
    """How well one level is kept. Raises CellError, sqlite3.Error."""
    found = db.execute(f"{_KEEPING} WHERE level = ?", (level,)).fetchone()
    return Keeping() if found is None else _keeping(found)


def keepings(db: sqlite3.Connection) -> dict[str, Keeping]:
    """How well each level that was passed is kept, by its id. Raises CellError, sqlite3.Error."""
    found = db.execute(_KEEPING)
    return {Row("keeping").text("level", cells[0]): _keeping(cells) for cells in found}


def keep(db: sqlite3.Connection, levels: Iterable[tuple[str, Keeping]]) -> None:
    """Keep how well levels are kept; one that is not passed is not there. Raises sqlite3.Error."""
    db.executemany(_KEEP, [_cells(level, one) for level, one in levels if one.due is not None])


def _keeping(cells: tuple[object, ...]) -> Keeping:
    level, due, outlasted, missed, day, first = cells
    row = Row(f"keeping of '{level}'")
    return Keeping(
        row.day("due", due),
        row.whole("outlasted", outlasted, 0),
        row.truth("missed", missed),
        None if day is None else row.day("day", day),
        row.marks("first", first, IN_THE_END.of),
    )


def _cells(level: str, one: Keeping) -> tuple[object, ...]:
    due = None if one.due is None else one.due.isoformat()
    day = None if one.day is None else one.day.isoformat()
    return level, due, one.outlasted, one.missed, day, marked(one.first)
