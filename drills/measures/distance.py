"""Extra distance that a dip would cost on the road, an estimate.

Flat road, no aerodynamics, no lock-up; for comparing repetitions, not for a lap time.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drills.trace import Values

DT = 0.001
"""Length of a grid step in s, within which the acceleration is constant."""


@dataclass(frozen=True)
class Stop:
    """The braking that a disturbance is placed in."""

    v0: float = 40.0
    """m/s, speed where the first window begins."""
    v1: float = 20.0
    """m/s, speed that ends the braking."""
    deceleration: float = 9.80665
    """m/s², deceleration while the brake is at its base (standard gravity)."""


@dataclass(frozen=True)
class Cost:
    """Cost of one window of brake."""

    distance: float
    """m, distance down to v1 minus the undisturbed distance."""
    speed: float
    """m/s, speed the window left; v1 where v1 was reached inside it."""


def extra_distance(brake: Values, base: float | Values, speed: float, stop: Stop) -> Cost:
    """Extra distance of one window of brake (%, shape (n,)) entered at `speed` (m/s).

    Less brake than `base` (%, above 0, of one value or one a point) is less deceleration; more
    gains nothing. A window entered at or under v1 costs nothing.
    """
    if speed <= stop.v1:
        return Cost(0.0, speed)
    a0 = stop.deceleration
    deceleration = a0 * np.clip(brake / base, 0.0, 1.0)
    speeds = speed - DT * np.concatenate(([0.0], np.cumsum(deceleration)))
    undisturbed = (speed**2 - stop.v1**2) / (2 * a0)
    reached = np.flatnonzero(speeds <= stop.v1)
    steps = int(reached[0]) - 1 if reached.size else brake.size
    covered = DT * float(np.sum(speeds[:steps] - 0.5 * DT * deceleration[:steps]))
    left = float(speeds[steps])
    last = float(deceleration[steps]) if reached.size else a0
    rest = (left**2 - stop.v1**2) / (2 * last)
    return Cost(covered + rest - undisturbed, stop.v1 if reached.size else left)
