"""Seconds of the rows of a recording: its time column, or a given rate.

A time that begins again is a new lap: it jumps back by more than `LEAST_LAP` to less than `NEW_LAP`
after 0. Its first row then follows the row before by the median interval of the rows, and the rest
moves along. Any other step back is refused.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from drills.recording.cells import Columns
from drills.recording.form import Format, RecordingError, refuse
from drills.recording.header import Header

LEAST_LAP = 5.0
"""Least time of a lap that begins again, in s: no lap is that short, and no clock that was set back
steps so far to so near 0."""
NEW_LAP = 1.0
"""Time that a new lap begins before, in s: the longest interval between rows that is expected."""
LONGEST = 24 * 3600.0
"""Longest recording that is read, in s: a longer one has its time in another unit."""
FARTHEST = 9e9
"""Farthest that the first time of a recording may be from 0, in s: what fits into 64 bits as ns."""


def seconds_of(
    columns: Columns, header: Header, form: Format
) -> tuple[NDArray[np.float64], Sequence[str]]:
    """Time of each row in s, never backward, shape (n,), and what was done to tell it.

    Raises RecordingError.
    """
    if form.rate is not None:
        rows = np.arange(columns.rows.size, dtype=np.float64) + columns.skipped
        time, notes = rows / form.rate, [f"times are told from {form.rate:g} rows a second"]
        _refuse_length(time, "; are there more rows a second (--rate)?")
        return time, notes
    said = header.units.get("time")
    unit = (1.0 if said is None else said) if form.unit is None else form.unit
    notes = []
    if form.unit is not None and said not in (None, form.unit):
        notes.append(f"time: the file says units of {said:g} s; read as {form.unit:g} s as asked")
    # Times beyond all bounds are refused below, whatever becomes of them here.
    with np.errstate(over="ignore", invalid="ignore"):
        time, laps = _joined(columns.values["time"] * unit, columns)
    _refuse_length(time, "; is it in ms (--time-unit ms)?" * (unit >= 1))
    return time, [*notes, *laps]


def _joined(
    time: NDArray[np.float64], columns: Columns
) -> tuple[NDArray[np.float64], Sequence[str]]:
    """Times in s with laps that begin again joined, and what to say of that.

    Raises RecordingError for another step back.
    """
    steps = np.diff(time)
    back = steps < 0
    if not back.any():
        return time, []
    begins = back & (steps < -LEAST_LAP) & (time[1:] >= 0) & (time[1:] < NEW_LAP)
    forward = steps[steps > 0]
    wrong = back & ~begins if forward.size else back
    refuse(wrong, columns.rows[1:], "time", "time to go forward", columns.values["time"][1:])
    interval = float(np.median(forward))
    shift = np.concatenate([[0.0], np.where(begins, interval - steps, 0.0)])
    count, row = int(begins.sum()), columns.rows[1:][begins][0]
    times = "once" if count == 1 else f"{count} times"
    note = f"time begins again {times}, first in row {row}: laps were joined {interval:.3f} s apart"
    return time + np.cumsum(shift, dtype=np.float64), [note]


def _refuse_length(time: NDArray[np.float64], hint: str) -> None:
    """Refuse times that are too far from one another or from 0. Raises RecordingError."""
    first, last = float(time[0]), float(time[-1])
    hours = last / 3600 - first / 3600
    if not hours <= LONGEST / 3600:
        found = f"{hours:.1f}" if hours < 1e6 else f"{hours:.1e}"
        raise RecordingError(f"time: expected at most 24 h, found {found} h{hint}")
    if abs(first) > FARTHEST:
        raise RecordingError(
            f"time: expected a start within {FARTHEST:g} s of 0, found {first:g} s{hint}"
        )
