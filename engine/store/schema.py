"""Tables of the history file, as numbered migrations, which `engine/store/migrate.py` runs.

Some names differ from those in the code, as a rename would need a migration: `sitting` is a
session, `keeping` the retention of a level, `progress` its passes, `clean_row` the streak of clean
repetitions.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Mapping, Sequence

from drills.level import PassRule
from engine.store.personal_table import PERSONAL_LIMITS

Rules = Mapping[str, PassRule]
"""Pass rules in force, by the ids of their levels."""
Alteration = str | Callable[[sqlite3.Connection, Rules], None]
"""One step of a migration: an SQL statement, or a function for what SQL cannot do."""


def _state_rules(connection: sqlite3.Connection, rules: Rules) -> None:
    """Store the pass rule of their level with repetitions of version 1, which have none."""
    connection.executemany(
        "UPDATE repetition SET pass_clean = ?, pass_of = ? WHERE level = ?",
        [(rule.clean, rule.of, level) for level, rule in rules.items()],
    )


MIGRATIONS: Sequence[Sequence[Alteration]] = (
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
    (
        "ALTER TABLE repetition ADD COLUMN pass_clean INTEGER NOT NULL DEFAULT 8",
        "ALTER TABLE repetition ADD COLUMN pass_of INTEGER NOT NULL DEFAULT 10",
        _state_rules,
        """
        CREATE TABLE calibration (
            id   INTEGER PRIMARY KEY,
            ends TEXT NOT NULL UNIQUE     -- JSON list, raw rest and full of each pedal
        )
        """,
        # Beside the repetitions, so that reading those does not drag the traces along.
        """
        CREATE TABLE trace (
            repetition  INTEGER PRIMARY KEY REFERENCES repetition (id) ON DELETE CASCADE,
            calibration INTEGER REFERENCES calibration (id),  -- NULL where not known
            packed      BLOB NOT NULL     -- see engine/store/traces.py
        )
        """,
        "INSERT INTO trace SELECT id, NULL, trace FROM repetition WHERE trace IS NOT NULL",
        "ALTER TABLE repetition DROP COLUMN trace",
        # A name is stored once and not twenty times a repetition.
        "CREATE TABLE measure_name (id INTEGER PRIMARY KEY, name TEXT NOT NULL UNIQUE)",
        "INSERT INTO measure_name (name) SELECT DISTINCT name FROM measure",
        "ALTER TABLE measure RENAME TO measure_by_name",
        """
        CREATE TABLE measure (
            repetition INTEGER NOT NULL REFERENCES repetition (id) ON DELETE CASCADE,
            name       INTEGER NOT NULL REFERENCES measure_name (id),
            value      REAL,              -- in the unit of the measure, NULL for none
            PRIMARY KEY (repetition, name)
        ) WITHOUT ROWID
        """,
        """
        INSERT INTO measure SELECT repetition, measure_name.id, value
        FROM measure_by_name JOIN measure_name USING (name)
        """,
        "DROP TABLE measure_by_name",
        # The ledger: made from the repetitions alone, see engine/store/ledger.py.
        """
        CREATE TABLE progress (
            level  TEXT PRIMARY KEY,
            latest TEXT NOT NULL,         -- newest outcomes, 1 for clean, the newest last
            passed INTEGER NOT NULL       -- 0 or 1
        ) WITHOUT ROWID
        """,
        """
        CREATE TABLE day (
            day      TEXT PRIMARY KEY,    -- ISO 8601, local
            counted  INTEGER NOT NULL,    -- repetitions that were not void
            clean    INTEGER NOT NULL,    -- clean ones of them
            streak   INTEGER NOT NULL,    -- days practised in a row up to this one
            unbroken INTEGER NOT NULL     -- days practised since the last that was not
        ) WITHOUT ROWID
        """,
        """
        CREATE TABLE clean_row (
            id    INTEGER PRIMARY KEY CHECK (id = 1),
            count INTEGER NOT NULL        -- clean repetitions in a row up to now
        )
        """,
    ),
    (
        "ALTER TABLE repetition ADD COLUMN report_interval REAL",  # s, NULL where not known
        # 1 where feet on pedals did it: nothing else counts.
        "ALTER TABLE repetition ADD COLUMN feet INTEGER NOT NULL DEFAULT 1",
        "UPDATE repetition SET feet = 0 WHERE source IN ('mouse', 'simulated')",
        # Most clean ones among those that the pass rule looks at.
        "ALTER TABLE progress ADD COLUMN best INTEGER NOT NULL DEFAULT 0",
    ),
    (
        "ALTER TABLE repetition ADD COLUMN seed INTEGER",  # of its set, NULL where it had none
        # Id of the level that a mixed one drew, empty where it was played itself.
        "ALTER TABLE repetition ADD COLUMN drawn TEXT NOT NULL DEFAULT ''",
        """
        CREATE TABLE guess (
            repetition INTEGER PRIMARY KEY REFERENCES repetition (id) ON DELETE CASCADE,
            value      REAL NOT NULL,     -- what the player guessed, in the unit of the measure
            measure    INTEGER NOT NULL REFERENCES measure_name (id)
        )
        """,
    ),
    (
        """
        CREATE TABLE sitting (
            id        INTEGER PRIMARY KEY,
            what      TEXT NOT NULL,      -- what runs by itself
            began_utc TEXT NOT NULL,      -- ISO 8601, UTC
            offset    INTEGER NOT NULL,   -- minutes east of UTC
            day       TEXT NOT NULL,      -- ISO 8601, local, on which it began
            minutes   REAL NOT NULL,      -- how long it was to be
            seed      INTEGER NOT NULL,
            over      INTEGER NOT NULL    -- 0 or 1
        )
        """,
        "CREATE INDEX sitting_day ON sitting (day)",
        # Why it was played, of what sitting (NULL for none), s it took since the one before and
        # points of tolerance asked in the place of the level's own (both NULL where not known).
        "ALTER TABLE repetition ADD COLUMN why TEXT NOT NULL DEFAULT 'chosen'",
        "ALTER TABLE repetition ADD COLUMN sitting INTEGER REFERENCES sitting (id)",
        "ALTER TABLE repetition ADD COLUMN took REAL",
        "ALTER TABLE repetition ADD COLUMN asked REAL",
        "CREATE INDEX repetition_sitting ON repetition (sitting)",
        "CREATE INDEX repetition_why ON repetition (level, why)",
        """
        CREATE TABLE keeping (
            level     TEXT PRIMARY KEY,
            due       TEXT NOT NULL,      -- ISO 8601, local, from when it is to be shown
            outlasted INTEGER NOT NULL,   -- intervals after which it was kept
            missed    INTEGER NOT NULL,   -- 0 or 1, the last time
            day       TEXT,               -- ISO 8601, local, last begun to be shown; NULL for never
            first     TEXT NOT NULL       -- outcomes then, up to what decided, 1 for clean
        ) WITHOUT ROWID
        """,
        # Highest score of one repetition, and most clean ones there ever were in a row.
        "ALTER TABLE progress ADD COLUMN top REAL NOT NULL DEFAULT 0",
        "ALTER TABLE clean_row ADD COLUMN best INTEGER NOT NULL DEFAULT 0",
    ),
    (
        """
        CREATE TABLE trial (
            id        INTEGER PRIMARY KEY,
            began_utc TEXT NOT NULL,      -- ISO 8601, UTC
            offset    INTEGER NOT NULL,   -- minutes east of UTC
            level     TEXT NOT NULL,
            a         TEXT NOT NULL,      -- JSON, how the foot stands in arm A
            b         TEXT NOT NULL,      -- JSON, how it stands in arm B
            pairs     INTEGER NOT NULL,   -- pairs of blocks, fixed beforehand
            seed      INTEGER NOT NULL,   -- of the lots
            over      INTEGER NOT NULL    -- 0 or 1
        )
        """,
        # Of what trial and from 0 of which of its blocks, NULL for none.
        "ALTER TABLE repetition ADD COLUMN trial INTEGER REFERENCES trial (id)",
        "ALTER TABLE repetition ADD COLUMN block INTEGER",
        "CREATE INDEX repetition_trial ON repetition (trial) WHERE trial IS NOT NULL",
        """
        CREATE TABLE drive (
            id      INTEGER PRIMARY KEY,
            at_utc  TEXT NOT NULL,        -- ISO 8601, UTC, when it was kept
            offset  INTEGER NOT NULL,     -- minutes east of UTC
            name    TEXT NOT NULL,        -- of its file
            digest  TEXT NOT NULL UNIQUE, -- SHA-256 of its file
            seconds REAL NOT NULL         -- s, how long it is
        )
        """,
        """
        CREATE TABLE drive_blip (
            drive  INTEGER NOT NULL REFERENCES drive (id) ON DELETE CASCADE,
            number INTEGER NOT NULL,      -- from 1, in order
            run    INTEGER NOT NULL,      -- from 1
            place  INTEGER NOT NULL,      -- from 1, in its run
            onset  REAL NOT NULL,         -- s, on the time axis of the recording
            peak   REAL NOT NULL,         -- %
            dip    REAL,                  -- points, this and the next two NULL where not scored
            surge  REAL,                  -- points
            carry  REAL,                  -- points
            reason TEXT NOT NULL,         -- why it is not scored
            PRIMARY KEY (drive, number)
        ) WITHOUT ROWID
        """,
        """
        CREATE TABLE change (
            id      INTEGER PRIMARY KEY,
            at_utc  TEXT NOT NULL,        -- ISO 8601, UTC
            offset  INTEGER NOT NULL,     -- minutes east of UTC
            what    TEXT NOT NULL,        -- foot position, pedals or shoes
            "after" INTEGER NOT NULL,     -- newest repetition before it, 0 for none
            note    TEXT NOT NULL
        )
        """,
    ),
    (
        # Version of the definitions by which its verdict was told, and of those that its measures
        # are of; 1 in `fixed` where these cannot be computed once more.
        "ALTER TABLE repetition ADD COLUMN verdict_definition INTEGER NOT NULL DEFAULT 1",
        "ALTER TABLE repetition ADD COLUMN definition INTEGER NOT NULL DEFAULT 1",
        "ALTER TABLE repetition ADD COLUMN fixed INTEGER NOT NULL DEFAULT 0",
        "CREATE INDEX repetition_definition ON repetition (fixed, definition)",
        # Version of the definitions that its blips were measured by.
        "ALTER TABLE drive ADD COLUMN definition INTEGER NOT NULL DEFAULT 1",
        # Points of brake that were gone before the throttle, NULL where that is not known.
        "ALTER TABLE drive_blip ADD COLUMN early REAL",
        # Of pedals that were set up anew, NULL for a change that the player marked.
        "ALTER TABLE change ADD COLUMN old_ends TEXT",
        "ALTER TABLE change ADD COLUMN new_ends TEXT",
        """
        CREATE TABLE rig (
            id      INTEGER PRIMARY KEY,
            name    TEXT NOT NULL,        -- empty for none
            note    TEXT NOT NULL,        -- on spacing and shoes
            binding TEXT NOT NULL,        -- JSON, axes of the pedals and their ends
            removed INTEGER NOT NULL      -- 0 or 1
        )
        """,
        # What was set up before is the first rig, and all feet were on it.
        "INSERT INTO rig SELECT 1, '', '', value, 0 FROM setting WHERE key = 'binding'",
        "INSERT INTO setting SELECT 'rig', '1' FROM rig",
        "DELETE FROM setting WHERE key = 'binding'",
        # Of the rig that was set up anew, NULL for a change that the player marked.
        "ALTER TABLE change ADD COLUMN rig INTEGER REFERENCES rig (id)",
        # NULL where it was not played with the pedals of a saved rig.
        "ALTER TABLE repetition ADD COLUMN rig INTEGER REFERENCES rig (id)",
        "UPDATE repetition SET rig = 1 WHERE feet = 1 AND EXISTS (SELECT 1 FROM rig)",
    ),
    (
        # 1 where a day is a block: the set-up changes from day to day, beside practice.
        "ALTER TABLE trial ADD COLUMN by_days INTEGER NOT NULL DEFAULT 0",
        # Points between one report of the held brake and the next, NULL where not known.
        "ALTER TABLE drive ADD COLUMN noise REAL",
        # Of the rig that it was driven with, NULL where not known.
        "ALTER TABLE drive ADD COLUMN rig INTEGER REFERENCES rig (id)",
    ),
    PERSONAL_LIMITS,
    # No table changes. An earlier stillfoot would take the shift button in a trace for a clutch,
    # lose a rig that has one and drop sessions of counting in a repair: it must not open the file.
    (),
)
"""Steps that take a history file from version k - 1 to k, for k from 1. Never edit those that
shipped."""
