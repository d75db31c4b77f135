"""Coupling of the brake to the throttle: its gain and its lag, by cross-correlation."""

from __future__ import annotations

import numpy as np

from drills.trace import Values

LAGS = range(-100, 251)
"""Delays from throttle to brake that are tried, in grid points."""
EQUAL = 1e-12
"""Difference under which two correlations count as equal: a hundred times their rounding errors."""

ROUNDING = 1e-9
"""Distance of the throttle from its rest under which it is at rest, in points: a mean of equal
values may be off by its rounding errors."""


def couple(
    change: Values, throttle: Values, rest: float, first: int
) -> tuple[float | None, float | None]:
    """Gain and lag (s) of the delayed throttle that best explains the change of brake.

    `change` is the brake in points over a window that begins at grid point `first`, `rest` the
    throttle in % that counts as none.
    Throttle counts as at rest where the shift reaches outside the trace. Where brake or throttle
    never moved there is neither.
    """
    n = change.size
    x = _reaching(throttle, rest, first - LAGS[-1], first - LAGS[0] + n)
    squares = np.concatenate(([0.0], np.cumsum(x * x, dtype=np.float64)))
    powers = (squares[n:] - squares[:-n])[::-1]
    total = float(change @ change)
    if total == 0.0 or not powers.any():
        return None, None
    size = 1 << x.size.bit_length()
    spectrum = np.fft.rfft(x, size) * np.conj(np.fft.rfft(change, size))
    products = np.fft.irfft(spectrum, size)[len(LAGS) - 1 :: -1]
    with np.errstate(divide="ignore", invalid="ignore"):
        likeness = np.where(powers > 0, np.abs(products) / np.sqrt(powers * total), 0.0)
    best = int(np.argmax(likeness >= likeness.max() - EQUAL))
    start = len(LAGS) - 1 - best
    moved = x[start : start + n]
    return float(moved @ change / (moved @ moved)), LAGS[best] / 1000


def _reaching(throttle: Values, rest: float, start: int, stop: int) -> Values:
    """Throttle above rest over grid points [start, stop); 0 outside the trace."""
    reached = np.zeros(stop - start)
    inside = throttle[max(start, 0) : min(stop, throttle.size)]
    begins = max(-start, 0)
    above = inside - rest
    reached[begins : begins + inside.size] = np.where(np.abs(above) < ROUNDING, 0.0, above)
    return reached
