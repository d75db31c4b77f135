"""Text file of the raw counts of a course, for a report of what pedals do.

The first line is a JSON object: `format`, `version`, `reads_a_second`, and `pedals`, for each its
`pedal`, `device`, `axis`, `rest`, `full` and `reports_a_second`. Each line after it is a read: the
time in ns from the beginning of the course, and the axis counts of each pedal, with commas between.
"""

from __future__ import annotations

import json
from array import array
from collections.abc import Sequence

import numpy as np

from drills.calibration import COUNTS, CalibrationError, Range
from drills.checks import Checks, ValueRefusal, cut, show
from drills.health.course import LENGTH
from drills.health.pedal import READS_LEAST, BoundPedal, PedalHealth, RawCounts
from drills.trace import SECOND, Pedal

FORMAT = "stillfoot pedals"
"""Name of the format, in the first line of a file."""
VERSION = 1
"""Version of the format that is written, and the only one that is read."""
LATEST = round(2 * LENGTH * SECOND)
"""Latest time of a read in ns: twice the course."""
PEDALS = ("pedal", "device", "axis", "rest", "full", "reports_a_second")
"""Keys of a pedal in the first line."""


class RawFileError(ValueRefusal):
    """A file of raw counts that cannot be read; one line that names the line, not the file."""


_CHECKS = Checks(RawFileError)


def written(raw: RawCounts, healths: Sequence[PedalHealth]) -> str:
    """Text of a file of raw counts; `healths` are those of the same pedals."""
    rates = [None if one.timing is None else round(1 / one.timing.interval, 1) for one in healths]
    header = {
        "format": FORMAT,
        "version": VERSION,
        "reads_a_second": round(raw.reads, 1),
        "pedals": [
            dict(zip(PEDALS, (*_as_data(bound), rate), strict=True))
            for bound, rate in zip(raw.pedals, rates, strict=True)
        ],
    }
    rows = np.vstack([raw.time, raw.counts]).T.tolist()
    lines = [json.dumps(header), *(",".join(map(str, row)) for row in rows)]
    return "\n".join(lines) + "\n"


def read_raw(text: str) -> RawCounts:
    """Raw counts in the text of a file. Raises RawFileError for the first mistake found."""
    lines = text.splitlines()
    if not lines:
        raise RawFileError("line 1", f"the first line of a file of {FORMAT}", "nothing")
    pedals = _pedals(lines[0])
    columns = [array("q") for _ in range(len(pedals) + 1)]
    for number, line in enumerate(lines[1:], start=2):
        for column, value in zip(columns, _row(number, line, len(pedals)), strict=True):
            column.append(value)
        time = columns[0]
        if len(time) > 1 and time[-1] <= time[-2]:
            raise RawFileError(f"line {number}", f"a time after {time[-2]}", str(time[-1]))
    rows = [np.frombuffer(column, dtype=np.int64) for column in columns]
    raw = RawCounts(pedals, rows[0], np.array(rows[1:]))
    if (part := raw.thin) is not None:
        span = f"from {part.begins:g} to {part.ends:g} s"
        raise RawFileError(f"reads {span}", f"{READS_LEAST:g} a second or more", "fewer")
    return raw


def _as_data(bound: BoundPedal) -> tuple[object, ...]:
    ends = bound.ends
    return (bound.pedal.value, bound.device, bound.axis, ends.rest, ends.full)


def _pedals(line: str) -> tuple[BoundPedal, ...]:
    """Pedals in the first line of a file."""
    expected = f"a JSON object with the format '{FORMAT}'"
    try:
        header = json.loads(line)
    except (ValueError, RecursionError) as error:
        raise RawFileError("line 1", expected, cut(repr(line))) from error
    if not isinstance(header, dict) or header.get("format") != FORMAT:
        raise RawFileError("line 1", expected, show(header))
    if header.get("version") != VERSION:
        raise RawFileError("line 1: version", f"{VERSION}", show(header.get("version")))
    entries = header.get("pedals")
    if not isinstance(entries, list) or not 2 <= len(entries) <= len(Pedal):
        raise RawFileError("line 1: pedals", "a list of two or three pedals", show(entries))
    return tuple(
        _pedal(f"line 1: pedals[{place}]", entry, pedal)
        for place, (entry, pedal) in enumerate(zip(entries, Pedal, strict=False))
    )


def _pedal(where: str, entry: object, pedal: Pedal) -> BoundPedal:
    if not isinstance(entry, dict) or not set(PEDALS) <= set(entry):
        raise RawFileError(where, f"an object of {', '.join(PEDALS)}", show(entry))
    _CHECKS.choice(f"{where}.pedal", entry["pedal"], [pedal.value])
    device = _CHECKS.text(f"{where}.device", entry["device"])
    axis = _CHECKS.whole(f"{where}.axis", entry["axis"], 0)
    rest, full = (_CHECKS.number(f"{where}.{end}", entry[end], -1, 1) for end in ("rest", "full"))
    try:
        return BoundPedal(pedal, device, axis, Range(rest, full))
    except CalibrationError as error:
        raise RawFileError(where, error.expected, error.found) from error


def _row(number: int, line: str, pedals: int) -> list[int]:
    """Time and counts in one line of a file."""
    cells = line.split(",")
    if len(cells) != pedals + 1:
        expected = f"a time and {pedals} counts, with commas between"
        raise RawFileError(f"line {number}", expected, cut(repr(line)))
    values = []
    for cell, least, most in zip(
        cells, (0, *[-COUNTS] * pedals), (LATEST, *[COUNTS] * pedals), strict=True
    ):
        try:
            value = int(cell) if len(cell) <= len(str(LATEST)) else None
        except ValueError:
            value = None
        if value is None or not least <= value <= most:
            expected = f"a whole number from {least} to {most}"
            raise RawFileError(f"line {number}", expected, cut(repr(cell)))
        values.append(value)
    return values
