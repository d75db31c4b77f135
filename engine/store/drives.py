"""Drives that were recorded, and the changes that a player marked, in the file."""

from __future__ import annotations

import sqlite3
from dataclasses import astuple

from engine.practice.changes import Change, Changed
from engine.road.drive import Drive, RoadBlip
from engine.store.cells import Row
from engine.store.moments import cells_of

_DRIVE = "SELECT id, at_utc, offset, name, digest, seconds FROM drive"
_BLIP = "run, place, onset, peak, dip, surge, carry, reason"


def keep_drive(db: sqlite3.Connection, drive: Drive) -> int:
    """Keep one with its blips; its number. Raises sqlite3.Error."""
    cursor = db.execute(
        "INSERT INTO drive (at_utc, offset, name, digest, seconds) VALUES (?, ?, ?, ?, ?)",
        (*cells_of(drive.at), drive.name, drive.digest, float(drive.seconds)),
    )
    number = int(cursor.lastrowid or 0)
    db.executemany(
        f"INSERT INTO drive_blip (drive, number, {_BLIP}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        [(number, at, *astuple(blip)) for at, blip in enumerate(drive.blips, start=1)],
    )
    return number


def drives(db: sqlite3.Connection) -> list[Drive]:
    """Every one, oldest first. Raises CellError, sqlite3.Error."""
    return [_drive(db, cells) for cells in db.execute(f"{_DRIVE} ORDER BY id").fetchall()]


def drive_of(db: sqlite3.Connection, digest: str) -> Drive | None:
    """The one of this recording; None where it is not kept. Raises CellError, sqlite3.Error."""
    found = db.execute(f"{_DRIVE} WHERE digest = ?", (digest,)).fetchone()
    return None if found is None else _drive(db, found)


def keep_change(db: sqlite3.Connection, change: Change) -> None:
    """Keep that something was changed. Raises sqlite3.Error."""
    db.execute(
        'INSERT INTO change (at_utc, offset, what, "after", note) VALUES (?, ?, ?, ?, ?)',
        (*cells_of(change.at), change.what.value, change.after, change.note),
    )


def changes(db: sqlite3.Connection) -> list[Change]:
    """Every one, oldest first. Raises CellError, sqlite3.Error."""
    found = db.execute('SELECT id, at_utc, offset, what, "after", note FROM change ORDER BY id')
    return [_change(cells) for cells in found]


def _change(cells: tuple[object, ...]) -> Change:
    number, at, offset, what, after, note = cells
    row = Row(f"change {number}")
    return Change(
        row.moment("at_utc", at, offset),
        row.word("what", what, Changed),
        row.whole("after", after, 0),
        row.text("note", note),
    )


def _drive(db: sqlite3.Connection, cells: tuple[object, ...]) -> Drive:
    number, at, offset, name, digest, seconds = cells
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
    )


def _blip(row: Row, cells: tuple[object, ...]) -> RoadBlip:
    run, place, onset, peak, dip, surge, carry, reason = cells
    return RoadBlip(
        row.whole("run", run, 1),
        row.whole("place", place, 1),
        row.amount("onset", onset),
        row.amount("peak", peak),
        row.number("dip", dip),
        row.number("surge", surge),
        row.number("carry", carry),
        row.text("reason", reason),
    )
