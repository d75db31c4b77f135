"""Easing off along a ramp from a brake to nothing."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from drills.trace import Values

TURN = 2.0
"""%, a rise by more than this on the way down is a reversal."""


@dataclass(frozen=True)
class Release:
    """How closely the brake followed the ramp."""

    ramp_error: float
    """%, root mean square of brake - ramp."""
    ramp_worst: float
    """%, largest distance from the ramp."""
    reversals: int
    """count of upward turns by more than 2 %."""


def measure_release(brake: Values, start: float) -> Release:
    """Measure a window of brake on the 1 ms grid that begins at the cue and lasts as the ramp.

    `brake` has shape (n,), in %; the ramp goes from `start` (%) at the first point to 0 one step
    after the last. After a reversal the next counts once the brake has come down by more than
    2 % again. Raises ValueError for an empty window.
    """
    if brake.size == 0:
        raise ValueError("a release needs a window of at least one grid point, found none")
    away = brake - start * (1 - np.arange(brake.size) / brake.size)
    return Release(
        ramp_error=math.sqrt(float(np.mean(away**2))),
        ramp_worst=float(np.abs(away).max()),
        reversals=reversals_of(brake),
    )


def reversals_of(brake: Values) -> int:
    """How often a brake turned upward by more than 2 % on its way down."""
    count, rest = 0, brake
    while True:
        up = np.flatnonzero(rest - np.minimum.accumulate(rest) > TURN)
        if not up.size:
            return count
        count, rest = count + 1, rest[up[0] :]
        down = np.flatnonzero(np.maximum.accumulate(rest) - rest > TURN)
        if not down.size:
            return count
        rest = rest[down[0] :]
