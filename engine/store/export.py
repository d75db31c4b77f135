"""Export of the history as a folder of CSV files (RFC 4180, UTF-8), one for each table.

The columns are those of the schema; a missing value is an empty cell. CSV is not read back.
"""

from __future__ import annotations

import csv
import gzip
import io
import shutil
import sqlite3
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import closing, suppress
from dataclasses import dataclass
from itertools import repeat
from pathlib import Path

from engine.errors import reason_of
from engine.practice.results import Purpose
from engine.store.backup import copy_database
from engine.store.cells import CellError
from engine.store.error import StoreError
from engine.store.headers import file_of, header_of, unit_of
from engine.store.history import History, errors_of
from engine.store.traces import read_trace

Tell = Callable[[int, int], None]
"""Function that is called with the number of export steps done and the number of all steps."""
PART = ".stillfoot-unfinished"
"""Folder within the target folder of an export that is written to until everything is there."""
FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")
"""First characters of a text that a spreadsheet runs as a formula."""
HARMLESS = "'"
"""Character put before a text that a spreadsheet would run, so that it shows the text."""
TRACES = "trace.csv.gz"
"""Name of the exported file that holds all traces."""
TRACE_HEADERS = (
    *("repetition", "time (ns)", "brake (%)", "throttle (%)", "clutch (%)"),
    *("brake (counts)", "throttle (counts)", "clutch (counts)", "shift (1 is down)"),
)
_NAMES = "measure_name"
"""Table of the names of measures: in exported rows a name replaces its number."""
_WHENS = " ".join(f"WHEN '{purpose.value}' THEN '{purpose.words}'" for purpose in Purpose)
_PURPOSES = f"CASE {{0}} {_WHENS} ELSE {{0}} END"
"""SQL for the words of the purpose that is stored in a column."""


@dataclass(frozen=True)
class Exported:
    """What an export wrote, and what it had to leave out."""

    repetitions: int
    """Number of repetitions written."""
    unreadable: tuple[int, ...]
    """Numbers of the repetitions whose damaged traces are left out."""


def export(history: History, folder: Path, tell: Tell, *, traces: bool = False) -> Exported:
    """Write the history without traces into a new or empty folder.

    `traces` adds those traces that can be read, compressed. Raises StoreError; nothing is left in
    the folder then.
    """
    made = _claim(folder)
    part, moved = folder / PART, list[Path]()
    try:
        # What is written is a copy, so that a game can go on writing.
        with errors_of(history.path, "read"), closing(sqlite3.connect("")) as db:
            with history.reading() as source:
                copy_database(source, db)
            part.mkdir()
            tables = _tables(db)
            numbers = _with_trace(db) if traces else []
            steps = len(tables) + len(numbers)
            for done, table in enumerate(tables, start=1):
                _write_table(db, part / file_of(table.name), table)
                tell(done, steps)
            unreadable = list[int]()
            if traces:
                unreadable = _write_traces(
                    db, part / TRACES, numbers, lambda one: tell(len(tables) + one, steps)
                )
            count = int(db.execute("SELECT count(*) FROM repetition").fetchone()[0])
        for one in sorted(part.iterdir()):
            moved.append(one.replace(folder / one.name))
        part.rmdir()
    except BaseException as error:
        _clear(folder, moved, made)
        if isinstance(error, OSError):
            raise _unwritable(folder, error) from error
        raise
    return Exported(count, tuple(unreadable))


def harmless(cell: object) -> object:
    """Cell of CSV that no spreadsheet runs as a formula; numbers stay as they are."""
    return HARMLESS + cell if isinstance(cell, str) and cell.startswith(FORMULA) else cell


@dataclass(frozen=True)
class _Table:
    """One table of the history, as it is exported to CSV."""

    name: str
    """Name of the table in the history file."""
    headers: tuple[str, ...]
    """Headers of the columns in CSV."""
    select: str
    """SQL statement that reads the rows to export."""


def _tables(db: sqlite3.Connection) -> list[_Table]:
    """All tables of a history that are exported, ordered by name. Raises sqlite3.Error."""
    db.create_function("unit_of", 1, unit_of)
    found = db.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")
    return [_table(db, name) for (name,) in found.fetchall() if name not in ("trace", _NAMES)]


def _table(db: sqlite3.Connection, name: str) -> _Table:
    refers = {row[3]: row[2] for row in db.execute(f"PRAGMA foreign_key_list({name})")}
    columns, keys = [], []
    for _, column, _, _, _, key in db.execute(f"PRAGMA table_info({name})").fetchall():
        value = f'{name}."{column}"'
        keys += [value] if key else []
        if refers.get(column) == _NAMES:
            called = f"(SELECT name FROM {_NAMES} WHERE id = {value})"
            columns += [("measure", called), ("unit", f"unit_of({called})")]
        else:
            words = _PURPOSES.format(value) if column == "why" else value
            columns.append((header_of(name, column), words))
    values = ", ".join(value for _, value in columns)
    return _Table(
        name,
        tuple(header for header, _ in columns),
        f"SELECT {values} FROM {name} ORDER BY {', '.join(keys)}",
    )


def _write_table(db: sqlite3.Connection, path: Path, table: _Table) -> None:
    with path.open("x", encoding="utf-8", newline="") as opened:
        rows = csv.writer(opened)
        rows.writerow(table.headers)
        rows.writerows(map(harmless, cells) for cells in db.execute(table.select))


def _with_trace(db: sqlite3.Connection) -> list[int]:
    found = db.execute("SELECT repetition FROM trace ORDER BY repetition")
    return [int(number) for (number,) in found]


def _write_traces(
    db: sqlite3.Connection, path: Path, numbers: Sequence[int], tell: Callable[[int], None]
) -> list[int]:
    """Write the traces of repetitions as CSV: a row for each change, and the first and last.

    The same traces give the same bytes of the file. Returns the numbers of the repetitions whose
    trace cannot be read and is left out. Raises sqlite3.Error, OSError.
    """
    unreadable = []
    with (
        path.open("xb") as opened,
        gzip.GzipFile("", "wb", fileobj=opened, mtime=0) as packed,
        io.TextIOWrapper(packed, encoding="utf-8", newline="") as text,
    ):
        rows = csv.writer(text)
        rows.writerow(TRACE_HEADERS)
        for done, number in enumerate(numbers, start=1):
            try:
                rows.writerows(_samples(db, number))
            except CellError:
                unreadable.append(number)
            tell(done)
    return unreadable


def _samples(db: sqlite3.Connection, number: int) -> Iterator[tuple[object, ...]]:
    trace = read_trace(db, number)
    assert trace is not None
    trace = trace.changes()
    empty: Iterable[object] = repeat("")
    percents = [trace.brake.tolist(), trace.throttle.tolist()]
    percents.append(empty if trace.clutch is None else trace.clutch.tolist())
    counts: list[Iterable[object]] = [] if trace.counts is None else trace.counts.tolist()
    counts += [empty] * (3 - len(counts))
    shift = empty if trace.shift is None else [int(down) for down in trace.shift.tolist()]
    return zip(repeat(number), trace.time.tolist(), *percents, *counts, shift)


def _claim(folder: Path) -> bool:
    """Make the folder to export to; returns whether it is new. Raises StoreError if not empty."""
    expected = f"{folder}: expected a new or an empty folder, found"
    try:
        if folder.exists() and not folder.is_dir():
            raise StoreError(f"{expected} a file")
        made = not folder.exists()
        folder.mkdir(parents=True, exist_ok=True)
        there = min((one.name for one in folder.iterdir() if one.name != PART), default="")
        if not there:
            # What a killed program left behind is in nobody's way.
            shutil.rmtree(folder / PART, ignore_errors=True)
    except OSError as error:
        raise _unwritable(folder, error) from error
    if there:
        raise StoreError(f"{expected} '{there}' in it")
    return made


def _unwritable(folder: Path, error: OSError) -> StoreError:
    return StoreError(f"{folder}: expected a folder to write to, found: {reason_of(error)}")


def _clear(folder: Path, moved: Iterable[Path], made: bool) -> None:
    """Remove what a failed export wrote, and the folder if it was made for it."""
    shutil.rmtree(folder / PART, ignore_errors=True)
    with suppress(OSError):
        for one in moved:
            one.unlink()
        if made:
            folder.rmdir()
