"""The reader of a recording, and what makes the measures of one less sure."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np
from numpy.typing import NDArray

from drills.recording.cells import read_columns
from drills.recording.form import Format, Recording, RecordingError
from drills.recording.header import read_header
from drills.recording.pedals import percent_of
from drills.recording.times import seconds_of
from drills.trace import SECOND, Trace

SLACK = 2.0
"""How far outside 0 to 100 % a recorded pedal may lie without a warning, in points."""
LONG_GAP = 0.1
"""Longest time between two samples of a recording without a warning, in s."""
SLOW = 50.0
"""Sampling rate of a recording below which its timings are coarse, in samples per second."""
TOO_SMALL = 2.0
"""Least peak of any recorded pedal, in %: a recording that stays under it has another scale."""
CUT = "the last row is cut off and was left out"
"""Warning for a recording whose writing stopped in the middle of a row."""


def read_recording(text: str, form: Format) -> Recording:
    """Recording in a text of columns. Raises RecordingError for the first mistake found."""
    lines = text.splitlines()
    if not any(line.strip() for line in lines):
        raise RecordingError("expected a header and at least two rows, found nothing")
    header = read_header(lines, form)
    columns = read_columns(lines, header, form, is_open=not text.endswith(("\n", "\r")))
    if columns.rows.size < 2:
        raise RecordingError(f"expected at least two rows of samples, found {columns.rows.size}")
    time, of_time = seconds_of(columns, header, form)
    percent, of_pedals = percent_of(columns, header, form)
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
    warnings = [CUT] * columns.is_cut
    warnings += _warnings(trace, int(np.sum(~last)), percent)
    notes = (*header.notes, *columns.notes, *of_time, *of_pedals)
    return Recording(trace, tuple(warnings), notes)


def _warnings(
    trace: Trace, repeated: int, percent: Mapping[str, NDArray[np.float64]]
) -> Iterator[str]:
    if repeated:
        yield f"{repeated} repeated times; the last sample of each was used"
    gaps = np.diff(trace.time) / SECOND
    long = np.flatnonzero(gaps > LONG_GAP)
    if long.size:
        worst = int(long[np.argmax(gaps[long])])
        yield (
            f"{long.size} gaps over {LONG_GAP:g} s, the longest {gaps[worst]:.3f} s "
            f"at {trace.time[worst] / SECOND:.3f} s"
        )
    sampled = gaps[gaps <= LONG_GAP] if long.size < gaps.size else gaps
    rate = sampled.size / float(sampled.sum())
    if rate < SLOW:
        yield f"{rate:.1f} samples a second, under {SLOW:g}: timings are coarse"
    for name, column in percent.items():
        least, most = float(column.min()), float(column.max())
        if least < -SLACK or most > 100 + SLACK:
            yield (
                f"{name}: {least:.0f} to {most:.0f} %, beyond 0 to 100: pressed harder than it "
                "was set up, or another scale (--full)?"
            )
    if max(float(column.max()) for column in percent.values()) < TOO_SMALL:
        yield f"no pedal passes {TOO_SMALL:g} %: are they 0 to 1 (--full 1)?"
