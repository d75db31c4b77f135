"""Stalls of pedals: they report nothing for a while, and are far off when they report again."""

from __future__ import annotations

import numpy as np

from drills.trace import Times, Values, nanoseconds

JUDGED = 0.020
"""Longest time between reports of pedals whose stalls can be told from their reports, in s."""
LEAST = 0.040
"""Longest time without a report that is no stall yet, in s."""
INTERVALS = 4
"""Longest time without a report that is no stall yet, in times between reports."""
CHANGE_LEAST = 3.0
"""Least change of a pedal that ends a stall, in points: less may be a foot that was still."""
CHANGE_STEPS = 3
"""Least change of a pedal that ends a stall, in steps of its axis."""
CHANGE_TIMES = 2.0
"""How many times as large as the pedal's next change the one that ends a stall is, at least."""
NEXT_WITHIN = 2
"""Time in which the next change after a stall comes, in times between reports."""


def stalls(time: Times, values: Values, interval: float | None) -> Times:
    """Times in ns at which stalls of a pedal end, in order, shape (number of stalls,).

    A pedal that was silent for long is far off at once, and then changes little. `time` in ns and
    `values` in % have the shape (n,), `interval` is the pedal's time between reports in s. None are
    told where that is not known or too long.
    """
    none = np.zeros(0, dtype=np.int64)
    if interval is None or interval > JUDGED:
        return none
    changed = np.flatnonzero(np.diff(values)) + 1
    if changed.size < 2:
        return none
    at = time[changed]
    silent = np.diff(at, prepend=time[0]) > nanoseconds(max(LEAST, INTERVALS * interval))
    ends = np.flatnonzero(silent)
    change = np.abs(values[changed] - values[changed - 1])
    far = change[ends] >= max(CHANGE_LEAST, CHANGE_STEPS * float(change.min()))
    following = np.minimum(ends + 1, at.size - 1)
    wait = at[following] - at[ends]
    is_soon = (wait > 0) & (wait <= nanoseconds(NEXT_WITHIN * interval))
    more = np.where(is_soon, change[following], 0.0)
    return at[ends[far & (change[ends] > CHANGE_TIMES * more)]]
