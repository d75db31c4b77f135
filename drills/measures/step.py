"""The step response of a squeeze from rest: its reaction, rise, overshoot and settling time."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drills.measures.disturbance import STAY_LEAST
from drills.trace import Values


@dataclass(frozen=True)
class Step:
    """A squeeze from the cue on; its reference levels are shares of the target."""

    reaction: float | None
    """s from the cue to 10 % of the target; None where it was never reached."""
    rise: float | None
    """s from 10 to 90 % of the target; None where 90 % was never reached."""
    overshoot: float
    """%, greatest brake - target, at least 0."""
    peak_time: float
    """s from the cue to the first maximum."""
    settle: float | None
    """s from the cue until the brake stays in the band; None where it does so under 0.25 s."""


def measure_step(brake: Values, target: float, band: float) -> Step:
    """Measure a window of brake on the 1 ms grid that begins at the cue.

    `brake` has shape (n,), in %; `target` (above 0) and `band` are in %.
    Reference levels of 10 and 90 % follow IEEE Std 181. Raises ValueError for an empty window.
    """
    if brake.size == 0:
        raise ValueError("a step needs a window of at least one grid point, found none")
    low, high = _first(brake, 0.1 * target), _first(brake, 0.9 * target)
    top = int(np.argmax(brake))
    outside = np.flatnonzero(np.abs(brake - target) > band)
    inside = int(outside[-1]) + 1 if outside.size else 0
    return Step(
        reaction=None if low is None else low / 1000,
        rise=None if low is None or high is None else (high - low) / 1000,
        overshoot=max(0.0, float(brake[top]) - target),
        peak_time=top / 1000,
        settle=inside / 1000 if brake.size - inside >= STAY_LEAST else None,
    )


def _first(brake: Values, level: float) -> int | None:
    past = brake >= level
    index = int(np.argmax(past))
    return index if past[index] else None
