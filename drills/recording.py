"""Reader of a pedal recording from text in columns; every mistake names its row.

Comma, semicolon or tab between columns, decimal point or decimal comma, a header with names.
"""

from __future__ import annotations

import csv
import re
from array import array
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from drills.checks import cut, show
from drills.refusal import Refusal
from drills.trace import SECOND, Trace

COLUMNS = ("time", "brake", "throttle", "clutch")
"""Columns that are read from a recording."""
NEEDED = ("time", "brake", "throttle")
"""Columns that a recording must have."""
SLACK = 2.0
"""How far outside 0 to 100 % a recorded pedal may lie without a warning, in points."""
FARTHEST_OUT = 50.0
"""How far outside 0 to 100 % a recorded pedal may lie at all, in points: on the road a load cell is
pressed harder than in set-up, but hardly by half (common practice)."""
LONG_GAP = 0.1
"""Longest time between two samples of a recording without a warning, in s."""
SLOW = 50.0
"""Sampling rate of a recording below which its timings are coarse, in samples per second."""
LONGEST = 24 * 3600.0
"""Longest recording that is read, in s: a longer one has its time in another unit."""
FARTHEST = 9e9
"""Farthest that the first time of a recording may be from 0, in s: what fits into 64 bits as ns."""
TOO_SMALL = 2.0
"""Least peak of any recorded pedal, in %: a recording that stays under it has another scale."""

BEGUN = re.compile(r"[-+]?(\d*[.,]?\d*e[-+]?|[.,]?)", re.IGNORECASE)
"""Pattern of text that begins a number but is none yet, such as "-" or "1e"."""
CUT = "the last row is cut off and was left out"
"""Warning for a recording whose writing stopped in the middle of a row."""


class RecordingError(Refusal):
    """A recording cannot be read; the text is one line, which does not name the file."""


@dataclass(frozen=True)
class Format:
    """How a recording is written: names of its columns, units and scale."""

    names: Mapping[str, str] = field(default_factory=dict)
    """Header of each column in the file, by our name of the column, where the two differ."""
    unit: float = 1.0
    """Length of one unit of the time column, in s."""
    full: float = 100.0
    """Value in the recording of a fully pressed pedal."""


@dataclass(frozen=True)
class Recording:
    """A recording that was read, and reasons to trust it less."""

    trace: Trace
    """Samples of the recording, on the file's own time axis."""
    warnings: tuple[str, ...]
    """Reasons to trust the measures of the recording less, a line each."""


def read_recording(text: str, form: Format) -> Recording:
    """Recording in a text of columns. Raises RecordingError for the first mistake found."""
    lines = text.splitlines()
    if not any(line.strip() for line in lines):
        raise RecordingError("expected a header and at least two rows, found nothing")
    delimiter = next((mark for mark in "\t;," if mark in lines[0]), ",")
    cells = _rows(csv.reader(lines, delimiter=delimiter))
    places = _places(next(cells)[1], form)
    open_row = 0 if text.endswith(("\n", "\r")) else len(lines)
    rows, columns, is_cut = _numbers(cells, places, _converter(lines), open_row)
    if len(rows) < 2:
        raise RecordingError(f"expected at least two rows of samples, found {len(rows)}")
    values = {name: np.frombuffer(column) for name, column in columns.items()}
    numbers = np.frombuffer(rows, dtype=np.int64)
    for name, column in values.items():
        _refuse(~np.isfinite(column), numbers, name, "a finite number", column)
    time = values["time"] * form.unit
    backward = time[1:] < time[:-1]
    _refuse(backward, numbers[1:], "time", "time to go forward", values["time"][1:])
    _refuse_length(float(time[0]), float(time[-1]), form)
    with np.errstate(over="ignore"):
        percent = {name: 100 * values[name] / form.full for name in values if name != "time"}
    hint = f" (or another --full, now {form.full:g})"
    for name, column in percent.items():
        outside = (column < -FARTHEST_OUT) | (column > 100 + FARTHEST_OUT)
        _refuse(outside, numbers, name, f"0 to {form.full:g}{hint}", values[name])
    return _recording(time, percent, [CUT] if is_cut else [])


def _refuse_length(first: float, last: float, form: Format) -> None:
    """Refuse times that are too far from one another or from 0. Raises RecordingError."""
    hint = "" if form.unit < 1 else "; is it in ms (--time-unit ms)?"
    hours = last / 3600 - first / 3600
    if hours > LONGEST / 3600:
        found = f"{hours:.1f}" if hours < 1e6 else f"{hours:.1e}"
        raise RecordingError(f"time: expected at most 24 h, found {found} h{hint}")
    if abs(first) > FARTHEST:
        raise RecordingError(
            f"time: expected a start within {FARTHEST:g} s of 0, found {first:g} s{hint}"
        )


def _recording(
    time: NDArray[np.float64], percent: Mapping[str, NDArray[np.float64]], warned: Sequence[str]
) -> Recording:
    nanoseconds = np.rint(time * SECOND).astype(np.int64)
    last = np.append(np.diff(nanoseconds) > 0, True)
    trace = Trace(
        nanoseconds[last],
        percent["brake"][last],
        percent["throttle"][last],
        percent["clutch"][last] if "clutch" in percent else None,
    )
    if trace.time.size < 2:
        raise RecordingError("expected samples at two different times at least, found one")
    warnings = _warnings(trace, int(np.sum(~last)), percent)
    return Recording(trace, (*warned, *warnings))


def _warnings(
    trace: Trace, repeated: int, percent: Mapping[str, NDArray[np.float64]]
) -> Sequence[str]:
    said = []
    if repeated:
        said.append(f"{repeated} repeated times; the last sample of each was used")
    gaps = np.diff(trace.time) / SECOND
    long = np.flatnonzero(gaps > LONG_GAP)
    if long.size:
        worst = int(long[np.argmax(gaps[long])])
        said.append(
            f"{long.size} gaps over {LONG_GAP:g} s, the longest {gaps[worst]:.3f} s "
            f"at {trace.time[worst] / SECOND:.3f} s"
        )
    sampled = gaps[gaps <= LONG_GAP] if long.size < gaps.size else gaps
    rate = sampled.size / float(sampled.sum())
    if rate < SLOW:
        said.append(f"{rate:.1f} samples a second, under {SLOW:g}: timings are coarse")
    for name, column in percent.items():
        least, most = float(column.min()), float(column.max())
        if least < -SLACK or most > 100 + SLACK:
            said.append(
                f"{name}: {least:.0f} to {most:.0f} %, beyond 0 to 100: pressed harder than it "
                "was set up, or another scale (--full)?"
            )
    if max(float(column.max()) for column in percent.values()) < TOO_SMALL:
        said.append(f"no pedal passes {TOO_SMALL:g} %: are they 0 to 1 (--full 1)?")
    return said


def _places(header: Sequence[str], form: Format) -> dict[str, int]:
    """Place of each column in the rows, by its name in the header. Raises RecordingError."""
    found = [name.strip() for name in header]
    lowered = [name.lower() for name in found]
    places = {}
    for column in COLUMNS:
        wanted = form.names.get(column, column)
        count = lowered.count(wanted.lower())
        if count > 1:
            raise RecordingError(f"header: expected one column {show(wanted)}, found {count}")
        if count == 1:
            places[column] = lowered.index(wanted.lower())
        elif column in NEEDED or column in form.names:
            raise RecordingError(
                f"header: expected a column {show(wanted)}, "
                f"found {cut(', '.join(found), 120) or 'none'}"
            )
    return places


def _rows(reader: Iterable[Sequence[str]]) -> Iterator[tuple[int, Sequence[str]]]:
    """Rows of a recording, numbered from 1. Raises RecordingError for one without clear cells."""
    number = 0
    try:
        for number, row in enumerate(reader, start=1):
            yield number, row
    except csv.Error as error:
        raise RecordingError(
            f"row {number + 1}: expected a row of cells, found: {error}"
        ) from error


def _converter(lines: Sequence[str]) -> Callable[[str], float]:
    """Function that makes a number of a cell; it refuses the underscores that Python allows."""
    odd = any("_" in line for line in lines[1:])

    def convert(cell: str) -> float:
        if odd and "_" in cell:
            raise ValueError(cell)
        try:
            return float(cell)
        except ValueError:
            return float(cell.replace(",", "."))

    return convert


def _numbers(
    cells: Iterable[tuple[int, Sequence[str]]],
    places: Mapping[str, int],
    convert: Callable[[str], float],
    open_row: int,
) -> tuple[array[int], dict[str, array[float]], bool]:
    """Row numbers (the header is row 1; empty rows are passed over), and the columns as numbers.

    And whether the row that no line end follows, `open_row` (0 for none), was cut off: it is left
    out then, as whoever wrote it was stopped in the middle.
    """
    rows = array("q")
    columns = {name: array("d") for name in places}
    targets = [(columns[name].append, place) for name, place in places.items()]
    for number, row in cells:
        if not any(row):
            continue
        try:
            for append, place in targets:
                append(convert(row[place]))
        except (ValueError, IndexError):
            if number == open_row and _stops_early(row, places, convert):
                return rows, _cut_to(len(rows), columns), True
            raise _odd_cell(number, row, places, convert) from None
        rows.append(number)
    return rows, columns, False


def _stops_early(
    row: Sequence[str], places: Mapping[str, int], convert: Callable[[str], float]
) -> bool:
    """Whether a row can be read but for the end of its last cell: its writing was stopped."""
    end = len(row) - 1
    try:
        for place in places.values():
            if place < end or (place == end and not BEGUN.fullmatch(row[place].strip())):
                convert(row[place])
    except ValueError:
        return False
    return True


def _cut_to(count: int, columns: Mapping[str, array[float]]) -> dict[str, array[float]]:
    return {name: column[:count] for name, column in columns.items()}


def _odd_cell(
    number: int, row: Sequence[str], places: Mapping[str, int], convert: Callable[[str], float]
) -> RecordingError:
    for name, place in places.items():
        if place >= len(row):
            found = f"{len(row)} columns"
            return RecordingError(f"row {number}: {name}: expected a number, found {found}")
        try:
            convert(row[place])
        except ValueError:
            found = "nothing" if not row[place].strip() else show(row[place].strip())
            return RecordingError(f"row {number}: {name}: expected a number, found {found}")
    raise AssertionError("a row that could not be read has a cell that cannot be")


def _refuse(
    wrong: NDArray[np.bool_],
    numbers: NDArray[np.int64],
    name: str,
    expected: str,
    values: NDArray[np.float64],
) -> None:
    """Refuse a recording with wrong rows, naming the first. Raises RecordingError."""
    if wrong.any():
        first = int(np.argmax(wrong))
        raise RecordingError(
            f"row {numbers[first]}: {name}: expected {expected}, found {values[first]:g}"
        )
