"""Measures of a squeeze of the brake as a step response: reaction, rise, overshoot, settling."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drills.measures.disturbance import STAY_LEAST
from drills.trace import Values


@dataclass(frozen=True)
class Step:
    """Measures of a squeeze of the brake from the cue on; levels are shares of the target."""

    reaction: float | None
    """Time from the cue to 10 % of the brake target, in s; None where it was never reached."""
    rise: float | None
    """Time from 10 to 90 % of the brake target, in s; None where 90 % was never reached."""
    overshoot: float
    """Greatest brake minus its target, in points, at least 0."""
    peak_time: float
    """Time from the cue to the first maximum of the brake, in s."""
    settle: float | None
    """Time from the cue until the brake stays in its band, in s; None if it stays under 0.25 s."""


def measure_step(brake: Values, target: float, band: float, late: float = 0.0) -> Step:
    """Measures of a squeeze in a window of brake on the 1 ms grid that begins at the cue.

    `brake` has shape (n,), in %; `target` (above 0) is in %, `band` in points. `late` is the time
    from the cue to the window's first grid point, in s.
    Reference levels of 10 and 90 % follow IEEE Std 181. Raises ValueError for an empty window.
    """
    if brake.size == 0:
        raise ValueError("a step needs a window of at least one grid point, found none")
    low, high = _first(brake, 0.1 * target), _first(brake, 0.9 * target)
    top = int(np.argmax(brake))
    outside = np.flatnonzero(np.abs(brake - target) > band)
    inside = int(outside[-1]) + 1 if outside.size else 0
    return Step(
        reaction=None if low is None else late + low / 1000,
        rise=None if low is None or high is None else (high - low) / 1000,
        overshoot=max(0.0, float(brake[top]) - target),
        peak_time=late + top / 1000,
        settle=late + inside / 1000 if brake.size - inside >= STAY_LEAST else None,
    )


def _first(brake: Values, level: float) -> int | None:
    past = brake >= level
    index = int(np.argmax(past))
    return index if past[index] else None
