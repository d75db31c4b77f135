"""The tables, as numbered migrations; each and its number are one transaction."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence

MIGRATIONS: Sequence[Sequence[str]] = (
    (
        """
        CREATE TABLE repetition (
            id         INTEGER PRIMARY KEY,
            level      TEXT NOT NULL,
            kind       TEXT NOT NULL,
            source     TEXT NOT NULL,
            at_utc     TEXT NOT NULL,     -- ISO 8601, UTC
            offset     INTEGER NOT NULL,  -- minutes east of UTC
            target     REAL NOT NULL,     -- %
            tolerance  REAL NOT NULL,     -- %
            score      REAL,              -- 0 to 100, NULL where void
            clean      INTEGER NOT NULL,  -- 0 or 1
            void       INTEGER NOT NULL,  -- 0 or 1
            reason     TEXT NOT NULL,
            over       TEXT NOT NULL,     -- JSON list of measures over their limit
            dark_ns    INTEGER,           -- from the start of the trace
            cues_ns    TEXT NOT NULL,     -- JSON list, from the start of the trace
            rate       REAL,              -- samples per second
            gap_p99    REAL,              -- s
            gap_max    REAL,              -- s
            resolution REAL,              -- %
            trace      BLOB               -- packed, see drills/trace.py
        )
        """,
        "CREATE INDEX repetition_level ON repetition (level, id)",
        """
        CREATE TABLE measure (
            repetition INTEGER NOT NULL REFERENCES repetition (id) ON DELETE CASCADE,
            name       TEXT NOT NULL,
            value      REAL,              -- in the unit of the measure, NULL for none
            PRIMARY KEY (repetition, name)
        ) WITHOUT ROWID
        """,
        """
        CREATE TABLE setting (
            key   TEXT PRIMARY KEY,
            value TEXT NOT NULL           -- JSON
        ) WITHOUT ROWID
        """,
    ),
)
"""Migration k (from 1) takes a file at version k - 1 to version k. Never edit one that shipped."""


def version(connection: sqlite3.Connection) -> int:
    """The version of the schema in a file; 0 for a new one."""
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def migrate(
    connection: sqlite3.Connection, migrations: Sequence[Sequence[str]] = MIGRATIONS
) -> None:
    """Bring a file to the newest version; a migration that fails leaves its file as it was.

    The connection must be in autocommit mode. Raises sqlite3.Error.
    """
    for number, statements in enumerate(migrations, start=1):
        if number <= version(connection):
            continue
        connection.execute("BEGIN IMMEDIATE")
        try:
            # Another stillfoot may have been faster since.
            if number > version(connection):
                for statement in statements:
                    connection.execute(statement)
                connection.execute(f"PRAGMA user_version = {number}")
            connection.execute("COMMIT")
        except BaseException:
            if connection.in_transaction:
                connection.execute("ROLLBACK")
            raise
