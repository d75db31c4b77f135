"""Migration 9 of the history file: the table of personal limits, and an index over kinds."""

from __future__ import annotations

PERSONAL_LIMITS = (
    # The ledger of personal limits, see engine/store/personal.py.
    """
    CREATE TABLE personal (
        level      TEXT NOT NULL,
        rig        INTEGER NOT NULL,  -- 0 where it was no saved one
        newest     INTEGER NOT NULL,  -- newest repetition in it
        definition INTEGER NOT NULL,  -- by which their verdicts were told
        loads      TEXT NOT NULL,     -- JSON list of factors on the limits, oldest first
        days       TEXT NOT NULL,     -- JSON list of their days, ISO 8601, local
        best       REAL,              -- factor on the limits, this and the next NULL for none
        best_day   TEXT,              -- ISO 8601, local
        since      INTEGER NOT NULL,  -- repetitions since the newest whole block
        ended      TEXT,              -- ISO 8601, local, this and the next two NULL for none
        block      REAL,              -- factor on the limits
        mark       REAL,              -- factor on the limits
        told       TEXT,              -- ISO 8601, local, NULL for never
        PRIMARY KEY (level, rig)
    ) WITHOUT ROWID
    """,
    "CREATE INDEX repetition_kind ON repetition (kind)",
)
"""SQL statements that take a history file from version 8 to 9."""
