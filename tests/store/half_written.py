"""A history as a crash in the middle of writing leaves it: half written, its journal beside it."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

from engine.store.backup import journal_of


def break_off(file: Path) -> None:
    """Leave a history as if the computer had stopped while all its traces were replaced."""
    half = file.with_name("half.sqlite3")
    with closing(sqlite3.connect(file, isolation_level=None)) as db:
        # So little memory that pages are written before the transaction ends.
        db.execute("PRAGMA cache_size = 1")
        db.execute("BEGIN")
        db.execute("UPDATE trace SET packed = zeroblob(length(packed))")
        shutil.copy(file, half)
        shutil.copy(journal_of(file), journal_of(half))
        db.execute("ROLLBACK")
    assert half.read_bytes() != file.read_bytes()
    half.replace(file)
    journal_of(half).replace(journal_of(file))
