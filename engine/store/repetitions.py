"""Repetitions in the history file: stored as a whole, and read as results for the planner."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from dataclasses import asdict

from drills.level import PassRule
from drills.measures.definition import DEFINITION
from drills.remeasure import Measures
from engine.practice.passes import LATEST
from engine.practice.record import Record
from engine.practice.results import Purpose, Result
from engine.store import ledger
from engine.store.cells import LARGEST, Row, utc_cells
from engine.store.history import History
from engine.store.traces import insert_trace, pack_trace

RESULT = (
    "SELECT id, level, at_utc, offset, score, clean, void, pass_clean, pass_of, feet, kind, why,"
    " took, rig, asked, verdict_definition FROM repetition"
)
"""SQL statement for the cells that `read_result` takes."""

_MEASURE = "INSERT INTO measure SELECT ?, id, ? FROM measure_name WHERE name = ?"
_LINKS = {
    column: f"(SELECT id FROM {table} WHERE id = ?)"
    for column, table in (("sitting", "sitting"), ("trial", "trial"), ("rig", "rig"))
}
"""Values of the columns that name a row of another table: NULL if that was lost in a repair."""


def add_repetition(history: History, record: Record) -> int:
    """Store a repetition with its trace, and enter it in the ledger; returns its number.

    Committed on return. Raises StoreError; nothing is stored then.
    """
    packed = None if record.trace is None else pack_trace(record.trace, record.calibration)

    def add(db: sqlite3.Connection) -> int:
        number, result = insert_repetition(db, record)
        if packed is not None:
            insert_trace(db, number, packed, record.calibration)
        ledger.enter(db, result)
        return number

    return history.write(add, "one repetition")


def insert_repetition(db: sqlite3.Connection, record: Record) -> tuple[int, Result]:
    """Store a repetition and its measures; returns its number and its result.

    Raises CellError, sqlite3.Error.
    """
    cells = _cells(record)
    marks = ", ".join(_LINKS.get(column, "?") for column in cells)
    cursor = db.execute(
        f"INSERT INTO repetition ({', '.join(cells)}) VALUES ({marks})", tuple(cells.values())
    )
    number = int(cursor.lastrowid or 0)
    _insert_measures(db, number, record.verdict.measures)
    day = Row(f"repetition {number}").local_day(cells["at_utc"], cells["offset"])
    verdict = record.verdict
    return number, Result(
        record.level,
        day,
        verdict.score,
        verdict.clean,
        verdict.void,
        record.rule,
        record.feet,
        record.kind,
        record.why,
        record.took,
        number,
        record.rig,
        record.asked,
    )


def recent_results(history: History, count: int) -> list[Result]:
    """Results of the newest `count` repetitions without trials, oldest first. Raises StoreError."""
    with history.reading() as db:
        latest = db.execute(
            f"{RESULT} WHERE why <> ? ORDER BY id DESC LIMIT ?", (Purpose.TRIAL.value, count)
        ).fetchall()
        return [read_result(cells) for cells in reversed(latest)]


def newest_number(history: History) -> int:
    """Number of the newest repetition; 0 if there is none. Raises StoreError."""
    with history.reading() as db:
        return int(db.execute("SELECT coalesce(max(id), 0) FROM repetition").fetchone()[0])


def measures_of(history: History, number: int) -> dict[str, float | None]:
    """Measures of a repetition by their names, in their units. Raises StoreError."""
    with history.reading() as db:
        return read_measures(db, number)


def read_results(db: sqlite3.Connection) -> Iterator[Result]:
    """Results of all repetitions, oldest first. Raises CellError, sqlite3.Error."""
    yield from map(read_result, db.execute(f"{RESULT} ORDER BY id"))


def read_session(db: sqlite3.Connection, session: int) -> tuple[Result, ...]:
    """Results of the repetitions of a session, oldest first. Raises CellError, sqlite3.Error."""
    found = db.execute(f"{RESULT} WHERE sitting = ? ORDER BY id", (session,))
    return tuple(map(read_result, found))


def read_measures(db: sqlite3.Connection, number: int) -> dict[str, float | None]:
    """Measures of a repetition by their names, in their units. Raises CellError, sqlite3.Error."""
    row = Row(f"repetition {number}")
    found = db.execute(
        "SELECT measure_name.name, value FROM measure"
        " JOIN measure_name ON measure_name.id = measure.name WHERE repetition = ?",
        (number,),
    )
    return {row.text("measure", name): row.number(name, value) for name, value in found}


def read_result(cells: tuple[object, ...]) -> Result:
    """Result of a repetition from its cells, in the order of `RESULT`. Raises CellError."""
    number, level, at, offset, score, clean, void, *more = cells
    pass_clean, pass_of, feet, kind, why, took, rig, asked, definition = more
    row = Row(f"repetition {number}")
    return Result(
        row.text("level", level),
        row.local_day(at, offset),
        row.number("score", score),
        row.truth("clean", clean),
        row.truth("void", void),
        PassRule(
            row.whole("pass_clean", pass_clean, 1, LATEST),
            row.whole("pass_of", pass_of, 1, LATEST),
        ),
        row.truth("feet", feet),
        row.text("kind", kind),
        row.word("why", why, Purpose),
        row.number("took", took),
        row.whole("id", number, 0, LARGEST),
        None if rig is None else row.whole("rig", rig, 1, LARGEST),
        row.number("asked", asked),
        row.whole("verdict_definition", definition, 0),
    )


def _insert_measures(db: sqlite3.Connection, number: int, measures: Measures) -> None:
    """Store the measures of a repetition. Raises sqlite3.Error."""
    rows = [(number, value, name) for name, value in measures.items()]
    if db.executemany(_MEASURE, rows).rowcount < len(rows):
        # The name of a measure is stored with its first value.
        known = {name for (name,) in db.execute("SELECT name FROM measure_name")}
        new = [row for row in rows if row[2] not in known]
        db.executemany("INSERT INTO measure_name (name) VALUES (?)", [row[2:] for row in new])
        db.executemany(_MEASURE, new)


def _cells(record: Record) -> dict[str, object]:
    """Cells of a repetition's row, by the names of their columns."""
    verdict = record.verdict
    at, offset = utc_cells(record.at)
    cells: dict[str, object] = {
        "level": record.level,
        "kind": record.kind,
        "source": record.source,
        "feet": record.feet,
        "at_utc": at,
        "offset": offset,
        "target": record.target,
        "tolerance": record.tolerance,
        "score": verdict.score,
        "clean": verdict.clean,
        "void": verdict.void,
        "reason": verdict.reason.value,
        "over": json.dumps(verdict.over),
        "dark_ns": record.dark,
        "cues_ns": json.dumps(record.cues),
        "pass_clean": record.rule.clean,
        "pass_of": record.rule.of,
        "seed": record.seed,
        "drawn": record.drawn,
        "why": record.why.value,
        "sitting": record.session,
        "took": record.took,
        "asked": record.asked,
        "trial": record.trial,
        "block": record.block,
        "rig": record.rig,
        "verdict_definition": DEFINITION,
        "definition": DEFINITION,
    }
    return cells if record.sampling is None else cells | asdict(record.sampling)
