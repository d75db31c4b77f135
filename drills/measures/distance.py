"""Estimate of the extra braking distance that a dip of the brake would cost on the road.

Flat road, no aerodynamics, no lock-up; for comparing repetitions, not for a lap time.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drills.trace import Values

DT = 0.001
"""Length of a grid step in s, within which the deceleration is taken as constant."""


@dataclass(frozen=True)
class Stop:
    """The braking manoeuvre, from one speed to another, in which a disturbance is placed."""

    v0: float = 40.0
    """Speed where the first window of brake begins, in m/s."""
    v1: float = 20.0
    """Speed at which the braking ends, in m/s."""
    deceleration: float = 9.80665
    """Deceleration while the brake is at its base, in m/s² (standard gravity)."""


@dataclass(frozen=True)
class Cost:
    """Cost on the road of one window of brake."""

    distance: float
    """Distance down to the end speed minus that of undisturbed braking, in m."""
    speed: float
    """Speed at the end of the window, in m/s; the end speed where that was reached inside it."""


def extra_distance(brake: Values, base: float | Values, speed: float, stop: Stop) -> Cost:
    """Extra distance that one window of brake (%, shape (n,)), entered at `speed` (m/s), costs.

    Less brake than `base` (%, above 0, of one value or one a point) is less deceleration; more
    gains nothing. A window entered at or under v1 costs nothing.
    """
    if speed <= stop.v1:
        return Cost(0.0, speed)
    a0 = stop.deceleration
    deceleration = a0 * np.clip(brake / base, 0.0, 1.0)
    speeds = speed - DT * np.concatenate(([0.0], np.cumsum(deceleration, dtype=np.float64)))
    undisturbed = (speed**2 - stop.v1**2) / (2 * a0)
    reached = np.flatnonzero(speeds <= stop.v1)
    steps = int(reached[0]) - 1 if reached.size else brake.size
    covered = DT * float(np.sum(speeds[:steps] - 0.5 * DT * deceleration[:steps]))
    left = float(speeds[steps])
    last = float(deceleration[steps]) if reached.size else a0
    rest = (left**2 - stop.v1**2) / (2 * last)
    return Cost(covered + rest - undisturbed, stop.v1 if reached.size else left)
