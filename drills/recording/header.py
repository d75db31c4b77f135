"""The header of a recording: where its columns are, in what units, and where its rows begin."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from drills.checks import cut, show
from drills.recording.form import Format, RecordingError
from drills.recording.header_line import (
    COMMENT,
    SEARCHED,
    HeaderLine,
    compared,
    header_line,
    is_comment,
)
from drills.recording.units import (
    NO_UNIT,
    expected_unit,
    is_time,
    name_and_unit,
    size_of_unit,
    without_brackets,
)


@dataclass(frozen=True)
class Header:
    """Where the columns of a recording are, and what is known of them before its rows are read."""

    line: int
    """Number of its line, from 1."""
    delimiter: str
    """Character between two columns."""
    width: int
    """Number of columns that it names, read or not."""
    places: Mapping[str, int]
    """Index in a row of each column that is read, by our name of the column."""
    units: Mapping[str, float]
    """Size of the unit of columns that have one told, in s or %, by our name of the column."""
    strange: frozenset[str]
    """Pedals in a unit that is not known, whose scale only a given full pedal tells."""
    first: int
    """Number of lines before the rows of samples: up to the header, or to a row of units."""
    notes: tuple[str, ...]
    """What was done to find and read it, beside a plain header in line 1; a line each."""


def read_header(lines: Sequence[str], form: Format) -> Header:
    """Header in the lines of a recording, with the row of units under it.

    Raises RecordingError.
    """
    found = header_line(lines, form)
    where = "header" if found.number == 1 else f"header in line {found.number}"
    places = _places(found, form, where)
    texts = {name: name_and_unit(found.cells[place])[1] for name, place in places.items()}
    sizes = _sizes(texts, form, where)
    notes = list(_notes(found, places, sizes, form))
    first, row = _row_of_units(lines, found, places)
    if row is not None:
        under = _sizes(row, form, f"row {first}")
        for name, size in under.items():
            if sizes.get(name, size) != size:
                raise RecordingError(
                    f"row {first}: {name}: expected {show(texts[name])} as in the header, "
                    f"found {show(row[name])}"
                )
        sizes, texts = {**sizes, **under}, {**texts, **row}
        told = ", ".join(f"{name} {row[name]}" for name in under)
        notes.append(f"row of units found in line {first}: {told}")
    strange = frozenset(
        name for name, text in texts.items() if name not in sizes and text not in NO_UNIT
    )
    width = len(found.cells)
    return Header(
        found.number, found.delimiter, width, places, sizes, strange - {"time"}, first, tuple(notes)
    )


def _places(line: HeaderLine, form: Format, where: str) -> dict[str, int]:
    """Index of each column in the rows, by our name of it. Raises RecordingError."""
    places = {}
    for name in form.columns:
        found, wanted = line.places(name, form), form.names.get(name, name)
        if len(found) > 1:
            hint = f"; --columns {name}=NAME names one" * (name not in form.names)
            names = cut(", ".join(line.cells[place] for place in found), 120)
            raise RecordingError(
                f"{where}: expected one column {show(wanted)}, found {len(found)}: {names}{hint}"
            )
        if found:
            places[name] = found[0]
        elif name in form.needed:
            names = cut(", ".join(line.cells), 120) or "none"
            raise RecordingError(
                f"{where}: expected a column {show(wanted)}, found {names}{_help(name, line, form)}"
            )
    return places


def _help(name: str, line: HeaderLine, form: Format) -> str:
    """What would help where a column is not found, for an error; empty for nothing."""
    if line.matches(form) == 0:
        return f"; it is looked for in {SEARCHED} lines, with tabs, ; or , between columns"
    if name in form.names:
        return ""
    rate = ", --rate HZ does without" if is_time(name) else ""
    return f"; --columns {name}=NAME names it{rate}"


def _sizes(texts: Mapping[str, str], form: Format, where: str) -> dict[str, float]:
    """Size of the unit of each column that names one. Raises RecordingError for a strange one."""
    sizes = {}
    for name, text in texts.items():
        size = size_of_unit(name, text)
        if size is not None:
            sizes[name] = size
        elif text not in NO_UNIT and (form.unit if is_time(name) else form.full) is None:
            option = "--time-unit" if is_time(name) else "--full"
            raise RecordingError(
                f"{where}: {name}: expected {expected_unit(name)} as its unit, "
                f"found {show(text)}; {option} reads it all the same"
            )
    return sizes


def _notes(
    found: HeaderLine, places: Mapping[str, int], sizes: Mapping[str, float], form: Format
) -> Iterator[str]:
    if found.is_comment:
        yield f"header found in line {found.number}, after {COMMENT}"
    elif found.number > 1:
        yield f"header found in line {found.number}"
    for name, place in places.items():
        cell = found.cells[place]
        names = {compared(cell), compared(name_and_unit(cell)[0])}
        if name not in form.names and compared(name) not in names:
            yield f"column {show(cell)} was read as {name}"
    if sizes:
        told = (f"{name} {name_and_unit(found.cells[places[name]])[1]}" for name in sizes)
        yield f"units found in the header: {', '.join(told)}"


def _row_of_units(
    lines: Sequence[str], found: HeaderLine, places: Mapping[str, int]
) -> tuple[int, Mapping[str, str] | None]:
    """Number of lines before the samples, and the units if the last of these is a row of units.

    A row of units is the first row under the header if one of the columns that are read has a known
    unit there, and none of them a number.
    """
    for number in range(found.number + 1, len(lines) + 1):
        line = lines[number - 1]
        if not line.strip() or is_comment(line):
            continue
        try:
            row = next(csv.reader([line], delimiter=found.delimiter), [])
        except csv.Error:
            break
        texts = {
            name: without_brackets("".join(row[place : place + 1]))
            for name, place in places.items()
        }
        known = [size_of_unit(name, text) is not None for name, text in texts.items()]
        strange = [
            text for text, is_known in zip(texts.values(), known, strict=True) if not is_known
        ]
        if any(known) and not any(sign.isdigit() for text in strange for sign in text):
            return number, texts
        break
    return found.number, None
