"""Repetitions out of the file to be measured again, and what came of it into the file."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing
from pathlib import Path

from drills.again import Kept, Measures
from drills.task import Performance
from engine.store.cells import Row
from engine.store.traces import read_trace

_TOP = 2**63 - 1
"""The largest whole number that a cell can hold."""


def kept(history: Path, first: int, last: int) -> Iterator[Kept]:
    """The repetitions from one number to another, oldest first. Raises CellError, sqlite3.Error."""
    with closing(sqlite3.connect(history)) as db:
        found = db.execute(
            "SELECT id, CASE drawn WHEN '' THEN level ELSE drawn END, kind, target, tolerance,"
            " reason, dark_ns, cues_ns FROM repetition WHERE id BETWEEN ? AND ? ORDER BY id",
            (first, last),
        ).fetchall()
        for number, level, kind, target, tolerance, reason, dark, cues in found:
            row = Row(f"repetition {number}")
            yield Kept(
                number,
                row.text("level", level),
                row.text("kind", kind),
                row.amount("target", target),
                row.amount("tolerance", tolerance),
                row.text("reason", reason),
                _done(db, row, number, dark, cues),
                _measures(db, row, number),
            )


def keep_measures(db: sqlite3.Connection, anew: Iterable[tuple[int, Measures]]) -> None:
    """Keep other measures of repetitions, all or none of them. Raises sqlite3.Error.

    Until the last has come they wait in a file of their own, so that others can read this one.
    """
    db.execute("CREATE TEMP TABLE anew (repetition INTEGER, name TEXT, value REAL)")
    try:
        for number, measures in anew:
            # One without a name stands for the repetition, which may have no measures any more.
            rows = [(number, None, None), *((number, *one) for one in measures.items())]
            db.executemany("INSERT INTO anew VALUES (?, ?, ?)", rows)
        db.execute("BEGIN IMMEDIATE")
        db.execute(
            "INSERT OR IGNORE INTO measure_name (name)"
            " SELECT DISTINCT name FROM anew WHERE name IS NOT NULL"
        )
        db.execute("DELETE FROM measure WHERE repetition IN (SELECT repetition FROM anew)")
        db.execute(
            "INSERT INTO measure SELECT repetition, measure_name.id, value"
            " FROM anew JOIN measure_name USING (name)"
        )
        db.execute("COMMIT")
    finally:
        if db.in_transaction:
            db.execute("ROLLBACK")
        db.execute("DROP TABLE anew")


def _done(
    db: sqlite3.Connection, row: Row, number: int, dark: object, cues: object
) -> Performance | None:
    trace = read_trace(db, number)
    if trace is None or dark is None:
        return None
    given = row.json("cues_ns", cues)
    if not isinstance(given, list) or not all(isinstance(cue, int) for cue in given):
        raise row.refusal("cues_ns", "a list of whole numbers", cues)
    began = row.whole("dark_ns", dark, -_TOP, _TOP)
    return Performance(trace, began, tuple(given))


def _measures(db: sqlite3.Connection, row: Row, number: int) -> Measures:
    found = db.execute(
        "SELECT measure_name.name, value FROM measure"
        " JOIN measure_name ON measure_name.id = measure.name WHERE repetition = ?",
        (number,),
    )
    return {row.text("measure", name): row.number(name, value) for name, value in found}
