"""Jumps of a pedal that no foot can make: found in a trace, and replaced by the value before."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from drills.trace import Pedal, Times, Trace, Values, nanoseconds

LONGEST = nanoseconds(0.020)
"""Longest jump of a pedal, in ns: a foot takes longer there and back."""
AROUND = nanoseconds(0.020)
"""Time before and after a jump in which the pedal must stay near one value, in ns."""
FAR = 8.0
"""Distance of a jump from the values before and after it, in points: a jump lies farther off."""
TOGETHER = 4.0
"""Largest spread of the values around a jump, in points: together they are one position."""
MOVING = 0.25
"""Largest spread of the values around a jump as a share of its distance, if that is more than
TOGETHER: a pedal that moves may jump too."""


@dataclass(frozen=True)
class Jump:
    """A stretch in which a pedal read what no foot did."""

    pedal: Pedal
    """Pedal that jumped."""
    start: int
    """Time of the first sample of the jump, in ns."""
    stop: int
    """Time of the first sample after the jump, in ns."""


def without_jumps(trace: Trace) -> tuple[Trace, tuple[Jump, ...]]:
    """The trace with each jump replaced by the value before it, and the jumps in order of time.

    The counts of the trace stay as the device sent them.
    """
    columns = {Pedal.BRAKE: trace.brake, Pedal.THROTTLE: trace.throttle}
    if trace.clutch is not None:
        columns[Pedal.CLUTCH] = trace.clutch
    jumps: list[Jump] = []
    for pedal, values in columns.items():
        cleaned = values
        for first, after in _jumps(trace.time, values):
            if cleaned is values:
                cleaned = values.copy()
            cleaned[first:after] = cleaned[first - 1]
            jumps.append(Jump(pedal, int(trace.time[first]), int(trace.time[after])))
        columns[pedal] = cleaned
    if not jumps:
        return trace, ()
    cleaned_trace = replace(
        trace,
        brake=columns[Pedal.BRAKE],
        throttle=columns[Pedal.THROTTLE],
        clutch=columns.get(Pedal.CLUTCH),
    )
    return cleaned_trace, tuple(sorted(jumps, key=lambda jump: jump.start))


def _jumps(time: Times, values: Values) -> Iterator[tuple[int, int]]:
    """First sample of each jump, and the first sample after it, as indices."""
    done = 0
    for first in (np.flatnonzero(np.abs(np.diff(values)) > FAR) + 1).tolist():
        if first < done:
            continue
        after = _end(time, values, first)
        if after is not None:
            done = after
            yield first, after


def _end(time: Times, values: Values, first: int) -> int | None:
    """Index of the first sample after a jump that begins at index `first`; None if none does."""
    before = float(values[first - 1])
    last = int(np.searchsorted(time, time[first] + LONGEST, side="right"))
    near = np.flatnonzero(np.abs(values[first:last] - before) <= FAR)
    if not near.size:
        return None
    after = first + int(near[0])
    distance = np.abs(values[first:after] - before).min()
    distance = min(distance, np.abs(values[first:after] - values[after]).min())
    # A value holds until the next sample, so the one before the window still holds in it.
    opens = max(int(np.searchsorted(time, time[first] - AROUND, side="right")) - 1, 0)
    closes = int(np.searchsorted(time, time[after] + AROUND, side="left"))
    around = np.concatenate([values[opens:first], values[after:closes]])
    spread = float(around.max() - around.min())
    is_jump = distance > FAR and spread <= max(TOGETHER, MOVING * distance)
    return after if is_jump else None
