"""The line of a recording that is its header, and which of its cells names which column.

The header is the line, of the first 50, that names most of the needed columns: the first of several
that name as many, and one after # only if no other line names as many. The delimiter is the one of
tab, semicolon and comma by which it does. Names are compared without regard to case, spaces,
hyphens and underscores: first the whole cell, then the cell without its unit.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from drills.recording.form import Format, RecordingError
from drills.recording.units import name_and_unit

SEARCHED = 50
"""Lines from the start of a recording among which its header is looked for."""
DELIMITERS = "\t;,"
"""Characters that may stand between columns, in the order in which they are tried."""
COMMENT = "#"
"""Sign that begins a line which is no row."""
SYNONYMS: Mapping[str, Sequence[str]] = {
    "time": ("time", "elapsed time", "session time", "timestamp", "lap time"),
    "brake": ("brake", "brake pedal", "brake pedal position"),
    "throttle": (
        *("throttle", "throttle pedal", "throttle pedal position"),
        *("accelerator", "accelerator pedal", "accelerator pedal position"),
    ),
    "clutch": ("clutch", "clutch pedal", "clutch pedal position"),
}
"""Names that are understood for each column, the preferred one first.

"Throttle position" is not among them: it may be that of the engine, which blips by itself.
"""
IGNORED = str.maketrans("", "", " \t\u00a0-_")
"""Characters that make no difference between two names."""


@dataclass(frozen=True)
class HeaderLine:
    """A line of a recording, split into the cells of a header."""

    number: int
    """Number of the line, from 1."""
    delimiter: str
    """Character between two cells."""
    cells: Sequence[str]
    """Cells of the line, without space around them."""
    is_comment: bool
    """Whether the line begins with #."""
    whole: Sequence[str]
    """Each cell as it is compared."""
    bare: Sequence[str]
    """Each cell as it is compared, without its unit."""

    def places(self, name: str, form: Format) -> Sequence[int]:
        """Indices of the cells that name a column, by the most preferred name that any has."""
        for wanted in [form.names[name]] if name in form.names else SYNONYMS[name]:
            for written in (self.whole, self.bare):
                places = [n for n, text in enumerate(written) if text == compared(wanted)]
                if places:
                    return places
        return []

    def matches(self, form: Format) -> int:
        """Number of needed columns that the line names."""
        return sum(bool(self.places(name, form)) for name in form.needed)


def header_line(lines: Sequence[str], form: Format) -> HeaderLine:
    """Header among the lines of a recording, or the line most like one.

    Raises RecordingError if there is none that can be split into cells.
    """
    found: list[tuple[int, bool, HeaderLine]] = []
    broken = RecordingError(f"header: expected one in the first {SEARCHED} lines, found none")
    for number, line in enumerate(lines[:SEARCHED], start=1):
        try:
            matches, read = _best_split(number, line, form)
        except csv.Error as error:
            broken = RecordingError(f"row {number}: expected a row of cells, found: {error}")
            continue
        if matches == len(form.needed) and not read.is_comment:
            return read
        if line.strip():
            found.append((matches, not read.is_comment, read))
    if not any(matches for matches, _, _ in found) and len(found) < len(lines[:SEARCHED]):
        raise broken
    return max(found, key=lambda one: one[:2])[2]


def is_comment(line: str) -> bool:
    """Whether a line of a recording begins with #, in quotes or not."""
    return line.lstrip(' \t"').startswith(COMMENT)


def _without_comment(line: str) -> str:
    """A line that begins with # without it; the quote of a cell that begins with # stays."""
    before, _, after = line.partition(COMMENT)
    return before.strip() + after.lstrip(f" \t{COMMENT}")


def compared(name: str) -> str:
    """A name in the form in which two are compared."""
    return name.lower().translate(IGNORED)


def _best_split(number: int, line: str, form: Format) -> tuple[int, HeaderLine]:
    """Line split by the delimiter that gives most needed columns, and how many these are.

    Raises csv.Error if it cannot be split.
    """
    commented = is_comment(line)
    text = _without_comment(line) if commented else line
    best: tuple[int, HeaderLine] | None = None
    for delimiter in DELIMITERS:
        cells = [cell.strip() for cell in next(csv.reader([text], delimiter=delimiter), [])]
        whole = [compared(cell) for cell in cells]
        bare = [compared(name_and_unit(cell)[0]) for cell in cells]
        read = HeaderLine(number, delimiter, cells, commented, whole, bare)
        matches = read.matches(form)
        if best is None or (matches, len(cells)) > (best[0], len(best[1].cells)):
            best = matches, read
    assert best is not None
    return best
