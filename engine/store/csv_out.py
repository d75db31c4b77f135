"""A history written out as a folder of CSV files, whole or not at all."""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import closing, suppress
from pathlib import Path

from engine.store.bundles import BUNDLE, ToWrite, first_of, write_bundle
from engine.store.cores import Cores, Tell
from engine.store.records import StoreError
from engine.store.sheets import Listed, SheetOut
from engine.store.tables import REPETITIONS, TABLES, add_units

FORMAT = 1
"""Number of the format: files of another one are not read."""
ABOUT = "about.csv"
"""What the others must come to. It comes last: a folder without it is not whole."""
ABOUT_HEADERS = ("what", "number", "SHA-256")
"""A number is the one of the format, or a count of rows."""
FIRST = "format"
"""What the first row of it is."""
TRACES = "traces.csv"
"""The list of traces."""
TRACES_HEADERS = ("repetition", "calibration", "held as", "rows")
PART = ".stillfoot-unfinished"
"""Folder within the one that is written to, until everything is there."""


def export(db: sqlite3.Connection, history: Path, folder: Path, cores: Cores, tell: Tell) -> int:
    """Write everything into a new or empty folder; the count of its repetitions.

    Raises StoreError, CellError, sqlite3.Error; nothing is left there then.
    """
    made = _claim(folder)
    written: list[Listed] = []
    try:
        part = folder / PART
        part.mkdir()
        for listed in _written(db, history, part, cores, tell):
            written.append(listed)
        for listed in written:
            (part / listed.file).replace(folder / listed.file)
        part.rmdir()
    except BaseException as error:
        _take_back(folder, written, made)
        if isinstance(error, OSError):
            raise _unwritable(folder, error) from error
        raise
    return next(one.rows for one in written if one.file == REPETITIONS)


def _claim(folder: Path) -> bool:
    """Whether the folder had to be made. Raises StoreError where there is anything in it."""
    expected = f"{folder}: expected a new or an empty folder, found"
    try:
        if folder.exists() and not folder.is_dir():
            raise StoreError(f"{expected} a file")
        made = not folder.exists()
        folder.mkdir(parents=True, exist_ok=True)
        there = min((one.name for one in folder.iterdir() if one.name != PART), default="")
        if not there:
            # What a program that was killed left behind is in nobody's way.
            shutil.rmtree(folder / PART, ignore_errors=True)
    except OSError as error:
        raise _unwritable(folder, error) from error
    if there:
        raise StoreError(f"{expected} '{there}' in it")
    return made


def _unwritable(folder: Path, error: OSError) -> StoreError:
    return StoreError(f"{folder}: expected a folder to write to, found: {error.strerror}")


def _take_back(folder: Path, written: Sequence[Listed], made: bool) -> None:
    shutil.rmtree(folder / PART, ignore_errors=True)
    with suppress(OSError):
        for listed in written:
            (folder / listed.file).unlink(missing_ok=True)
        if made:
            folder.rmdir()


def _written(
    db: sqlite3.Connection, history: Path, part: Path, cores: Cores, tell: Tell
) -> Iterator[Listed]:
    """Write the files; each as it is done, the one about the others last."""
    add_units(db)
    firsts = _bundles(db)
    steps = len(TABLES) + len(firsts)
    about: list[Listed] = []
    for number, table in enumerate(TABLES, start=1):
        with SheetOut(part / table.file, table.headers) as sheet:
            sheet.write(map(table.checked, db.execute(table.select)))
        about.append(sheet.listed)
        tell(number, steps)
    with SheetOut(part / TRACES, TRACES_HEADERS) as sheet:
        jobs = (ToWrite(history, part, first) for first in firsts)
        with closing(cores(len(firsts))(write_bundle, jobs)) as bundles:
            for number, (traced, listed) in enumerate(bundles, start=len(TABLES) + 1):
                sheet.write((one.repetition, one.calibration, one.held, one.rows) for one in traced)
                about += listed
                tell(number, steps)
    about.append(sheet.listed)
    yield from about
    with SheetOut(part / ABOUT, ABOUT_HEADERS) as sheet:
        sheet.write([(FIRST, FORMAT, "")])
        sheet.write((one.file, one.rows, one.digest) for one in about)
    yield sheet.listed


def _bundles(db: sqlite3.Connection) -> list[int]:
    """The first repetition of each bundle that there is."""
    found = db.execute(
        f"SELECT DISTINCT (repetition - 1) / {BUNDLE} FROM trace ORDER BY 1"
    ).fetchall()
    return [first_of(1 + BUNDLE * int(number)) for (number,) in found]
