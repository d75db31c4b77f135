"""Least squares on repetitions of which those of one day are alike, with honest standard errors."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Reals = npt.NDArray[np.float64]

USUAL_ALIKE = 0.1
"""Share of the variance that repetitions of one day have in common in a usual foot, 0 to 1."""
USUAL_DAYS = 20
"""Weight of the usual share, as a count of days: a few days tell little of how days differ."""
FURTHEST = 3.5
"""Robust standard deviations from the fit beyond which a value counts as no further away."""
TIMES = 3
"""Times that values far from the fit are drawn in, as a count: the first fit is pulled by them."""
NORMAL_MAD = 1.4826
"""Standard deviation of a normal distribution over its median absolute deviation, a ratio."""
LEAST_SPREAD = 1e-6
"""Smallest standard deviation of the values about the fit, in their unit: below it is rounding."""


@dataclass(frozen=True)
class ClusteredFit:
    """A line or a mean fitted to values, with the covariance of its coefficients."""

    coefficients: Reals
    """Factor on each column, shape (columns,), in the unit of the values over the column's."""
    covariance: Reals
    """Covariance of the coefficients, shape (columns, columns)."""
    spread: float
    """Standard deviation of the values about the fit, in their unit."""
    freedom: int
    """Degrees of freedom of Student's t for intervals of the fit."""


def clustered_fit(columns: Reals, values: Reals, days: Sequence[Hashable]) -> ClusteredFit:
    """Fit of `ordinary_fit` in which a slip of the foot weighs little.

    Values further from the fit than `FURTHEST` robust standard deviations are drawn in to that
    distance, and it is fitted again, `TIMES` times: a slip of the foot is no sense of pressure.
    """
    project = np.linalg.inv(columns.T @ columns) @ columns.T
    coefficients, drawn_in = project @ values, values
    for _ in range(TIMES):
        fitted = columns @ coefficients
        reach = FURTHEST * NORMAL_MAD * float(np.median(np.abs(values - fitted)))
        drawn_in = np.clip(values, fitted - reach, fitted + reach)
        coefficients = project @ drawn_in
    return ordinary_fit(columns, drawn_in, days)


def ordinary_fit(columns: Reals, values: Reals, days: Sequence[Hashable]) -> ClusteredFit:
    """Ordinary least squares of `values` on `columns`, allowing for days that differ.

    `columns` has shape (values, columns), `values` (values,), `days` one entry a value; there are
    more values than columns. The estimator is that of ordinary least squares (Draper & Smith 1998,
    *Applied Regression Analysis*, from memory): b = (X'X)^-1 X'y.

    Residuals r of variance s^2 = r'r / (n - columns) share rho of it within a day: rho is the mean
    of r r' over the pairs of a day, over s^2, between 0 and 1, drawn to the usual share by
    rho' = (20 * 0.1 + (D - 1) rho) / (20 + D - 1) for D days. The covariance is the sandwich
    s^2 (X'X)^-1 X' ((1 - rho') I + rho' S) X (X'X)^-1, where S is 1 for two values of one day.
    """
    inverse = np.linalg.inv(columns.T @ columns)
    coefficients = inverse @ columns.T @ values
    residuals = values - columns @ coefficients
    freedom = len(values) - columns.shape[1]
    variance = max(float(residuals @ residuals) / freedom, LEAST_SPREAD**2)
    keys = [hash(day) for day in days]
    _, of_day, sizes = np.unique(keys, return_inverse=True, return_counts=True)
    sums = np.bincount(of_day, residuals)
    pairs = float(np.sum(sizes * (sizes - 1)))
    shared = float(np.sum(sums**2) - residuals @ residuals) / pairs / variance if pairs else 0.0
    free = len(sizes) - 1
    alike = (USUAL_DAYS * USUAL_ALIKE + free * min(max(shared, 0.0), 1.0)) / (USUAL_DAYS + free)
    by_day = np.array([np.bincount(of_day, column) for column in columns.T])
    middle = (1 - alike) * (columns.T @ columns) + alike * (by_day @ by_day.T)
    return ClusteredFit(coefficients, variance * inverse @ middle @ inverse, variance**0.5, freedom)
