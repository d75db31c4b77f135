"""Recorded drives in the history, each with its blips."""

from __future__ import annotations

import sqlite3

from engine.road.blips import RoadBlip
from engine.road.drive import Drive
from engine.store import History, StoreError
from engine.store.cells import Row, utc_cells
from engine.store.rigs import SAME_RIG, USED

_DRIVE = "SELECT id, at_utc, offset, name, digest, seconds, definition, noise, rig FROM drive"
_BLIP = "run, place, onset, peak, dip, surge, carry, early, reason"
_RIG = f"(SELECT id FROM rig WHERE id = (SELECT value FROM setting WHERE key = '{USED}'))"
"""SQL expression for the number of the rig in use; NULL if no pedals were set up."""


def keep_drive(history: History, drive: Drive) -> int:
    """Store a drive with its blips as one of the rig in use; return its number.

    One that older definitions measured is replaced, but for its date, name and rig. Raises
    StoreError, also for a drive that is stored already.
    """
    cells = float(drive.seconds), drive.definition, drive.noise

    def keep(db: sqlite3.Connection) -> int:
        stored = db.execute(
            "SELECT id, definition FROM drive WHERE digest = ?", (drive.digest,)
        ).fetchone()
        if stored is None:
            cursor = db.execute(
                "INSERT INTO drive (seconds, definition, noise, at_utc, offset, name, digest, rig)"
                f" VALUES (?, ?, ?, ?, ?, ?, ?, {_RIG})",
                (*cells, *utc_cells(drive.at), drive.name, drive.digest),
            )
            number = int(cursor.lastrowid or 0)
        elif stored[1] < drive.definition:
            number = stored[0]
            db.execute(
                "UPDATE drive SET seconds = ?, definition = ?, noise = ? WHERE id = ?",
                (*cells, number),
            )
            db.execute("DELETE FROM drive_blip WHERE drive = ?", (number,))
        else:
            raise StoreError(f"{drive.name}: this recording is in the history already")
        db.executemany(
            f"INSERT INTO drive_blip (drive, number, {_BLIP})"
            " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
            [(number, at, *_cells(blip)) for at, blip in enumerate(drive.blips, start=1)],
        )
        return number

    return history.write(keep, "one drive")


def all_drives(history: History) -> list[Drive]:
    """Every recorded drive in the history, oldest first. Raises StoreError."""
    return _drives(history, "TRUE")


def rig_drives(history: History) -> list[Drive]:
    """Recorded drives that may be compared with each other, oldest first. Raises StoreError.

    Those of another rig than the one in use are left out: it has another brake.
    """
    return _drives(history, SAME_RIG)


def _drives(history: History, which: str) -> list[Drive]:
    """Recorded drives that fulfil an SQL condition, oldest first."""
    with history.reading() as db:
        rows = db.execute(f"{_DRIVE} WHERE {which} ORDER BY id").fetchall()
        return [_drive(db, cells) for cells in rows]


def _drive(db: sqlite3.Connection, cells: tuple[object, ...]) -> Drive:
    number, at, offset, name, digest, seconds, definition, noise, rig = cells
    row = Row(f"drive {number}")
    found = db.execute(
        f"SELECT number, {_BLIP} FROM drive_blip WHERE drive = ? ORDER BY number", (number,)
    )
    return Drive(
        row.moment("at_utc", at, offset),
        row.text("name", name),
        row.text("digest", digest),
        row.amount("seconds", seconds),
        tuple(_blip(Row(f"blip {one[0]} of drive {number}"), one[1:]) for one in found),
        row.whole("definition", definition, 1),
        row.number("noise", noise),
        None if rig is None else row.whole("rig", rig, 1),
    )


def _cells(blip: RoadBlip) -> tuple[object, ...]:
    """Values of a blip's columns in the history, in the order of `_BLIP`."""
    return (
        *(blip.run, blip.place, blip.onset, blip.peak),
        *(blip.dip, blip.surge, blip.carry, blip.early, blip.reason),
    )


def _blip(row: Row, cells: tuple[object, ...]) -> RoadBlip:
    run, place, onset, peak, dip, surge, carry, early, reason = cells
    return RoadBlip(
        row.whole("run", run, 1),
        row.whole("place", place, 1),
        row.amount("onset", onset),
        row.amount("peak", peak),
        row.number("dip", dip),
        row.number("surge", surge),
        row.number("carry", carry),
        row.number("early", early),
        row.text("reason", reason),
    )
