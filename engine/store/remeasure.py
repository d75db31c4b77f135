"""Remeasuring in the history: what waits for it, what it is computed from, and its results.

A repetition carries the version of the definitions that its measures are of. Those of another
version than today's wait to be remeasured; one that cannot be is marked as fixed, so that the work
ends, and keeps its measures and their version.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator, Mapping
from contextlib import closing
from dataclasses import dataclass
from datetime import date
from itertools import count
from pathlib import Path

from drills.measures.definition import DEFINITION
from drills.remeasure import Measures, StoredRepetition, Unmeasured, differing
from drills.task import Performance
from engine.practice.remeasuring import Remeasuring
from engine.store.backup import Tell, back_up
from engine.store.cells import LARGEST, CellError, Row
from engine.store.error import StoreError
from engine.store.found_words import UNDECODABLE
from engine.store.history import History, transaction
from engine.store.repetitions import read_measures
from engine.store.traces import read_trace

COPY = "history-before-remeasuring-{}{}.sqlite3"
"""Name of the copy that is made before a history is remeasured: its day, and where that name is
taken, "-2" and so on."""
BEGUN = "remeasuring"
"""Key of the setting with the remeasuring under way: its definition, its size and its copy."""
_WAITING = (
    "SELECT id FROM repetition WHERE fixed = 0 AND definition < :now",
    "SELECT id FROM repetition WHERE fixed = 0 AND definition > :now",
)
"""Repetitions that wait to be remeasured: two statements, as each is one look into the index."""
_STORED = (
    "SELECT id, CASE drawn WHEN '' THEN level ELSE drawn END, kind, target, tolerance, reason,"
    " dark_ns, cues_ns, definition FROM repetition"
)


@dataclass(frozen=True)
class Replacement:
    """What remeasuring changes about one repetition of the history."""

    number: int
    """Number of the repetition in the history."""
    measures: Measures | None
    """Measures as computed now; None where those that are stored stay."""
    fixed: bool = False
    """Whether it cannot be remeasured, so that its measures stay of an earlier definition."""


def replacement(stored: StoredRepetition, now: Measures | Unmeasured) -> Replacement | None:
    """What remeasuring changes about a repetition; None if nothing.

    `now` are its measures as computed by today's definitions, or why there are none.
    """
    is_current = stored.definition == DEFINITION
    if isinstance(now, Unmeasured):
        return None if is_current else Replacement(stored.number, None, fixed=True)
    if any(differing(stored.measures, now)):
        return Replacement(stored.number, now)
    return None if is_current else Replacement(stored.number, None)


def remeasuring(history: History) -> Remeasuring | None:
    """How far remeasuring the history has come; None if nothing waits for it. Raises StoreError."""
    with history.reading() as db:
        waiting = _count_waiting(db)
    if not waiting:
        return None
    begun = _begun(history)
    of = waiting if begun is None else max(begun, waiting)
    return Remeasuring(of - waiting, of)


def is_copied(history: History) -> bool:
    """Whether the history was copied for the remeasuring that is under way. Raises StoreError."""
    return _begun(history) is not None


def copy_before(history: History, day: date, tell: Tell) -> Path:
    """Copy the history before it is remeasured, and note that; returns the path of the copy.

    Only a whole copy is noted, and no file is replaced. `day` is the local day, for its name;
    `tell` is called now and then. Raises StoreError.
    """
    copy = _copied(history, day, tell)

    def begin(db: sqlite3.Connection) -> int:
        # What could not be remeasured by the last definition may be by this one.
        db.execute("UPDATE repetition SET fixed = 0 WHERE fixed = 1")
        return _count_waiting(db)

    waiting = history.write(begin)
    history.keep_setting(BEGUN, {"definition": DEFINITION, "of": waiting, "copy": copy.name})
    return copy


def _copied(history: History, day: date, tell: Tell) -> Path:
    """Copy a history to the first name for that day which is free. Raises StoreError."""
    names = (COPY.format(day.isoformat(), f"-{n}" if n > 1 else "") for n in count(1))
    files = map(history.path.with_name, names)
    while True:
        copy = next(file for file in files if not file.exists())
        try:
            back_up(history, copy, tell)
        except StoreError:
            # Another program may have taken the name meanwhile.
            if not copy.exists():
                raise
        else:
            return copy


def waiting_numbers(history: History, most: int) -> list[int]:
    """Numbers of at most `most` repetitions that wait to be remeasured. Raises StoreError."""
    with history.reading() as db:
        found: list[int] = []
        for statement in _WAITING:
            rows = db.execute(
                f"{statement} ORDER BY definition, id LIMIT :most",
                {"now": DEFINITION, "most": most - len(found)},
            )
            found += [int(number) for (number,) in rows]
        return found


def stored_repetition(history: History, number: int) -> StoredRepetition | None:
    """A repetition to remeasure, by its number; None if it cannot be read. Raises StoreError."""
    with history.reading() as db:
        return _read_stored(db, number)


def read_stored(file: Path, first: int, last: int) -> Iterator[tuple[int, StoredRepetition | None]]:
    """Numbers of the repetitions in a history file, from `first` to `last`, each with its data.

    None in place of the data where they cannot be read. Raises sqlite3.Error.
    """
    with closing(sqlite3.connect(file)) as db:
        numbers = "SELECT id FROM repetition WHERE id BETWEEN ? AND ? ORDER BY id"
        for (number,) in db.execute(numbers, (first, last)).fetchall():
            yield number, _read_stored(db, number)


def _read_stored(db: sqlite3.Connection, number: int) -> StoredRepetition | None:
    """A repetition to remeasure, by its number; None if it cannot be read. Raises sqlite3.Error."""
    try:
        cells = db.execute(f"{_STORED} WHERE id = ?", (number,)).fetchone()
        return None if cells is None else _stored(db, cells)
    except CellError:
        return None
    except sqlite3.OperationalError as error:
        if str(error).startswith(UNDECODABLE):
            return None
        raise


def replace_measures(history: History, replacements: Iterable[Replacement]) -> None:
    """Store the results of remeasuring: all or none of them.

    Verdicts, scores and passes are not changed. Until `replacements` is exhausted the new measures
    wait in temporary tables, so that other programs can read the history. Raises StoreError.
    """
    with history.reading() as db:
        db.execute("CREATE TEMP TABLE changed (repetition INTEGER, name TEXT, value REAL)")
        db.execute(
            "CREATE TEMP TABLE replaced (repetition INTEGER, measured INTEGER, fixed INTEGER)"
        )
        try:
            for one in replacements:
                cells = (one.number, one.measures is not None, one.fixed)
                db.execute("INSERT INTO replaced VALUES (?, ?, ?)", cells)
                rows = [(one.number, *measure) for measure in (one.measures or {}).items()]
                db.executemany("INSERT INTO changed VALUES (?, ?, ?)", rows)
            with transaction(db):
                _replace(db)
        finally:
            db.execute("DROP TABLE changed")
            db.execute("DROP TABLE replaced")


def _replace(db: sqlite3.Connection) -> None:
    """Store what the temporary tables of `replace_measures` hold. Raises sqlite3.Error."""
    db.execute(
        "INSERT OR IGNORE INTO measure_name (name)"
        " SELECT DISTINCT name FROM changed WHERE name IS NOT NULL"
    )
    db.execute(
        "DELETE FROM measure WHERE repetition IN"
        " (SELECT repetition FROM replaced WHERE measured = 1)"
    )
    db.execute(
        "INSERT INTO measure SELECT repetition, measure_name.id, value"
        " FROM changed JOIN measure_name USING (name)"
    )
    db.execute(
        "UPDATE repetition SET definition = ?, fixed = 0"
        " WHERE id IN (SELECT repetition FROM replaced WHERE fixed = 0)",
        (DEFINITION,),
    )
    db.execute(
        "UPDATE repetition SET fixed = 1"
        " WHERE id IN (SELECT repetition FROM replaced WHERE fixed = 1) AND definition <> ?",
        (DEFINITION,),
    )
    if not _count_waiting(db):
        db.execute("DELETE FROM setting WHERE key = ?", (BEGUN,))


def _count_waiting(db: sqlite3.Connection) -> int:
    """Number of repetitions that wait to be remeasured. Raises sqlite3.Error."""
    counts = (f"(SELECT count(*) FROM ({statement}))" for statement in _WAITING)
    found = db.execute(f"SELECT {' + '.join(counts)}", {"now": DEFINITION}).fetchone()
    return int(found[0])


def _begun(history: History) -> int | None:
    """Number of repetitions of the remeasuring under way; None if none was begun for today's
    definition. Raises StoreError."""
    begun = history.setting(BEGUN)
    if not isinstance(begun, Mapping) or begun.get("definition") != DEFINITION:
        return None
    of = begun.get("of")
    return of if isinstance(of, int) else None


def _stored(db: sqlite3.Connection, cells: tuple[object, ...]) -> StoredRepetition:
    """Repetition to remeasure, from its cells. Raises CellError, sqlite3.Error."""
    name, level, kind, target, tolerance, reason, dark, cues, definition = cells
    row = Row(f"repetition {name}")
    number = row.whole("id", name, -LARGEST, LARGEST)
    return StoredRepetition(
        number,
        row.text("level", level),
        row.text("kind", kind),
        row.length("target", target, 100.0),
        row.amount("tolerance", tolerance),
        row.text("reason", reason),
        _performance(db, row, number, dark, cues),
        read_measures(db, number),
        row.whole("definition", definition, -LARGEST, LARGEST),
    )


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
