"""Migration of a history file to the newest tables; the steps it needs are one transaction."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Sequence

from engine.store import ledger
from engine.store.history import transaction
from engine.store.repetitions import read_results
from engine.store.schema import MIGRATIONS, Alteration, Rules

LEDGER = 9
"""Version from which on a history file holds the whole ledger: an older one gets it by
`fill_ledger`. A migration that adds to the ledger raises this to its own number."""


def fill_ledger(connection: sqlite3.Connection, before: int) -> None:
    """Compute the ledger of a history file that was migrated from version `before`, if it lacks it.

    Migrations do not do so, as today's rules can read only the newest tables. Raises CellError,
    sqlite3.Error.
    """
    if before < LEDGER:
        ledger.rebuild(connection, read_results(connection))


def version(connection: sqlite3.Connection) -> int:
    """Version of the tables in a history file; 0 for a new file."""
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def migrate(
    connection: sqlite3.Connection,
    migrations: Sequence[Sequence[Alteration]] = MIGRATIONS,
    rules: Rules | None = None,
    finish: Callable[[sqlite3.Connection, int], None] | None = None,
) -> None:
    """Bring a history file to the newest version; if anything fails it stays as it was.

    `finish` is called once after the last migration, with the version that the file had before.
    The connection must be in autocommit mode. Raises sqlite3.Error, and whatever a step or `finish`
    raises.
    """
    if version(connection) >= len(migrations):
        return
    with transaction(connection):
        # Another stillfoot may have been faster: the version is asked for again.
        before = version(connection)
        for number in range(before + 1, len(migrations) + 1):
            for step in migrations[number - 1]:
                if isinstance(step, str):
                    connection.execute(step)
                else:
                    step(connection, rules or {})
            connection.execute(f"PRAGMA user_version = {number}")
        if finish is not None:
            finish(connection, before)
