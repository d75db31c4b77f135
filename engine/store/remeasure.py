"""Remeasuring in the history: reading what measures are computed from, and replacing them."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing
from pathlib import Path

from drills.remeasure import Measures, StoredRepetition
from drills.task import Performance
from engine.store.cells import LARGEST, Row
from engine.store.history import History, transaction
from engine.store.repetitions import read_measures
from engine.store.traces import read_trace


def read_stored(file: Path, first: int, last: int) -> Iterator[StoredRepetition]:
    """Repetitions of a history file by their numbers, from `first` to `last`, oldest first.

    Raises CellError, sqlite3.Error.
    """
    with closing(sqlite3.connect(file)) as db:
        found = db.execute(
            "SELECT id, CASE drawn WHEN '' THEN level ELSE drawn END, kind, target, tolerance,"
            " reason, dark_ns, cues_ns FROM repetition WHERE id BETWEEN ? AND ? ORDER BY id",
            (first, last),
        ).fetchall()
        for number, level, kind, target, tolerance, reason, dark, cues in found:
            row = Row(f"repetition {number}")
            yield StoredRepetition(
                number,
                row.text("level", level),
                row.text("kind", kind),
                row.amount("target", target),
                row.amount("tolerance", tolerance),
                row.text("reason", reason),
                _performance(db, row, number, dark, cues),
                read_measures(db, number),
            )


def replace_measures(history: History, changed: Iterable[tuple[int, Measures]]) -> None:
    """Replace the measures of repetitions, given by their numbers: all or none of them.

    Verdicts, scores and passes are not changed. Until `changed` is exhausted the new measures wait
    in a temporary file, so that other programs can read the history. Raises StoreError.
    """
    with history.reading() as db:
        db.execute("CREATE TEMP TABLE changed (repetition INTEGER, name TEXT, value REAL)")
        try:
            for number, measures in changed:
                # A row without a name stands for a repetition that may have no measures any more.
                rows = [(number, None, None), *((number, *one) for one in measures.items())]
                db.executemany("INSERT INTO changed VALUES (?, ?, ?)", rows)
            with transaction(db):
                db.execute(
                    "INSERT OR IGNORE INTO measure_name (name)"
                    " SELECT DISTINCT name FROM changed WHERE name IS NOT NULL"
                )
                db.execute(
                    "DELETE FROM measure WHERE repetition IN (SELECT repetition FROM changed)"
                )
                db.execute(
                    "INSERT INTO measure SELECT repetition, measure_name.id, value"
                    " FROM changed JOIN measure_name USING (name)"
                )
        finally:
            db.execute("DROP TABLE changed")


def _performance(
    db: sqlite3.Connection, row: Row, number: int, dark: object, cues: object
) -> Performance | None:
    trace = read_trace(db, number)
    if trace is None or dark is None:
        return None
    given = row.json("cues_ns", cues)
    if not isinstance(given, list) or not all(isinstance(cue, int) for cue in given):
        raise row.refusal("cues_ns", "a list of whole numbers", cues)
    began = row.whole("dark_ns", dark, -LARGEST, LARGEST)
    return Performance(trace, began, tuple(given))
