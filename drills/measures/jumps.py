"""Jumps of a pedal that no foot can make: found in a trace, and replaced by the value before."""

from __future__ import annotations

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
"""Largest spread of the values around a jump about the straight line through them, in points: the
pedal stays, or moves on as it did."""
MOVING = 0.25
"""Largest such spread as a share of the jump's distance, if that is more than TOGETHER."""


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
        for first in (np.flatnonzero(np.abs(np.diff(values)) > FAR) + 1).tolist():
            after = _end(trace.time, cleaned, first)
            if after is None:
                continue
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


def _end(time: Times, values: Values, first: int) -> int | None:
    """Index of the first sample after a jump that begins at index `first`; None if none does."""
    before = float(values[first - 1])
    last = int(np.searchsorted(time, time[first] + LONGEST, side="right"))
    near = np.flatnonzero(np.abs(values[first:last] - before) <= FAR)
    if not near.size or near[0] == 0:
        return None
    after = first + int(near[0])
    jump = values[first:after]
    distance = min(np.abs(jump - before).min(), np.abs(jump - values[after]).min())
    return after if distance > FAR and _is_one_way(time, values, first, after, distance) else None


def _is_one_way(time: Times, values: Values, first: int, after: int, distance: float) -> bool:
    """Whether a pedal stayed on one straight way around what may be a jump, but for it.

    The samples before index `first` have been freed of jumps; another may follow soon.
    """
    opens = max(int(np.searchsorted(time, time[first] - AROUND, side="right")) - 1, 0)
    closes = int(np.searchsorted(time, time[after] + AROUND, side="left"))
    following = np.flatnonzero(np.abs(np.diff(values[after:closes])) > FAR)
    closes = after + int(following[0]) + 1 if following.size else closes
    around = np.r_[opens:first, after:closes]
    at, way = (time[around] - time[first]) / AROUND, values[around]
    centred = at - at.mean()
    way = way - centred * (centred @ way) / (centred @ centred)
    return float(way.max() - way.min()) <= max(TOGETHER, MOVING * distance)
