"""Filling of a salvaged history from automatic copies of the same one."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import closing, contextmanager
from pathlib import Path

from drills.level import Level
from engine.salvage.gaps import Gaps, in_gap
from engine.salvage.sift import sift
from engine.store.backup import STEPS, Tell, copy_database, unfinished
from engine.store.cells import CellError
from engine.store.error import StoreError
from engine.store.history import is_stopped
from engine.store.migrate import migrate
from engine.store.opening import check_version, connect
from engine.store.remeasure import BEGUN

PLAIN = ("sitting", "trial", "rig", "drive", "drive_blip", "change", "setting")
"""Tables whose rows are the same in a copy, by their first column."""
NAMED = {"measure_name": "name", "calibration": "ends"}
"""Tables of what is stored once and shared, and the column that names it: numbers may differ."""

NEWEST = 3
"""Number of the newest repetitions in which a history and a copy of the same one must agree."""
AGREEING = 0.9
"""Share of all their repetitions in which they must agree."""

SIFTED = "sifted"
"""Table in the temporary file of a copy with the keys of the rows that no reader understands: their
table, and the first value of each."""
COMPLETE = "CREATE TEMP TABLE complete (tbl TEXT, id INTEGER)"
"""Statement for the temporary table in which `fill` notes of what no row is missing any more: a
table that refers to repetitions or drives, and the number of one of these."""


@contextmanager
def attached(
    db: sqlite3.Connection, copy: Path, part: Path, levels: Sequence[Level], tell: Tell
) -> Iterator[bool]:
    """Context with a copy attached as `copy`, if it is whole and of the same history; else false.

    It is brought to today's version in a temporary file at `part`. Raises StoreError if that cannot
    be written.
    """
    with unfinished(part) as temporary:
        usable = _is_usable(copy, temporary, levels, tell)
        if usable:
            db.execute("ATTACH ? AS copy", (str(temporary),))
        try:
            yield usable and _agrees(db)
        finally:
            if usable:
                db.execute("DETACH copy")


def fill(db: sqlite3.Connection, gaps: Gaps) -> int:
    """Fill rows that are missing from an attached copy, traces of stored repetitions too.

    Returns the number of repetitions that were filled. Rows are filled only in gaps. Raises
    sqlite3.Error.
    """
    gaps.save(db)
    for table, name in NAMED.items():
        if _has_same_numbers(db, table, name):
            db.execute(
                f"INSERT OR IGNORE INTO main.{table} SELECT * FROM copy.{table}"
                f" WHERE {in_gap(table, 'id')}"
            )
        db.execute(f"INSERT OR IGNORE INTO main.{table} ({name}) SELECT {name} FROM copy.{table}")
    for table in PLAIN:
        key = {"drive_blip": "drive", "setting": "key"}.get(table, "id")
        other = f" AND key <> '{BEGUN}'" if table == "setting" else ""
        db.execute(
            f"INSERT OR IGNORE INTO main.{table} SELECT * FROM copy.{table}"
            f" WHERE {in_gap(table, key)}{other}"
        )
    db.execute("DROP TABLE IF EXISTS temp.filled")
    db.execute(
        "CREATE TEMP TABLE filled AS SELECT id FROM copy.repetition"
        f" WHERE {in_gap('repetition', 'id')} AND id NOT IN (SELECT id FROM main.repetition)"
    )
    db.execute(
        "INSERT INTO main.repetition SELECT * FROM copy.repetition"
        " WHERE id IN (SELECT id FROM temp.filled)"
    )
    _fill_measures(db)
    _fill_traces(db)
    _fill_guesses(db)
    _note_complete(db)
    return int(db.execute("SELECT count(*) FROM temp.filled").fetchone()[0])


def _fill_measures(db: sqlite3.Connection) -> None:
    """Fill measures of filled repetitions, and of those whose measures are of one definition."""
    db.execute(
        "INSERT OR IGNORE INTO main.measure SELECT measure.repetition, own.id, measure.value"
        " FROM copy.measure AS measure JOIN copy.measure_name AS name ON name.id = measure.name"
        " JOIN main.measure_name AS own ON own.name = name.name"
        " JOIN main.repetition AS here ON here.id = measure.repetition"
        " JOIN copy.repetition AS there ON there.id = measure.repetition"
        " WHERE here.definition = there.definition AND"
        " (measure.repetition IN (SELECT id FROM temp.filled)"
        f" OR {in_gap('measure', 'measure.repetition')})"
    )


def _fill_guesses(db: sqlite3.Connection) -> None:
    """Fill guesses at filled repetitions, and those that are missing of stored ones."""
    db.execute(
        "INSERT OR IGNORE INTO main.guess SELECT guess.repetition, guess.value, own.id"
        " FROM copy.guess AS guess JOIN copy.measure_name AS name ON name.id = guess.measure"
        " JOIN main.measure_name AS own ON own.name = name.name"
        " WHERE guess.repetition IN (SELECT id FROM temp.filled)"
        f" OR ({in_gap('guess', 'guess.repetition')}"
        " AND guess.repetition IN (SELECT id FROM main.repetition))"
    )


def _fill_traces(db: sqlite3.Connection) -> None:
    db.execute(
        "INSERT OR IGNORE INTO main.trace SELECT trace.repetition, own.id, trace.packed"
        " FROM copy.trace AS trace LEFT JOIN copy.calibration AS ends"
        " ON ends.id = trace.calibration LEFT JOIN main.calibration AS own"
        " ON own.ends = ends.ends WHERE trace.repetition IN (SELECT id FROM temp.filled)"
        f" OR ({in_gap('trace', 'trace.repetition')}"
        " AND trace.repetition IN (SELECT id FROM main.repetition))"
    )


def _note_complete(db: sqlite3.Connection) -> None:
    """Note in the table `complete` what an attached copy has all rows of, or never had any."""
    for table, numbers in (
        (
            "measure",
            "main.repetition AS here JOIN copy.repetition AS there USING (id)"
            " WHERE here.definition = there.definition",
        ),
        ("drive_blip", "copy.drive WHERE TRUE"),
        # A trace that the copy has may turn out damaged too.
        ("trace", "copy.repetition WHERE id NOT IN (SELECT repetition FROM copy.trace)"),
    ):
        db.execute(
            f"INSERT INTO temp.complete SELECT '{table}', id FROM {numbers}"
            f" AND id NOT IN (SELECT id FROM copy.{SIFTED} WHERE tbl = '{table}')"
        )
    db.execute("INSERT INTO temp.complete VALUES ('setting', 0)")


def _is_usable(copy: Path, temporary: Path, levels: Sequence[Level], tell: Tell) -> bool:
    """Whether a copy is a whole history; it is brought to today's version in a temporary file.

    Raises sqlite3.Error if `tell` raised anything.
    """
    try:
        uri = f"{copy.absolute().as_uri()}?mode=ro"
        with (
            closing(sqlite3.connect(uri, uri=True)) as source,
            closing(connect(temporary, 0.0)) as db,
        ):
            db.set_progress_handler(tell, STEPS)
            copy_database(source, db, tell)
            if check_version(db, copy) == 0:
                return False
            if db.execute("PRAGMA integrity_check(1)").fetchone()[0] != "ok":
                return False
            migrate(db, rules={level.id: level.rule for level in levels})
            gaps = Gaps()
            sift(db, gaps, tell)
            db.execute(f"CREATE TABLE {SIFTED} (tbl TEXT, id)")
            removed = [(table, low) for table, keys in gaps.ranges.items() for low, _ in keys]
            db.executemany(f"INSERT INTO {SIFTED} VALUES (?, ?)", removed)
            return True
    except sqlite3.Error as error:
        if is_stopped(error):
            raise
        return False
    except (StoreError, CellError, OSError):
        return False


def _agrees(db: sqlite3.Connection) -> bool:
    """Whether a copy is of the same history, by the repetitions that both have.

    One of before a restore differs in all that was done since, the newest of them too; damage
    changes few.
    """
    same = db.execute(
        "SELECT here.at_utc = there.at_utc AND here.level = there.level"
        " FROM main.repetition AS here JOIN copy.repetition AS there USING (id) ORDER BY id"
    ).fetchall()
    agreeing = [bool(one) for (one,) in same]
    return all(agreeing[-NEWEST:]) and sum(agreeing) >= AGREEING * len(agreeing)


def _has_same_numbers(db: sqlite3.Connection, table: str, name: str) -> bool:
    """Whether all that a history and the copy both have is numbered alike."""
    differing = db.execute(
        f"SELECT 1 FROM main.{table} AS here JOIN copy.{table} AS there USING (id)"
        f" WHERE here.{name} <> there.{name} LIMIT 1"
    ).fetchone()
    return differing is None
