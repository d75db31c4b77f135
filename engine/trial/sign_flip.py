"""Sign-flip test and confidence interval for the mean of paired differences.

Where two arms are alike, the sign of each pair's difference comes from the randomisation alone, so
every way to flip the signs was as likely as the observed one: p is the share of all 2^n whose mean
is as far from 0 (Fisher 1935, section 21). A flipped mean is that far to one side just where the
mean of the flipped pairs lies on the other side of 0. So the means of all subsets of the pairs give
the test of every possible true difference, and those it does not reject lie between two of these
means (Hartigan 1969, typical values, from memory). That is the interval: it holds 0 just where p is
over 0.05. `tests/bench/trial.py` measures its coverage, beside that of the bootstrap.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Self

import numpy as np
import numpy.typing as npt

LEVEL = 0.05
"""Significance level of the test: a p-value up to it is a difference, the interval covers 1 less
it."""
FINEST = 9
"""Number of decimals that means are rounded to: a smaller difference is a rounding error, so a
tie."""


@dataclass(frozen=True)
class SignFlip:
    """Mean of paired differences, with its confidence interval and its p-value."""

    value: float
    """Mean of the differences, in their unit."""
    low: float | None
    """Low end of the 95 % interval of the mean; None with fewer than 6 pairs, too few for one."""
    high: float | None
    """High end of the 95 % interval of the mean; None with fewer than 6 pairs."""
    p: float
    """Two-sided p-value: chance of a mean as far from 0 if the two sides are alike."""

    @classmethod
    def of(cls, differences: Sequence[float]) -> Self:
        """Test paired differences, one a pair. Raises ValueError if there are none."""
        if not differences:
            raise ValueError("differences: expected at least one, found none")
        means = subset_means(differences)
        ways = means.size + 1
        value = float(means[-1])
        beyond = int(np.count_nonzero(means <= 0 if value > 0 else means >= 0))
        p = min(1.0, 2 * (1 + beyond) / ways)
        place = int(LEVEL * ways / 2)
        if not place:
            return cls(value, None, None, p)
        ends = np.partition(means, (place - 1, means.size - place))
        return cls(value, float(ends[place - 1]), float(ends[-place]), p)


def subset_means(values: Sequence[float]) -> npt.NDArray[np.float64]:
    """Mean of every non-empty subset of the values, shape (2^n - 1,); that of all of them last."""
    sums, sizes = np.zeros(1), np.zeros(1)
    for value in values:
        sums = np.concatenate((sums, sums + value))
        sizes = np.concatenate((sizes, sizes + 1))
    return np.round(sums[1:] / sizes[1:], FINEST) + 0.0
