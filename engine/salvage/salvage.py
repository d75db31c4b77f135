"""Salvage of a damaged history: everything that can be read of it, in a new whole one.

The damaged file is read and never written to. What cannot be read is filled from automatic copies
of the same history, as far as they have it.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path

from drills.level import Level
from engine.salvage.blocks import blocks_of
from engine.salvage.carry import carry_over
from engine.salvage.fill import COMPLETE, attached, fill
from engine.salvage.gaps import Gaps, in_gap
from engine.salvage.loss import (
    INCOMPLETE_DRIVE,
    WITHOUT_TRACE,
    Before,
    Loss,
    count_loss,
    greatest_repetition,
    note_incomplete,
    note_traces_of_lost,
    references,
)
from engine.salvage.shapes import shapes_of, shapes_of_version
from engine.salvage.sift import sift, sift_traces
from engine.store import ledger
from engine.store.backup import STEPS, Tell, journal_of, silent, unfinished
from engine.store.error import StoreError
from engine.store.history import is_stopped, transaction
from engine.store.migrate import migrate, version
from engine.store.opening import PAGE, connect
from engine.store.repetitions import read_results
from engine.store.rigs import USED
from engine.store.schema import MIGRATIONS

OWN = ("repetition", "sitting", "trial", "drive", "change", "rig", "setting", "trace")
"""Tables with what a player did or set; the others only serve these."""


def salvage(
    damaged: Path,
    target: Path,
    levels: Sequence[Level],
    copies: Sequence[Path] = (),
    tell: Tell = silent,
) -> Loss:
    """Make a new history of today's version of all that can be read of a damaged one.

    `copies` are automatic copies of the same history, the newest first; one of another history, or
    a damaged one, is left out. `levels` are as in `open_history`; `tell` is called now and then.
    Raises StoreError if the damaged file cannot be read at all, or the target not written; there
    is no target then.
    """
    with unfinished(target) as part:
        with unfinished(target.with_name(f"{target.name}.read")) as look:
            _copy(damaged, look, tell)
            if journal_of(damaged).exists():
                _copy(journal_of(damaged), journal_of(look), tell)
            is_whole = _opens(look, tell)
            if is_whole:
                look.replace(part)
            with closing(connect(part, 0.0)) as db:
                db.set_progress_handler(tell, STEPS)
                db.execute(f"PRAGMA page_size = {PAGE}")
                # Until it is renamed, nobody misses this file if the computer stops.
                db.execute("PRAGMA synchronous = OFF")
                db.execute("PRAGMA journal_mode = MEMORY").fetchone()
                gaps, is_cut = (Gaps(), False) if is_whole else carry_over(look, db, tell)
                migrate(db, rules={level.id: level.rule for level in levels})
                loss = _make_whole(db, gaps, levels, copies, part, tell, is_cut=is_cut)
                _check(db, target)
                db.execute("PRAGMA journal_mode = DELETE").fetchone()
        with part.open("rb+") as file:
            os.fsync(file.fileno())
        part.replace(target)
    return loss


def _make_whole(
    db: sqlite3.Connection,
    gaps: Gaps,
    levels: Sequence[Level],
    copies: Sequence[Path],
    part: Path,
    tell: Tell,
    *,
    is_cut: bool,
) -> Loss:
    """Take out of a salvaged history what no reader understands, fill it, and settle the rest."""
    with transaction(db):
        sift(db, gaps, tell)
        note_traces_of_lost(db, gaps)
        has_anything = any(_numbers(db, f"SELECT count(*) FROM {table}") != [0] for table in OWN)
        settings = frozenset(
            low
            for low, high in gaps.ranges.get("setting", [])
            if low == high and isinstance(low, str)
        )
    greatest = greatest_repetition(db)
    readable = _numbers(db, _READABLE)
    without_calibration = sorted(_traces(db).difference(readable))
    sift_traces(db, gaps, tell, readable)
    filled, from_copies = _fill_from(copies, db, gaps, levels, part, tell)
    with transaction(db):
        sift_traces(db, gaps, tell, without_calibration)
        gaps.save(db)
        note_incomplete(db, gaps)
        before = Before(greatest, references(db, gaps), is_cut, settings, has_anything)
        _settle(db)
        ledger.rebuild(db, read_results(db))
        return count_loss(db, gaps, before, filled, from_copies)


def _fill_from(
    copies: Sequence[Path],
    db: sqlite3.Connection,
    gaps: Gaps,
    levels: Sequence[Level],
    part: Path,
    tell: Tell,
) -> tuple[list[int], dict[Path, int]]:
    """Fill a salvaged history from copies of the same one.

    Returns the numbers of the repetitions that were filled, and how many came from each copy.
    """
    filled: list[int] = []
    from_copies: dict[Path, int] = {}
    db.execute(COMPLETE)
    for copy in copies if gaps.ranges else ():
        with attached(db, copy, part.with_name(f"{part.name}.copy"), levels, tell) as is_same:
            if not is_same:
                continue
            with transaction(db):
                before = _traces(db)
                count = fill(db, gaps)
                sift_traces(db, gaps, tell, sorted(_traces(db) - before))
                filled += _numbers(db, "SELECT id FROM temp.filled")
                if count:
                    from_copies[copy] = count
    return filled, from_copies


_READABLE = (
    "SELECT repetition FROM trace"
    " WHERE calibration IS NULL OR calibration IN (SELECT id FROM calibration)"
)
"""Traces that can be read now: a copy may have the calibration of the others."""
_UNMEASURED = (
    f"({in_gap('measure', 'id')}"
    " AND id NOT IN (SELECT id FROM temp.complete WHERE tbl = 'measure'))"
    " OR id IN (SELECT repetition FROM measure WHERE name NOT IN (SELECT id FROM measure_name))"
)
"""Repetitions of which measures may be missing."""
_REFERENCES = (
    # Measures whose names are lost are computed once more, like those that are missing.
    f"UPDATE repetition SET definition = 0, fixed = 0 WHERE ({_UNMEASURED})"
    " AND id IN (SELECT repetition FROM trace)",
    "DELETE FROM measure WHERE name NOT IN (SELECT id FROM measure_name)"
    " OR repetition NOT IN (SELECT id FROM repetition)",
    "DELETE FROM guess WHERE measure NOT IN (SELECT id FROM measure_name)"
    " OR repetition NOT IN (SELECT id FROM repetition)",
    "DELETE FROM trace WHERE repetition NOT IN (SELECT id FROM repetition)",
    "UPDATE trace SET calibration = NULL WHERE calibration NOT IN (SELECT id FROM calibration)",
    # A repetition without its trace keeps the measures it has.
    f"UPDATE repetition SET fixed = 1 WHERE {WITHOUT_TRACE}",
    "UPDATE repetition SET sitting = NULL WHERE sitting NOT IN (SELECT id FROM sitting)",
    "UPDATE repetition SET trial = NULL, block = NULL WHERE trial NOT IN (SELECT id FROM trial)",
    "UPDATE repetition SET rig = NULL WHERE rig NOT IN (SELECT id FROM rig)",
    "UPDATE change SET rig = NULL WHERE rig NOT IN (SELECT id FROM rig)",
    "UPDATE drive SET rig = NULL WHERE rig NOT IN (SELECT id FROM rig)",
    f"DELETE FROM setting WHERE key = '{USED}'"
    " AND CAST(value AS INTEGER) NOT IN (SELECT id FROM rig)",
    # A drive without all of its blips would tell less than was driven: it can be read once more.
    f"DELETE FROM drive WHERE {INCOMPLETE_DRIVE}",
    "DELETE FROM drive_blip WHERE drive NOT IN (SELECT id FROM drive)",
)
"""Statements after which no row refers to one that is lost."""


def _settle(db: sqlite3.Connection) -> None:
    """Cut references to lost rows, and let lost measures be remeasured. Raises sqlite3.Error."""
    for statement in _REFERENCES:
        db.execute(statement)


def _traces(db: sqlite3.Connection) -> set[int]:
    """Numbers of the repetitions with a trace."""
    return set(_numbers(db, "SELECT repetition FROM trace"))


def _numbers(db: sqlite3.Connection, statement: str) -> list[int]:
    return [int(number) for (number,) in db.execute(statement)]


def _opens(file: Path, tell: Tell) -> bool:
    """Whether SQLite finds a whole history in a file, after it undid what a crash broke off.

    Raises sqlite3.Error if `tell` raised anything.
    """
    try:
        with closing(connect(file, 0.0)) as db:
            db.set_progress_handler(tell, STEPS)
            db.execute("SELECT count(*) FROM sqlite_master").fetchone()
            number = version(db)
            return (
                1 <= number <= len(MIGRATIONS)
                and db.execute("PRAGMA integrity_check(1)").fetchone()[0] == "ok"
                and shapes_of(db) == shapes_of_version(number)
            )
    except sqlite3.Error as error:
        if is_stopped(error):
            raise
        return False
    except UnicodeDecodeError:
        return False


def _check(db: sqlite3.Connection, target: Path) -> None:
    """Raise StoreError unless a salvaged history is whole."""
    found = [str(db.execute("PRAGMA integrity_check(1)").fetchone()[0])]
    found += [
        f"a row of {table} without its {other}"
        for table, _, other, _ in db.execute("PRAGMA foreign_key_check").fetchall()
    ]
    if found != ["ok"]:
        raise StoreError(f"{target}: expected a whole history, found: {found[-1]}")


def _copy(source: Path, copy: Path, tell: Tell) -> None:
    """Copy a file as far as it can be read. Raises StoreError if it cannot be opened, OSError."""
    with copy.open("wb") as file:
        for block in blocks_of(source):
            file.write(block)
            tell()
