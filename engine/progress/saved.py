"""Days of practice and marked changes, as the history stores them."""

from __future__ import annotations

from datetime import date, datetime

from engine.practice.changes import Change, Changed
from engine.store import History
from engine.store.cells import Row, utc_cells


def practice_days(history: History) -> list[tuple[date, int]]:
    """Every local day practised, with its number of repetitions that counted, in order.

    Raises StoreError.
    """
    with history.reading() as db:
        found = db.execute("SELECT day, counted FROM day ORDER BY day")
        rows = ((Row(f"day {day!r}"), day, counted) for day, counted in found)
        return [
            (row.day("day", day), row.whole("counted", counted, 0)) for row, day, counted in rows
        ]


def mark_change(history: History, at: datetime, what: Changed, note: str = "") -> None:
    """Store that the player changed something before the next repetition. Raises StoreError."""
    with history.transaction() as db:
        db.execute(
            'INSERT INTO change (at_utc, offset, what, "after", note)'
            " SELECT ?, ?, ?, coalesce(max(id), 0), ? FROM repetition",
            (*utc_cells(at), what.value, note),
        )


def all_changes(history: History) -> list[Change]:
    """Every change that the player marked, oldest first. Raises StoreError."""
    with history.reading() as db:
        found = db.execute('SELECT id, at_utc, offset, what, "after", note FROM change ORDER BY id')
        return [_change(cells) for cells in found]


def _change(cells: tuple[object, ...]) -> Change:
    number, at, offset, what, after, note = cells
    row = Row(f"change {number}")
    return Change(
        row.moment("at_utc", at, offset),
        row.word("what", what, Changed),
        row.whole("after", after, 0),
        row.text("note", note),
    )
