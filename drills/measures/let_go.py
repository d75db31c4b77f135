"""Whether a brake was let go in the middle of a braking zone, where it was still asked."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from drills.braking_zone import Line
from drills.measures.blip import BRAKE_OFF_FOR, Pulse
from drills.measures.disturbance import RELEASED
from drills.measures.zone import ZoneWork, asked_at
from drills.trace import Grid

PRESSED_AGAIN = 2 * RELEASED
"""Least brake in % that counts as pressed again after it was off, and least brake asked at which it
can be let go; less is a trembling foot, or the end of the line."""


def is_let_go(
    grid: Grid, work: ZoneWork, point: int, line: Line, pulses: Sequence[Pulse], until: int
) -> bool:
    """Whether the brake was off for 0.1 s on end before grid index `until`, where 10 % were asked.

    Off is under 5 %, once it has been at that. A brake that a blip pulls off is a dip while the
    throttle is open: grid points inside of `pulses` do not count, and part nothing. `point` is the
    braking point, a grid index, and `line` the asked brake from there.
    """
    points = np.arange(work.squeeze[0], max(until, work.squeeze[0]), dtype=np.int64)
    brake = grid.brake[points]
    off = (brake < RELEASED) & (np.maximum.accumulate(brake) >= RELEASED)
    off &= asked_at(line, points, point) >= PRESSED_AGAIN
    counts = np.ones(points.size, dtype=bool)
    for pulse in pulses:
        counts &= (points < pulse.first) | (points >= pulse.after)
    off = off[counts]
    edges = np.flatnonzero(np.diff(off.astype(np.int8), prepend=np.int8(0), append=np.int8(0)))
    return bool((edges[1::2] - edges[::2]).max(initial=0) >= BRAKE_OFF_FOR)


def came_back(grid: Grid, after: int, until: int) -> bool:
    """Whether the brake, off after grid index `after`, was pressed again before `until`."""
    off = after + np.flatnonzero(grid.brake[after:until] < RELEASED)
    return bool(off.size) and float(grid.brake[off[0] : until].max()) >= PRESSED_AGAIN
