"""Traces in the history file: axis counts with their calibration, or percentages.

Counts take less space, and can be read under another calibration. A trace without counts is stored
as the percentages it was sampled with.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Sequence

from drills.calibration import Calibration, Range
from drills.counts import MARK, Counts
from drills.trace import STEP, Trace, TraceError
from engine.store.cells import CellError, Row
from engine.store.error import StoreError
from engine.store.history import History

LONGEST = 120_000
"""Longest trace that is stored as counts on the 1 ms grid, in ms: a sleeping computer can leave
hours without a sample."""


def trace_of(history: History, number: int) -> Trace | None:
    """Trace of a repetition, with its counts if they are stored; None if it has none.

    Raises StoreError, also if there is no such repetition.
    """
    with history.reading() as db:
        _refuse_unknown(history, db, number)
        return read_trace(db, number)


def calibration_of(history: History, number: int) -> Calibration | None:
    """Calibration that the pedals of a repetition were read through; None if it is not known.

    Raises StoreError, also if there is no such repetition.
    """
    with history.reading() as db:
        _refuse_unknown(history, db, number)
        found = db.execute(
            "SELECT calibration, ends FROM trace JOIN calibration ON calibration.id = calibration"
            " WHERE repetition = ?",
            (number,),
        ).fetchone()
        return None if found is None else _from_json(Row(f"calibration {found[0]}"), found[1])


def pack_trace(trace: Trace, calibration: Calibration | None) -> bytes:
    """Bytes of a trace, packed in the smallest form that loses nothing on its 1 ms grid."""
    counts = _counts(trace, calibration)
    return trace.changes().pack() if counts is None else counts.pack()


def insert_trace(
    db: sqlite3.Connection, repetition: int, packed: bytes, calibration: Calibration | None
) -> None:
    """Store the packed trace of a repetition; repetitions of equal calibration share its row.

    Raises sqlite3.Error.
    """
    ends = None if calibration is None else ends_of(calibration)
    if ends is not None:
        db.execute("INSERT OR IGNORE INTO calibration (ends) VALUES (?)", (ends,))
    db.execute(
        "INSERT INTO trace (repetition, calibration, packed)"
        " VALUES (?, (SELECT id FROM calibration WHERE ends = ?), ?)",
        (repetition, ends, packed),
    )


def read_trace(db: sqlite3.Connection, repetition: int) -> Trace | None:
    """Trace of a repetition, with its counts if they are stored; None if it has none.

    Raises CellError, sqlite3.Error.
    """
    found = _unpacked(db, repetition)
    if not isinstance(found, tuple):
        return found
    counts, calibration = found
    return calibration.trace(counts)


def check_trace(db: sqlite3.Connection, repetition: int) -> None:
    """Raise CellError if a repetition has a trace that cannot be read; faster than to read it.

    Raises sqlite3.Error.
    """
    _unpacked(db, repetition)


def _unpacked(db: sqlite3.Connection, repetition: int) -> Trace | tuple[Counts, Calibration] | None:
    """Trace of a repetition as it is stored: in percent, or as counts with their calibration.

    None if it has none. Raises CellError, sqlite3.Error.
    """
    found = db.execute(
        "SELECT packed, calibration, ends FROM trace"
        " LEFT JOIN calibration ON calibration.id = calibration WHERE repetition = ?",
        (repetition,),
    ).fetchone()
    if found is None:
        return None
    row = Row(f"repetition {repetition}")
    packed = row.bytes("trace", found[0])
    try:
        if not packed.startswith(MARK):
            return Trace.unpack(packed)
        counts = Counts.unpack(packed)
    except TraceError as error:
        raise CellError(f"{row.place}: {error}") from error
    calibration = _from_json(Row(f"calibration {found[1]}"), found[2])
    if counts.clutch is not None and calibration.clutch is None:
        raise row.refusal("calibration", "rest and full of a clutch", found[2])
    return counts, calibration


def _refuse_unknown(history: History, db: sqlite3.Connection, number: int) -> None:
    if db.execute("SELECT 1 FROM repetition WHERE id = ?", (number,)).fetchone() is None:
        raise StoreError(f"{history.path}: no repetition {number}")


def ends_of(calibration: Calibration) -> str:
    """Calibration as JSON: rest and full of brake, throttle and perhaps clutch."""
    ranges = [calibration.brake, calibration.throttle]
    if calibration.clutch is not None:
        ranges.append(calibration.clutch)
    return json.dumps([[scale.rest, scale.full] for scale in ranges])


def _counts(trace: Trace, calibration: Calibration | None) -> Counts | None:
    """Counts of a trace, if its calibration can turn them back into percentages; otherwise None.

    Also None if the trace is longer than LONGEST.
    """
    if calibration is None or (trace.clutch is not None and calibration.clutch is None):
        return None
    if int(trace.time[-1] - trace.time[0]) > LONGEST * STEP:
        return None
    return Counts.of(trace)


def _from_json(row: Row, ends: object) -> Calibration:
    data = row.json("ends", ends)
    try:
        brake, throttle, *clutch = [_range(pair) for pair in data]
        return Calibration(brake, throttle, *clutch)
    except (ValueError, TypeError) as error:
        raise row.refusal("ends", "rest and full of each pedal", ends) from error


def _range(pair: Sequence[object]) -> Range:
    rest, full = pair
    if not isinstance(rest, int | float) or not isinstance(full, int | float):
        raise TypeError
    return Range(float(rest), float(full))
