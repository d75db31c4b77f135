"""Reads and writes sessions in the history, and reads the blips of the steadiness drill.

The table of sessions is called `sitting`.
"""

from __future__ import annotations

import sqlite3
from datetime import date, datetime

from drills.measures.definition import DEFINITION
from engine.practice.results import LONGEST, Purpose, Session, SessionKind
from engine.store import History, StoreError
from engine.store.cells import LARGEST, Row, utc_cells
from engine.store.joins import joined_measures
from engine.store.repetitions import read_session
from engine.store.rigs import SAME_RIG

_SESSION = "SELECT id, what, began_utc, offset, minutes, seed, over FROM sitting"
_FIRST = "SELECT min(id) FROM repetition WHERE sitting = ?"


def begin_session(
    history: History, what: SessionKind, at: datetime, minutes: float, seed: int
) -> int:
    """Store that a session begins; returns its number in the history. Raises StoreError."""
    began, offset = utc_cells(at)
    cursor = history.write(
        lambda db: db.execute(
            "INSERT INTO sitting (what, began_utc, offset, day, minutes, seed, over)"
            " VALUES (?, ?, ?, ?, ?, ?, 0)",
            (what.value, began, offset, at.date().isoformat(), minutes, seed),
        )
    )
    return int(cursor.lastrowid or 0)


def end_session(history: History, number: int) -> None:
    """Store that the session with this number is over. Raises StoreError."""
    ended = history.write(
        lambda db: db.execute("UPDATE sitting SET over = 1 WHERE id = ?", (number,))
    )
    if not ended.rowcount:
        raise StoreError(f"{history.path}: no session {number}")


def has_ended(history: History, what: SessionKind, day: date) -> bool:
    """Whether a session of a kind that began on this local day is over. Raises StoreError."""
    with history.reading() as db:
        found = db.execute(
            "SELECT 1 FROM sitting WHERE day = ? AND what = ? AND over = 1 LIMIT 1",
            (day.isoformat(), what.value),
        ).fetchone()
        return found is not None


def session_under_way(history: History, what: SessionKind, day: date) -> Session | None:
    """The newest session of a kind begun on this local day and not over; None if there is none.
    Raises StoreError."""
    with history.reading() as db:
        found = db.execute(
            f"{_SESSION} WHERE day = ? AND what = ? AND over = 0 ORDER BY id DESC LIMIT 1",
            (day.isoformat(), what.value),
        ).fetchone()
        return None if found is None else _session(db, found)


def sessions_on(history: History, day: date) -> list[Session]:
    """The sessions that began on a local day, oldest first. Raises StoreError."""
    with history.reading() as db:
        found = db.execute(f"{_SESSION} WHERE day = ? ORDER BY id", (day.isoformat(),)).fetchall()
        return [_session(db, cells) for cells in found]


def stored_blips(
    history: History,
    level: str,
    why: Purpose,
    count: int,
    session: int | None = None,
    after: int = 0,
    *,
    earlier: bool = False,
) -> list[tuple[date, float | None, float, float]]:
    """Those of the newest `count` blips of a level for one purpose that are numbered above `after`.

    Oldest first, those of one session where its number is given: the local day, the tolerance that
    was asked in points (None for the level's own), the larger of dip and surge in points, and the
    highest throttle in %. Only repetitions of the rig in use that count and have all three measures
    are among them; those measured by another definition than today's only with `earlier`. Raises
    StoreError.
    """
    with history.reading() as db:
        if session is not None:
            first = db.execute(_FIRST, (session,)).fetchone()[0]
            after = max(after, LARGEST if first is None else first - 1)
        latest = db.execute(
            "SELECT id, at_utc, offset, asked, dip.value, surge.value, peak.value FROM repetition"
            f"{joined_measures(('dip', 'surge', 'peak'))}"
            " WHERE level = ? AND why = ? AND id > ? AND feet = 1 AND void = 0"
            " AND dip.value IS NOT NULL AND surge.value IS NOT NULL AND peak.value IS NOT NULL"
            " AND (? IS NULL OR sitting = ?)"
            f" AND (? OR definition = ?) AND {SAME_RIG}"
            " ORDER BY id DESC LIMIT ?",
            (level, why, after, session, session, earlier, DEFINITION, count),
        ).fetchall()
        found = []
        for number, at, offset, asked, dip, surge, peak in reversed(latest):
            row = Row(f"repetition {number}")
            larger = max(row.amount("dip", dip), row.amount("surge", surge))
            tolerance, reached = row.number("asked", asked), row.amount("peak", peak)
            found.append((row.local_day(at, offset), tolerance, larger, reached))
        return found


def _session(db: sqlite3.Connection, cells: tuple[object, ...]) -> Session:
    number, what, began, offset, minutes, seed, over = cells
    row = Row(f"session {number}")
    known = row.whole("id", number, 1, LARGEST)
    return Session(
        known,
        row.word("what", what, SessionKind),
        row.moment("began_utc", began, offset),
        row.length("minutes", minutes, LONGEST),
        row.whole("seed", seed, 0, LARGEST),
        read_session(db, known),
        row.truth("over", over),
    )
