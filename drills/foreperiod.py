"""`Foreperiod`: the random wait in the dark before a cue."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True)
class Foreperiod:
    """The wait in the dark before a cue: a fixed shift, then exponential, cut at its end.

    The hazard of an exponential is flat, so that having waited tells nothing about when the cue
    comes; a uniform wait becomes more and more predictable.
    """

    shift: float = 1.0
    """Shortest wait before a cue, in s."""
    mean: float = 1.5
    """Mean of the exponential part of the wait, before it is cut, in s past the shift."""
    cut: float = 6.0
    """Longest wait before a cue, in s past the shift."""

    def draw(self, rng: np.random.Generator) -> float:
        """One random wait before a cue, in s, by inverting the distribution at a uniform draw."""
        share = -math.expm1(-self.cut / self.mean)
        return self.shift - self.mean * math.log1p(-share * rng.random())
