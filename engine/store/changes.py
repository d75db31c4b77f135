"""Changes of foot or rig in the history file, and where the brake's newest scale begins."""

from __future__ import annotations

import sqlite3
from datetime import datetime

from drills.calibration import Calibration
from engine.practice.changes import Change, Changed
from engine.store.cells import Row, utc_cells
from engine.store.history import History
from engine.store.rigs import SAME_RIG
from engine.store.traces import ends_of


def mark_change(
    history: History,
    at: datetime,
    what: Changed,
    note: str = "",
    ends: tuple[Calibration, Calibration] | None = None,
    rig: int | None = None,
) -> None:
    """Store that something changed before the next repetition. Raises StoreError.

    `ends` are the ranges of the pedals before and after they were set up anew, `rig` is the number
    of their rig; None for a change that the player marked.
    """
    history.write(lambda db: insert_change(db, at, what, note, ends, rig))


def insert_change(
    db: sqlite3.Connection,
    at: datetime,
    what: Changed,
    note: str = "",
    ends: tuple[Calibration, Calibration] | None = None,
    rig: int | None = None,
) -> None:
    """Store a change as `mark_change` does, in the caller's transaction. Raises sqlite3.Error."""
    old, new = (None, None) if ends is None else map(ends_of, ends)
    db.execute(
        'INSERT INTO change (at_utc, offset, what, "after", note, old_ends, new_ends, rig)'
        " SELECT ?, ?, ?, coalesce(max(id), 0), ?, ?, ?, ? FROM repetition",
        (*utc_cells(at), what.value, note, old, new, rig),
    )


def take_back_mark(history: History) -> bool:
    """Remove the newest change that the player marked; returns whether there was one.

    Pedals that were set up anew stay in the history, as they say what happened. Raises StoreError.
    """
    marks = [what.value for what in Changed if what.by_player]

    def remove(db: sqlite3.Connection) -> bool:
        holes = ", ".join("?" * len(marks))
        newest = f"SELECT max(id) FROM change WHERE {SAME_RIG} AND what IN ({holes})"
        return db.execute(f"DELETE FROM change WHERE id = ({newest})", marks).rowcount > 0

    return history.write(remove)


def all_changes(history: History) -> list[Change]:
    """Every change that was marked or made to the rig in use, oldest first. Raises StoreError."""
    with history.reading() as db:
        found = db.execute(
            'SELECT id, at_utc, offset, what, "after", note FROM change'
            f" WHERE {SAME_RIG} ORDER BY id"
        )
        return [_change(cells) for cells in found]


def scale_start(history: History) -> int:
    """Number of the newest repetition before the brake of the rig in use last changed its scale.

    0 if it never did.

    Points of repetitions up to it cannot be compared with later ones. Raises StoreError.
    """
    with history.reading() as db:
        found = db.execute(
            f'SELECT coalesce(max("after"), 0) FROM change WHERE what = ? AND {SAME_RIG}',
            (Changed.SCALE.value,),
        ).fetchone()
        return Row("change").whole("after", found[0], 0)


def _change(cells: tuple[object, ...]) -> Change:
    number, at, offset, what, after, note = cells
    row = Row(f"change {number}")
    return Change(
        row.moment("at_utc", at, offset),
        row.word("what", what, Changed),
        row.whole("after", after, 0),
        row.text("note", note),
    )
