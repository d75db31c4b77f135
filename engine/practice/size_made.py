"""Size of blips: what a player makes when one size is asked, and whether it is sure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import sqrt

import numpy as np

from engine.practice.clustered import clustered_fit
from engine.practice.students_t import within

NEWEST = 40
"""Newest blips that the size made is estimated from, as a count."""
LEAST = 20
"""Fewest blips that the size made is told from, as a count."""
SURE = 0.99
"""Coverage of the interval of the mean size, from 0 to 1."""
NEAR = 3.0
"""Distance from the size asked at which a mean size is no fault, in points each way."""


@dataclass(frozen=True)
class SizedBlip:
    """One blip of which one size was asked."""

    day: date
    """Local day on which the blip was played."""
    peak: float
    """Highest throttle of the blip, in %."""


@dataclass(frozen=True)
class SizeMade:
    """Size of the newest blips of a player, beside the size that was asked."""

    asked: float
    """Throttle asked at the peak, in %."""
    mean: float
    """Mean throttle at the peak, in %."""
    spread: float
    """Standard deviation of the throttle at the peak, in points."""
    low: float
    """Low end of the interval of the mean, in %."""
    high: float
    """High end of the interval of the mean, in %."""
    blips: int
    """Blips it is estimated from, as a count."""

    @property
    def is_small(self) -> bool:
        """Whether it is sure that the blips are smaller than asked."""
        return self.high < self.asked - NEAR

    @property
    def is_big(self) -> bool:
        """Whether it is sure that the blips are bigger than asked."""
        return self.low > self.asked + NEAR


def size_made(blips: Sequence[SizedBlip], asked: float) -> SizeMade | None:
    """Size of the newest blips, oldest first; None if there are fewer than `LEAST`.

    Blips that were repeated for their size are among them: without them the mean would be drawn to
    the size asked. The mean and its interval are those of `clustered_fit`, by Student's t.
    """
    newest = blips[-NEWEST:]
    if len(newest) < LEAST:
        return None
    peaks = np.array([one.peak for one in newest])
    fit = clustered_fit(np.ones((len(newest), 1)), peaks, [one.day for one in newest])
    mean = float(fit.coefficients[0])
    half = within(SURE, fit.freedom) * sqrt(float(fit.covariance[0, 0]))
    return SizeMade(asked, mean, fit.spread, mean - half, mean + half, len(newest))
