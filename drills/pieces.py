"""Pieces of the 1 ms grid of a recording, so that a long silence takes no memory."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from drills.trace import SECOND, STEP, Grid, Trace

LONG_SILENCE = 10 * SECOND
"""Silence between samples beyond which a recording is divided, in ns: no run of blips spans it."""
REACH = 5000
"""Grid points of silence laid out on either side of a piece: 5 s, more than any measure looks at
and less than half a silence."""


def points(trace: Trace) -> int:
    """Number of points in the whole 1 ms grid of a trace."""
    return int(trace.time[-1] - trace.time[0]) // STEP + 1


def part(trace: Trace, start: int, stop: int) -> Grid:
    """Points [start, stop) of the whole 1 ms grid of a trace; both from 0 to its size."""
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
    """Pieces of a trace between long silences: first point in the whole grid, and own grid.

    A piece reaches up to 5 s into the silences beside it, where the last sample holds.
    """
    ends = np.flatnonzero(np.diff(trace.time) > LONG_SILENCE)
    at = -((trace.time[0] - trace.time) // STEP)
    firsts = at[np.append(0, ends + 1)] - REACH
    lasts = at[np.append(ends, -1)] + REACH
    for first, last in zip(firsts.tolist(), lasts.tolist(), strict=True):
        start, stop = max(first, 0), min(last, points(trace))
        yield start, part(trace, start, stop)
