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
"""Significance level of the test; the interval covers in 1 less this."""
FINEST = 9
"""Decimals that means are rounded to: smaller differences are rounding errors, hence ties."""


@dataclass(frozen=True)
class SignFlip:
    """Mean of paired differences, with its interval and its p."""

    value: float
    """Mean, in the unit of the differences."""
    low: float | None
    """Low end of the 95 % interval; None with fewer than 6 pairs, which are too few for one."""
    high: float | None
    """High end of the 95 % interval; None with fewer than 6 pairs."""
    p: float
    """Two-sided p: chance of a mean as far from 0 where the arms are alike."""

    @classmethod
    def of(cls, differences: Sequence[float]) -> Self:
        """Test the differences of some pairs. Raises ValueError where there are none."""
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
    """Mean of every subset that is not empty, shape (2^n - 1,), that of all values last."""
    sums, sizes = np.zeros(1), np.zeros(1)
    for value in values:
        sums = np.concatenate((sums, sums + value))
        sizes = np.concatenate((sizes, sizes + 1))
    return np.round(sums[1:] / sizes[1:], FINEST) + 0.0
