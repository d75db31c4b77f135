"""A history read from a folder of CSV files, into a folder that has none: whole or not at all."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import closing
from itertools import groupby
from pathlib import Path

from engine.store import ledger, repetitions
from engine.store.bundles import Held, ToRead, Traced, file_of, first_of, read_bundle
from engine.store.cells import MOST, CellError, Row
from engine.store.columns import Cell, Table
from engine.store.cores import Cores, Tell
from engine.store.csv_out import ABOUT, ABOUT_HEADERS, FIRST, FORMAT, TRACES, TRACES_HEADERS
from engine.store.file import HistoryFile
from engine.store.history import FILE
from engine.store.raw import calibration_from_json
from engine.store.records import StoreError
from engine.store.sheets import Listed, SheetIn
from engine.store.tables import REPETITIONS, TABLES

PART = f"{FILE}.part"
"""Name of the file that is filled, until it is whole."""
PATIENCE = 2.0
"""s to wait for another program that writes."""
OFTEN = 5000
"""rows after which it is told how far it has come."""
_BUNDLE = re.compile(rf"traces-[0-9]{{6,12}}-({'|'.join(Held)})\.csv")
_DIGEST = re.compile(r"([0-9a-f]{64})?")


def import_history(folder: Path, source: Path, cores: Cores, tell: Tell) -> int:
    """Make the history of a data folder out of an export; the count of its repetitions.

    Raises StoreError where there is a history already, or anything is damaged; nothing is changed
    then.
    """
    try:
        _refuse_old(folder)
        about = read_about(source)
        made = _make(folder)
        part = folder / PART
        try:
            _remove(part)
            with _NewHistory(part, {}, PATIENCE) as new:
                count = new.fill(source, about, cores, tell)
            _refuse_old(folder)
            part.replace(folder / FILE)
        except BaseException:
            _remove(part)
            for one in reversed(made):
                one.rmdir()
            raise
    except CellError as error:
        raise StoreError(str(error)) from error
    except OSError as error:
        raise StoreError(
            f"{folder}: expected a folder to write to, found: {error.strerror}"
        ) from error
    return count


def read_about(source: Path) -> dict[str, Listed]:
    """What the files of an export must come to, by name. Raises CellError."""
    sheet = SheetIn(source / ABOUT, ABOUT_HEADERS)
    what, number, digest = ABOUT_HEADERS
    found: dict[str, Listed] = {}
    for place, (name, count, sum_of) in enumerate(sheet.rows()):
        row = sheet.place
        if place == 0:
            if name != FIRST:
                raise row.refusal(what, f"'{FIRST}'", name)
            if _count(row, number, count, 1) != FORMAT:
                newer = f"format {FORMAT}, as {count} is of a newer stillfoot"
                raise row.refusal(number, newer, count)
            continue
        if name not in _ALWAYS and not _BUNDLE.fullmatch(name):
            raise row.refusal(what, "the name of a file of an export", name)
        if name in found:
            raise row.refusal(what, "each file once", name)
        if not _DIGEST.fullmatch(sum_of):
            raise row.refusal(digest, "64 hexadecimal digits or nothing", sum_of)
        found[name] = Listed(name, _count(row, number, count, 0), sum_of)
    for name in _ALWAYS:
        if name not in found:
            raise CellError(f"{source / ABOUT}: expected a row of {name}, found none")
    return found


_ALWAYS = (*(table.file for table in TABLES), TRACES)
"""Names of the files that every export has."""


class _NewHistory(HistoryFile):
    """A history that is being filled."""

    def fill(self, source: Path, about: dict[str, Listed], cores: Cores, tell: Tell) -> int:
        """Put in everything of an export; the count of repetitions. Raises StoreError."""
        with self._transaction():
            filling = _Filling(self._db, source, about, tell)
            try:
                for table in TABLES:
                    filling.put_in(table)
                filling.put_in_traces(cores)
            except CellError as error:
                # It is the export that is damaged, and not this file.
                raise StoreError(str(error)) from error
            ledger.rebuild(self._db, repetitions.results(self._db))
            return about[REPETITIONS].rows


class _Filling:
    """What is known while a history is being filled."""

    def __init__(
        self, db: sqlite3.Connection, source: Path, about: dict[str, Listed], tell: Tell
    ) -> None:
        self._db = db
        self._source = source
        self._about = about
        self._tell = tell
        self._done = 0
        self._of = sum(listed.rows for listed in about.values())
        self._known: dict[str, set[Cell]] = {}

    def put_in(self, table: Table) -> None:
        """Put in one table. Raises CellError, sqlite3.Error."""
        sheet = SheetIn(self._source / table.file, table.headers, self._about[table.file])
        if table.known:
            self._known[table.known] = set()
        for cells in self._rows(table, sheet):
            try:
                self._db.execute(table.insert, cells)
            except sqlite3.IntegrityError as error:
                shown = ", ".join(map(str, cells[:2]))
                raise sheet.place.refusal(table.headers[0], "a row of its own", shown) from error

    def _rows(self, table: Table, sheet: SheetIn) -> Iterator[list[Cell]]:
        known = self._known.get(table.known, set())
        named = [(n, column) for n, column in enumerate(table.columns) if column.among]
        for texts in sheet.rows():
            cells = table.read(sheet.place, texts)
            for place, column in named:
                among = self._known[column.among]
                if cells[place] is not None and cells[place] not in among:
                    raise sheet.place.refusal(
                        column.header, f"a {column.among} of this export", texts[place]
                    )
            if table.known:
                known.add(cells[table.named])
            yield cells
            self._add(1)

    def put_in_traces(self, cores: Cores) -> None:
        """Put in the traces. Raises CellError, sqlite3.Error."""
        pieces = sum(_BUNDLE.fullmatch(name) is not None for name in self._about)
        with closing(cores(pieces)(read_bundle, self._bundles())) as bundles:
            for packed in bundles:
                self._db.executemany(
                    "INSERT INTO trace (repetition, calibration, packed) VALUES (?, ?, ?)",
                    [(one.repetition, one.calibration, one.packed) for one in packed],
                )

    def _bundles(self) -> Iterator[ToRead]:
        """What must be in each file of traces, in order."""
        clutches = frozenset(
            number
            for number, ends in self._db.execute("SELECT id, ends FROM calibration")
            if calibration_from_json(Row(f"calibration {number}"), ends).clutch is not None
        )
        unread = {name for name in self._about if _BUNDLE.fullmatch(name)}
        for first, group in groupby(self._traced(), lambda one: first_of(one.repetition)):
            traced = tuple(group)
            names = {file_of(first, one.held) for one in traced}
            listed = {name: self._about[name] for name in names if name in self._about}
            unread -= names
            yield ToRead(self._source, first, traced, listed, clutches)
            self._add(sum(one.rows for one in traced))
        if unread:
            raise CellError(
                f"{self._source / ABOUT}: expected no row of {min(unread)}, "
                f"as {TRACES} has nothing in it"
            )

    def _traced(self) -> Iterator[Traced]:
        """The list of traces, in order."""
        sheet = SheetIn(self._source / TRACES, TRACES_HEADERS, self._about[TRACES])
        number, calibration, held, rows = TRACES_HEADERS
        newest = 0
        for texts in sheet.rows():
            row = sheet.place
            repetition = _count(row, number, texts[0], newest + 1)
            if repetition not in self._known["repetition"]:
                raise row.refusal(number, "a repetition of this export", texts[0])
            through = _count(row, calibration, texts[1], 1) if texts[1] else None
            if through is not None and through not in self._known["calibration"]:
                raise row.refusal(calibration, "a calibration of this export", texts[1])
            kept = row.word(held, texts[2], Held)
            if kept is Held.COUNTS and through is None:
                raise row.refusal(calibration, "the one that counts are read through", texts[1])
            newest = repetition
            yield Traced(repetition, through, kept, _count(row, rows, texts[3], 1))
            self._add(1)

    def _add(self, rows: int) -> None:
        before, self._done = self._done, self._done + rows
        if before // OFTEN != self._done // OFTEN:
            self._tell(self._done, self._of)


def _count(row: Row, header: str, text: str, least: int) -> int:
    try:
        return row.whole(header, int(text), least)
    except CellError:
        raise
    except ValueError as error:
        raise row.refusal(header, f"a whole number from {least} to {MOST}", text) from error


def _refuse_old(folder: Path) -> None:
    """Raises StoreError where a history is, or can never be."""
    if folder.exists() and not folder.is_dir():
        raise StoreError(f"{folder}: expected a folder to write to, found a file")
    if (folder / FILE).exists():
        raise StoreError(
            f"{folder / FILE}: expected no history yet, found one; "
            "name another data folder with --data"
        )


def _make(folder: Path) -> Sequence[Path]:
    """Make a folder and those around it; those that were not there. Raises OSError."""
    missing = [one for one in (folder, *folder.parents) if not one.exists()]
    folder.mkdir(parents=True, exist_ok=True)
    return missing[::-1]


def _remove(part: Path) -> None:
    """Remove what is left of a file that was being filled, and of its journal."""
    for one in (part, part.with_name(f"{part.name}-journal")):
        one.unlink(missing_ok=True)
