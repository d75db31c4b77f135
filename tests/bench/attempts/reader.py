"""What can be read of a history file, row by row, by SQLite alone: nothing of the program's.

A damaged file is read forwards, backwards and by number, each as far as it goes.
"""

import shutil
import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing, suppress
from pathlib import Path
from tempfile import TemporaryDirectory

Fact = tuple[object, ...]
"""Name of a table and the cells of one row that no command may change; text as bytes."""

COLUMNS = {
    "repetition": "at_utc, offset, level, kind, target, score, clean, void, reason, id",
    "trace": "packed, repetition",
    "trial": "began_utc, offset, level, a, b, pairs, seed, id",
    "drive": "at_utc, name, digest, seconds, id",
    "change": "at_utc, offset, what, note, id",
    "rig": "name, note, id",
    "guess": "value, repetition",
    "sitting": "what, began_utc, offset, day, minutes, seed, id",
    "setting": "key, value",
}
"""Cells of each table that hold what the player did; the ledger follows from them."""
CHANGING = {b"window", b"rig"}
"""Keys of settings that the game writes by itself."""
MOST = 10_000
"""Largest number of a row that is looked for."""
HEADER = b"SQLite format 3\0"


def facts_of(path: Path) -> set[Fact]:
    """All that can be read of a history file; empty where it is none. The file is left as it is.

    A transaction that was under way when its program was killed is undone, as by whoever opens it.
    """
    found: set[Fact] = set()
    with suppress(sqlite3.Error, OSError), TemporaryDirectory() as name:
        copy = Path(name) / path.name
        shutil.copy(path, copy)
        with suppress(FileNotFoundError):
            shutil.copy(f"{path}-journal", f"{copy}-journal")
        with closing(sqlite3.connect(copy)) as db:
            db.text_factory = bytes
            for table, columns in COLUMNS.items():
                found.update((table, *row) for row in _rows(db, table, columns))
    return {fact for fact in found if not (fact[0] == "setting" and fact[1] in CHANGING)}


def facts_in(folder: Path) -> set[Fact]:
    """All that can be read of the history files directly in a data folder, set aside or not."""
    return set().union(*map(facts_of, databases(folder)))


def databases(folder: Path) -> list[Path]:
    """History files in a folder, whatever they are called."""
    return [file for file in sorted(folder.iterdir()) if file.is_file() and _is_database(file)]


def repetitions(facts: Iterable[Fact]) -> set[Fact]:
    """Repetitions among facts."""
    return {fact for fact in facts if fact[0] == "repetition"}


def is_whole(path: Path) -> bool:
    """Whether SQLite finds nothing wrong with a file and with its references."""
    try:
        with closing(sqlite3.connect(path)) as db:
            found = db.execute("PRAGMA integrity_check").fetchall()
            return found == [("ok",)] and not db.execute("PRAGMA foreign_key_check").fetchall()
    except sqlite3.Error:
        return False


def _is_database(file: Path) -> bool:
    with file.open("rb") as stream:
        return stream.read(len(HEADER)) == HEADER


def _rows(db: sqlite3.Connection, table: str, columns: str) -> Iterator[tuple[object, ...]]:
    """Rows of a table, each perhaps more than once."""
    for order in ("", "ORDER BY rowid DESC"):
        with suppress(sqlite3.Error):
            yield from db.execute(f"SELECT {columns} FROM {table} {order}")
    highest = 0
    with suppress(sqlite3.Error):
        highest = int(db.execute(f"SELECT max(rowid) FROM {table}").fetchone()[0] or 0)
    for number in range(1, min(highest, MOST) + 1):
        with suppress(sqlite3.Error):
            yield from db.execute(f"SELECT {columns} FROM {table} WHERE rowid = ?", (number,))
