"""Columns of numbers from the rows of a recording; every mistake names its row.

Rows of plain numbers are read at once by numpy. Where that fails, and for whatever else cells may
hold, each row is read by itself.
"""

from __future__ import annotations

import csv
from array import array
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from drills.checks import cut
from drills.recording.form import NEEDED, Format, RecordingError
from drills.recording.header import Header
from drills.recording.header_line import COMMENT, is_comment
from drills.recording.numbers import BEGUN, CellError, PedalCells, TimeCells
from drills.recording.units import is_time


@dataclass(frozen=True)
class Columns:
    """The columns of a recording as numbers, in the units of the recording."""

    rows: NDArray[np.int64]
    """Number of the line of each row, from 1, shape (n,)."""
    values: Mapping[str, NDArray[np.float64]]
    """Finite value in each row of each column, by our name of the column, shape (n,)."""
    percent: frozenset[str] = frozenset()
    """Columns with percent signs in their cells."""
    skipped: int = 0
    """Number of rows before the first of `rows` that were left out."""
    is_cut: bool = False
    """Whether the last row was cut off and left out."""
    notes: tuple[str, ...] = ()
    """What was done with cells and rows beside plain numbers, a line each."""


def read_columns(lines: Sequence[str], header: Header, form: Format, *, is_open: bool) -> Columns:
    """Columns of the rows under a header; `is_open`: no line end follows the last line.

    A row that was cut off where an open recording ends is left out: its writing was stopped.
    Raises RecordingError.
    """
    columns = plain_columns(lines, header)
    return _read_by_row(lines, header, form, is_open) if columns is None else columns


def plain_columns(lines: Sequence[str], header: Header) -> Columns | None:
    """Columns of rows that hold nothing but finite numbers; None if any is not like that.

    Decimal commas are read too where the delimiter is another.
    """
    body, mark = lines[header.first :], header.delimiter
    separators = sum(line.count(mark) for line in body)
    if not body or separators != len(body) * (header.width - 1):
        return None
    if mark != ",":
        body = [line.replace(",", ".") for line in body]
    try:
        read = np.loadtxt(
            body,
            delimiter=mark,
            usecols=tuple(header.places.values()),
            comments=None,
            quotechar='"',
            ndmin=2,
        )
    except ValueError:
        return None
    if len(read) != len(body) or not np.isfinite(read).all():
        return None
    rows = np.arange(header.first + 1, header.first + 1 + len(body), dtype=np.int64)
    return Columns(rows, dict(zip(header.places, np.ascontiguousarray(read.T), strict=True)))


def _read_by_row(lines: Sequence[str], header: Header, form: Format, is_open: bool) -> Columns:
    """Columns read row by row, and what was done with them. Raises RecordingError."""
    unit = form.unit or header.units.get("time", 1.0)
    cells, rows, is_cut = _no_cells(header, unit), array("q"), False
    last = len(lines) if is_open else 0
    for number, row in _rows(lines, header):
        if number == last and _is_cut(row, header):
            ended = len(row) - bool(BEGUN.fullmatch(row[-1].strip()))
            before = {name: place for name, place in header.places.items() if place < ended}
            _take(number, row, before, _no_cells(header, unit))
            is_cut = True
            break
        if len(row) > header.width:
            _refuse_wide(number, row, header)
        _take(number, row, header.places, cells)
        rows.append(number)
    comments = sum(map(is_comment, lines[header.first :]))
    notes = [f"lines that begin with {COMMENT} were left out: {comments}"] * bool(comments)
    return _whole(np.asarray(rows), cells, is_cut, notes)


def _no_cells(header: Header, unit: float) -> dict[str, PedalCells | TimeCells]:
    return {name: TimeCells(unit) if is_time(name) else PedalCells() for name in header.places}


def _rows(lines: Sequence[str], header: Header) -> Iterator[tuple[int, Sequence[str]]]:
    """Rows of a recording that are not empty, each with the number of its line.

    Raises RecordingError for one without clear cells.
    """
    body = ["" if is_comment(line) else line for line in lines[header.first :]]
    reader = csv.reader(body, delimiter=header.delimiter)
    try:
        for row in reader:
            if any(row):
                yield header.first + reader.line_num, row
    except csv.Error as error:
        number = header.first + reader.line_num
        raise RecordingError(f"row {number}: expected a row of cells, found: {error}") from error


def _take(
    number: int,
    row: Sequence[str],
    places: Mapping[str, int],
    cells: Mapping[str, PedalCells | TimeCells],
) -> None:
    """Append the cells of a row to their columns. Raises RecordingError."""
    for name, place in places.items():
        if place >= len(row):
            found = f"{len(row)} columns"
            raise RecordingError(f"row {number}: {name}: expected a number, found {found}")
        try:
            cells[name].take(row[place])
        except CellError as error:
            raise RecordingError(f"row {number}: {name}: {error}") from error


def _is_cut(row: Sequence[str], header: Header) -> bool:
    """Whether the writing of a row was stopped: columns are missing, or its last is only begun."""
    end = len(row) - 1
    is_begun = end in header.places.values() and BEGUN.fullmatch(row[end].strip()) is not None
    return is_begun or max(header.places.values()) > end


def _refuse_wide(number: int, row: Sequence[str], header: Header) -> None:
    """Refuse a row whose decimal commas look like delimiters. Raises RecordingError."""
    more = row[header.width :]
    if header.delimiter == "," and all(cell.strip().isdigit() for cell in more):
        raise RecordingError(
            f"row {number}: expected {header.width} columns as in the header, found {len(row)}; "
            "decimal commas need ; or tabs between columns"
        )


def _whole(
    rows: NDArray[np.int64],
    cells: Mapping[str, PedalCells | TimeCells],
    is_cut: bool,
    notes: list[str],
) -> Columns:
    """Columns from the first row on in which each has a value. Raises RecordingError.

    `notes` are those on the rows so far, to which those on the cells are added. A column that is
    not needed and has no value at all is left out.
    """
    values = {name: np.asarray(column.values) for name, column in cells.items()}
    pedals = {name: column for name, column in cells.items() if isinstance(column, PedalCells)}
    for name, column in pedals.items():
        if rows.size and column.empty == rows.size:
            if name in NEEDED:
                raise RecordingError(f"{name}: expected numbers, found an empty column")
            notes.append(f"{name}: the column is empty and was left out")
            del values[name]
    unknown = {name: int(np.isnan(column).sum()) for name, column in values.items()}
    start = max(unknown.values())
    if start:
        late = " and ".join(name for name, count in unknown.items() if count == start)
        notes.append(f"rows before the first value of {late} were left out: {start}")
    held = {name: pedals[name].empty - unknown[name] for name in values if name in pedals}
    if any(held.values()):
        counts = ", ".join(f"{name} {count}" for name, count in held.items() if count)
        notes.append(f"empty cells hold the value before them: {counts}")
    if any(column.is_percent for column in pedals.values()):
        notes.append("percent signs behind numbers were read as %")
    clocks = [column.clock for column in cells.values() if isinstance(column, TimeCells)]
    if any(clocks):
        notes.append(f"times such as {cut(clocks[0], 20)} were read as clock times")
    percent = frozenset(name for name in values if name in pedals and pedals[name].is_percent)
    from_start = {name: column[start:] for name, column in values.items()}
    return Columns(rows[start:], from_start, percent, start, is_cut, tuple(notes))
