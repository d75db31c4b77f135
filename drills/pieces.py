"""Parts of the 1 ms grid of a trace, so that a long silence in a recording takes no memory."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from drills.trace import SECOND, STEP, Grid, Trace

LONG_SILENCE = 10 * SECOND
"""ns between two samples that part a recording: no run of blips reaches over it."""
REACH = 5000
"""Grid points of a silence kept on either side: 5 s, more than any window of a measure (0.5 s
before a run, 1 s after it, and the 0.25 s a coupling looks further), and less than half a silence.
"""


def points(trace: Trace) -> int:
    """How many points the whole grid of a trace has."""
    return int(trace.time[-1] - trace.time[0]) // STEP + 1


def part(trace: Trace, start: int, stop: int) -> Grid:
    """Points [start, stop) of the whole grid of a trace, 0 <= start < stop <= points(trace)."""
    origin = int(trace.time[0])
    first = int(np.searchsorted(trace.time, origin + start * STEP, "right")) - 1
    after = int(np.searchsorted(trace.time, origin + (stop - 1) * STEP, "right"))
    begins = np.maximum(-((origin - trace.time[first:after]) // STEP), start)
    held = np.diff(begins, append=stop)
    return Grid(
        origin + start * STEP,
        np.repeat(trace.brake[first:after], held),
        np.repeat(trace.throttle[first:after], held),
    )


def pieces(trace: Trace) -> Iterator[tuple[int, Grid]]:
    """The stretches between long silences: the point of the whole grid each begins at, and its own.

    Every piece reaches up to 5 s into the silences beside it, where the last sample holds.
    """
    ends = np.flatnonzero(np.diff(trace.time) > LONG_SILENCE)
    at = -((trace.time[0] - trace.time) // STEP)
    firsts = at[np.append(0, ends + 1)] - REACH
    lasts = at[np.append(ends, -1)] + REACH
    for first, last in zip(firsts.tolist(), lasts.tolist(), strict=True):
        start, stop = max(first, 0), min(last, points(trace))
        yield start, part(trace, start, stop)
