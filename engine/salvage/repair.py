"""Repair of a damaged history: it is set aside as it is, and a salvaged one takes its place."""

from __future__ import annotations

import os
import shutil
import sqlite3
from collections.abc import Sequence
from contextlib import closing, suppress
from dataclasses import dataclass
from datetime import date
from itertools import count
from pathlib import Path

from drills.level import Level
from engine.errors import reason_of
from engine.salvage.blocks import blocks_of
from engine.salvage.loss import Loss
from engine.salvage.salvage import salvage
from engine.store.backup import STEPS, SYNCED, Tell, journal_of, silent, unfinished
from engine.store.copies import newest_copies
from engine.store.error import StoreError
from engine.store.history import FILE, is_stopped
from engine.store.lock import hold_alone
from engine.store.opening import connect

ASIDE = "history-damaged-{}{}.sqlite3"
"""Name that a damaged history gets: the local day of its repair, and where that name is taken,
"-2" and so on."""


@dataclass(frozen=True)
class Repair:
    """What a repair did."""

    aside: Path | None
    """Where the damaged file is now; None if the history was whole, as another program was
    faster."""
    history: Path
    """The history that is played on."""
    loss: Loss
    """What could not be read of the damaged file."""
    day: date
    """Local day of the repair."""


def repair(
    folder: Path, levels: Sequence[Level], tell: Tell = silent, today: date | None = None
) -> Repair:
    """Set a damaged history aside, and put what can be salvaged of it in its place.

    There is a file in its place at every moment. `levels` are as in `open_history`; `tell` is
    called now and then; `today` is the local day, for the name of the damaged file (None: of the
    system). Raises StoreError if another program has the history open or the disk is full; the
    damaged file stays in its place then.
    """
    path = folder / FILE
    day = today or date.today()
    with closing(hold_alone(path)):
        salvaged = path.with_name(f"{path.name}.salvaged")
        try:
            salvaged.unlink(missing_ok=True)
            loss = salvage(path, salvaged, levels, newest_copies(folder), tell)
            if loss == Loss() and _is_same(path, salvaged, tell):
                return Repair(None, path, loss, day)
            aside = _set_aside(path, day, tell)
            _replace(path, salvaged, aside)
        except OSError as error:
            found = reason_of(error)
            raise StoreError(f"{path}: expected a file to write to, found: {found}") from error
        finally:
            with suppress(OSError):
                salvaged.unlink(missing_ok=True)
    return Repair(aside, path, loss, day)


def _set_aside(path: Path, today: date, tell: Tell) -> Path:
    """Copy a damaged history and its journal to a new name; returns that. Raises OSError.

    Then SQLite undoes what a crash broke off, or the journal is taken away: beside another history
    it would be taken for one of that.
    """
    names = (ASIDE.format(today.isoformat(), f"-{n}" if n > 1 else "") for n in count(1))
    aside = next(one for name in names if not (one := path.with_name(name)).exists())
    journal = journal_of(path)
    with unfinished(aside) as part:
        # A repair that was killed may have left its own, which is of another file.
        journal_of(aside).unlink(missing_ok=True)
        if journal.exists():
            _copy(journal, journal_of(aside), tell)
        _copy(path, part, tell)
        part.replace(aside)
    with suppress(sqlite3.Error, UnicodeDecodeError), closing(connect(path, 0.0)) as db:
        db.execute("SELECT count(*) FROM sqlite_master").fetchone()
    journal.unlink(missing_ok=True)
    return aside


def _replace(path: Path, salvaged: Path, aside: Path) -> None:
    """Put the salvaged history in the place of the damaged one. Raises OSError."""
    try:
        salvaged.replace(path)
    except OSError:
        # On Windows no file can be replaced that another program has open.
        aside.unlink()
        journal_of(aside).unlink(missing_ok=True)
        raise


def _copy(source: Path, target: Path, tell: Tell) -> None:
    """Copy a file to the disk, as far as it can be read. Raises StoreError, OSError."""
    unsynced = 0
    with target.open("wb") as file:
        for block in blocks_of(source):
            unsynced += file.write(block)
            if unsynced >= SYNCED:
                os.fsync(file.fileno())
                unsynced = 0
            tell()
        file.flush()
        os.fsync(file.fileno())
    shutil.copystat(source, target)


def _is_same(path: Path, salvaged: Path, tell: Tell) -> bool:
    """Whether a history is whole: SQLite finds no damage, and all is in it that is in another.

    Raises StoreError if `tell` raised anything.
    """
    try:
        # What a crash broke off is not undone: the damaged file stays as it is.
        uri = f"{path.absolute().as_uri()}?mode=ro"
        with closing(sqlite3.connect(uri, uri=True)) as db:
            db.set_progress_handler(tell, STEPS)
            if db.execute("PRAGMA integrity_check(1)").fetchone()[0] != "ok":
                return False
            db.execute("ATTACH ? AS salvaged", (str(salvaged),))
            tables = _differing(db, "(SELECT type, name FROM {}.sqlite_master)")
            versions = {
                db.execute(f"PRAGMA {one}.user_version").fetchone() for one in ("main", "salvaged")
            }
            names = db.execute("SELECT name FROM main.sqlite_master WHERE type = 'table'")
            return (
                not tables
                and len(versions) == 1
                and not any(_differing(db, f"{{}}.{name}") for (name,) in names.fetchall())
            )
    except sqlite3.Error as error:
        if is_stopped(error):
            raise StoreError(
                f"{path}: expected time to repair it, found an interruption"
            ) from error
        return False
    except UnicodeDecodeError:
        return False


def _differing(db: sqlite3.Connection, rows: str) -> bool:
    """Whether some rows of a history, `rows` of a schema, differ in the two that are attached."""
    one, other = (rows.format(schema) for schema in ("main", "salvaged"))
    return any(
        db.execute(f"SELECT 1 FROM (SELECT * FROM {a} EXCEPT SELECT * FROM {b}) LIMIT 1").fetchone()
        for a, b in ((one, other), (other, one))
    )
