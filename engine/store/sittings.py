"""Sittings in the file: when each began, how far it came, and whether it is over."""

from __future__ import annotations

import sqlite3
from datetime import date, datetime

from engine.practice.results import LONGEST, Session, SessionKind
from engine.store.cells import Row
from engine.store.moments import cells_of
from engine.store.repetitions import of_sitting

_SITTING = "SELECT id, what, began_utc, offset, minutes, seed, over FROM sitting"
_MOST = 2**63 - 1
"""The largest whole number that a cell can hold."""


def begin(
    db: sqlite3.Connection, what: SessionKind, at: datetime, minutes: float, seed: int
) -> int:
    """Keep that one begins; its number. Raises sqlite3.Error."""
    began, offset = cells_of(at)
    cursor = db.execute(
        "INSERT INTO sitting (what, began_utc, offset, day, minutes, seed, over)"
        " VALUES (?, ?, ?, ?, ?, ?, 0)",
        (what.value, began, offset, at.date().isoformat(), minutes, seed),
    )
    return int(cursor.lastrowid or 0)


def end(db: sqlite3.Connection, number: int) -> bool:
    """Keep that one is over; whether there is such a one. Raises sqlite3.Error."""
    return db.execute("UPDATE sitting SET over = 1 WHERE id = ?", (number,)).rowcount > 0


def under_way(db: sqlite3.Connection, what: SessionKind, day: date) -> Session | None:
    """The newest that began on a local day, where it is not over.

    Raises CellError, sqlite3.Error.
    """
    found = db.execute(
        f"{_SITTING} WHERE day = ? AND what = ? AND over = 0 ORDER BY id DESC LIMIT 1",
        (day.isoformat(), what.value),
    ).fetchone()
    return None if found is None else _sitting(db, found)


def of_day(db: sqlite3.Connection, day: date) -> list[Session]:
    """Those that began on a local day, oldest first. Raises CellError, sqlite3.Error."""
    found = db.execute(f"{_SITTING} WHERE day = ? ORDER BY id", (day.isoformat(),)).fetchall()
    return [_sitting(db, cells) for cells in found]


def _sitting(db: sqlite3.Connection, cells: tuple[object, ...]) -> Session:
    number, what, began, offset, minutes, seed, over = cells
    row = Row(f"sitting {number}")
    known = row.whole("id", number, 1, _MOST)
    return Session(
        known,
        row.word("what", what, SessionKind),
        row.moment("began_utc", began, offset),
        row.length("minutes", minutes, LONGEST),
        row.whole("seed", seed, 0, _MOST),
        of_sitting(db, known),
        row.truth("over", over),
    )
