"""Measures of the steadiness of a held brake over one window."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from drills.trace import Values

RATE = 1000
"""Number of grid points in a second."""
TREMOR_FROM = 8
"""Lower end of the frequency band of physiological tremor, in Hz (Novak & Newell 2017)."""
TREMOR_TO = 12
"""Upper end of the frequency band of physiological tremor, in Hz, included."""
TREMOR_LEAST = RATE
"""Shortest window whose tremor is measured, in grid points: 1 s."""


@dataclass(frozen=True)
class Hold:
    """How steadily the brake was held over one window, and where."""

    mean: float
    """Mean brake in the window, in %."""
    constant_error: float
    """Mean brake minus its target, with its sign, in points."""
    variable_error: float
    """Standard deviation of the brake about its own mean (divisor n), in points."""
    total_error: float
    """Root mean square of brake minus its target, in points."""
    cv: float | None
    """Coefficient of variation: variable error / mean; None where the mean is not above 0."""
    swing: float
    """Greatest minus least brake in the window, in points."""
    in_band: float
    """Share of the window with the brake within the tolerance of its target, limits included."""
    drift: float
    """Slope of the least-squares line through the brake, in points/s; 0 for a single grid point."""
    tremor: float | None
    """Root of the brake's power from 8 to 12 Hz, in points; None for a window under 1 s."""


def measure_hold(brake: Values, target: float, tolerance: float) -> Hold:
    """Measures of one window of held brake on the 1 ms grid.

    `brake` has shape (n,), in %; `target` is in %, `tolerance` in points.
    Raises ValueError for an empty window.
    Total error splits into constant and variable error only with divisor n (Henry 1975).
    """
    if brake.size == 0:
        raise ValueError("a hold needs a window of at least one grid point, found none")
    mean = float(brake.mean())
    centred = brake - mean
    variable = math.sqrt(float(np.mean(centred**2)))
    error = brake - target
    return Hold(
        mean=mean,
        constant_error=mean - target,
        variable_error=variable,
        total_error=math.sqrt(float(np.mean(error**2))),
        cv=variable / mean if mean > 0 else None,
        swing=float(brake.max() - brake.min()),
        in_band=float(np.mean(np.abs(error) <= tolerance)),
        drift=_slope(centred),
        tremor=_tremor(centred),
    )


def _slope(centred: Values) -> float:
    if centred.size < 2:
        return 0.0
    time = (np.arange(centred.size, dtype=np.int64) - (centred.size - 1) / 2) / RATE
    return float(time @ centred / (time @ time))


def _tremor(centred: Values) -> float | None:
    """Root of the brake's power in the tremor band, by the one-sided rectangular periodogram."""
    n = centred.size
    if n < TREMOR_LEAST:
        return None
    first = -(-TREMOR_FROM * n // RATE)
    last = TREMOR_TO * n // RATE
    bins = np.fft.rfft(centred)[first : last + 1]
    return math.sqrt(2 * float(np.sum(np.abs(bins) ** 2))) / n
