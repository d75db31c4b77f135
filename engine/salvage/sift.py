"""Removal of the rows of a history that no reader can make sense of."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable, Iterable, Mapping

from drills.measures.catalogue import CATALOGUE
from engine.practice.changes import Changed
from engine.practice.results import LONGEST, SessionKind
from engine.salvage.gaps import Gaps
from engine.salvage.records import Value
from engine.salvage.shapes import LEDGER, Shape, shapes_of
from engine.store.backup import Tell
from engine.store.cells import LARGEST, CellError, Row
from engine.store.repetitions import RESULT, read_result
from engine.store.traces import check_trace

LENIENT = frozenset(
    {
        *("rig.name", "rig.note", "change.note", "drive.name"),
        *("repetition.over", "repetition.cues_ns"),
    }
)
"""Columns of texts that stay where some of their bytes are no text: these become U+FFFD."""
JSON = ("setting.value", "calibration.ends", "rig.binding", "trial.a", "trial.b")
"""Columns of texts that must be JSON."""
LOST = "\ufffd"
"""Character in the place of bytes that are no text."""
_STORED_AS = {
    "INTEGER": ("integer",),
    "REAL": ("real",),
    "TEXT": ("text",),
    "BLOB": ("blob",),
}
"""Types of SQLite by the type of a column."""


def sift(db: sqlite3.Connection, gaps: Gaps, tell: Tell) -> None:
    """Remove every row of a history of today's version that cannot be read, traces apart.

    Each is noted in `gaps`. Raises sqlite3.Error.
    """
    db.create_function("is_text", 1, _is_text, deterministic=True)
    db.create_function("is_json", 1, _is_json, deterministic=True)
    db.create_function("lenient", 1, _lenient, deterministic=True)
    for shape in shapes_of(db).values():
        if shape.name not in LEDGER:
            tell()
            _mend_texts(db, shape)
            _remove(db, shape, gaps, _unstorable(shape))
    for table, select, read in _READERS:
        bad = []
        for cells in db.execute(select):
            try:
                read(cells)
            except CellError:
                bad.append(cells[0])
            tell()
        for key in bad:
            db.execute(f"DELETE FROM {table} WHERE id = ?", (key,))
            gaps.add(table, key, key)


def sift_traces(
    db: sqlite3.Connection, gaps: Gaps, tell: Tell, numbers: Iterable[int] | None = None
) -> None:
    """Remove every trace that cannot be unpacked, or only those of some repetitions.

    Each is noted in `gaps`. Raises sqlite3.Error.
    """
    if numbers is None:
        numbers = [int(one) for (one,) in db.execute("SELECT repetition FROM trace")]
    for number in numbers:
        tell()
        try:
            check_trace(db, number)
        except CellError:
            db.execute("DELETE FROM trace WHERE repetition = ?", (number,))
            gaps.add("trace", number, number)


def _mend_texts(db: sqlite3.Connection, shape: Shape) -> None:
    """Replace bytes that are no text in the texts that stay without them."""
    for column in shape.columns:
        if f"{shape.name}.{column.name}" in LENIENT:
            cell = f'CAST("{column.name}" AS BLOB)'
            db.execute(
                f'UPDATE {shape.name} SET "{column.name}" = lenient({cell})'
                f" WHERE typeof(\"{column.name}\") = 'text' AND NOT is_text({cell})"
            )


def _unstorable(shape: Shape) -> str:
    """SQL condition for a row that has a value of a wrong type, no text or no JSON."""
    bad = []
    for column in shape.columns:
        name, full = f'"{column.name}"', f"{shape.name}.{column.name}"
        types = [*_STORED_AS[column.type], *([] if column.needed else ["null"])]
        bad.append(f"typeof({name}) NOT IN ({', '.join(map(repr, types))})")
        if full in JSON:
            bad.append(f"NOT is_json(CAST({name} AS BLOB))")
        elif column.type == "TEXT" and full not in LENIENT:
            bad.append(f"{name} IS NOT NULL AND NOT is_text(CAST({name} AS BLOB))")
    keys = [column.name for column in shape.columns if column.is_row_id]
    if keys:
        bad.append(f'"{keys[0]}" < 1')
    return " OR ".join(f"({one})" for one in bad)


def _remove(db: sqlite3.Connection, shape: Shape, gaps: Gaps, condition: str) -> None:
    key = f'"{shape.columns[0].name}"'
    found = db.execute(
        f"SELECT CAST({key} AS BLOB), {key} + 0, typeof({key}) FROM {shape.name} WHERE {condition}"
    )
    for raw, number, kind in found.fetchall():
        known: Value = _lenient(raw) if kind == "text" else number
        gaps.add(shape.name, known, known)
    db.execute(f"DELETE FROM {shape.name} WHERE {condition}")


def _is_text(data: bytes | None) -> bool:
    return data is None or LOST not in data.decode("utf-8", "replace")


def _lenient(data: bytes) -> str:
    return data.decode("utf-8", "replace")


def _is_json(data: bytes | None) -> bool:
    try:
        json.loads(b"" if data is None else data)
    except (ValueError, RecursionError):
        return False
    return True


def _read_session(cells: tuple[object, ...]) -> None:
    number, what, began, offset, day, minutes, seed, over = cells
    row = Row(f"session {number}")
    row.word("what", what, SessionKind)
    row.moment("began_utc", began, offset)
    row.day("day", day)
    row.length("minutes", minutes, LONGEST)
    row.whole("seed", seed, 0, LARGEST)
    row.truth("over", over)


def _read_trial(cells: tuple[object, ...]) -> None:
    number, began, offset, a, b, pairs, seed, over, by_days = cells
    row = Row(f"trial {number}")
    row.moment("began_utc", began, offset)
    for column, value in (("a", a), ("b", b)):
        if not isinstance(row.json(column, value), Mapping):
            raise row.refusal(column, "a set-up", value)
    row.whole("pairs", pairs, 1)
    row.whole("seed", seed, 0, LARGEST)
    row.truth("over", over)
    row.truth("by_days", by_days)


def _read_drive(cells: tuple[object, ...]) -> None:
    number, at, offset, definition, noise, rig = cells
    row = Row(f"drive {number}")
    row.moment("at_utc", at, offset)
    row.whole("definition", definition, 1)
    row.number("noise", noise)
    if rig is not None:
        row.whole("rig", rig, 1)


def _read_change(cells: tuple[object, ...]) -> None:
    number, at, offset, what, after = cells
    row = Row(f"change {number}")
    row.moment("at_utc", at, offset)
    row.word("what", what, Changed)
    row.whole("after", after, 0)


def _read_rig(cells: tuple[object, ...]) -> None:
    number, binding, removed = cells
    row = Row(f"rig {number}")
    if not isinstance(row.json("binding", binding), Mapping):
        raise row.refusal("binding", "the axes of pedals", binding)
    row.truth("removed", removed)


def _read_measure_name(cells: tuple[object, ...]) -> None:
    number, name = cells
    row = Row(f"measure_name {number}")
    if row.text("name", name) not in CATALOGUE:
        raise row.refusal("name", "a measure", name)


def _read_repetition(cells: tuple[object, ...]) -> None:
    read_result(cells)


_READERS: tuple[tuple[str, str, Callable[[tuple[object, ...]], None]], ...] = (
    ("repetition", RESULT, _read_repetition),
    (
        "sitting",
        "SELECT id, what, began_utc, offset, day, minutes, seed, over FROM sitting",
        _read_session,
    ),
    (
        "trial",
        "SELECT id, began_utc, offset, a, b, pairs, seed, over, by_days FROM trial",
        _read_trial,
    ),
    ("drive", "SELECT id, at_utc, offset, definition, noise, rig FROM drive", _read_drive),
    ("change", 'SELECT id, at_utc, offset, what, "after" FROM change', _read_change),
    ("rig", "SELECT id, binding, removed FROM rig", _read_rig),
    ("measure_name", "SELECT id, name FROM measure_name", _read_measure_name),
)
"""Readers of the tables whose rows mean something by themselves: table, statement, reader."""
