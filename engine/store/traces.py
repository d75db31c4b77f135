"""The traces in the file: axis counts with the calibration they were read through, or percent."""

from __future__ import annotations

import sqlite3

from drills.calibration import Calibration
from drills.counts import Counts
from drills.trace import Trace, TraceError
from engine.store.cells import CellError, Row
from engine.store.raw import (
    RawTrace,
    calibration_as_json,
    calibration_from_json,
    is_raw,
    raw_of,
)


def pack_trace(trace: Trace, calibration: Calibration | None) -> bytes:
    """A trace in the smallest form that loses nothing of its grid."""
    counts = None if calibration is None else raw_of(trace, calibration)
    return trace.changes().pack() if counts is None else counts.pack()


def keep_trace(
    db: sqlite3.Connection, repetition: int, packed: bytes, calibration: Calibration | None
) -> None:
    """Keep a packed trace; a calibration is kept once. Raises sqlite3.Error."""
    ends = None if calibration is None else calibration_as_json(calibration)
    if ends is not None:
        db.execute("INSERT OR IGNORE INTO calibration (ends) VALUES (?)", (ends,))
    db.execute(
        "INSERT INTO trace (repetition, calibration, packed)"
        " VALUES (?, (SELECT id FROM calibration WHERE ends = ?), ?)",
        (repetition, ends, packed),
    )


def read_trace(db: sqlite3.Connection, repetition: int) -> RawTrace | Trace | None:
    """The trace of a repetition as it was kept; None where it has none.

    Raises CellError, sqlite3.Error.
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
        if not is_raw(packed):
            return Trace.unpack(packed)
        counts = Counts.unpack(packed)
    except TraceError as error:
        raise CellError(f"{row.place}: {error}") from error
    calibration = calibration_from_json(Row(f"calibration {found[1]}"), found[2])
    if counts.clutch is not None and calibration.clutch is None:
        raise row.refusal("calibration", "rest and full of a clutch", found[2])
    return RawTrace(counts, calibration)
