"""How long the dark lasts before a cue, so that waiting longer tells nothing about when it comes.

After a fixed shift the time is exponential, whose hazard is flat; a uniform one becomes more and
more predictable. It is cut at the end, so that nobody waits for ever.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True)
class Foreperiod:
    """A shifted exponential wait, cut at its end."""

    shift: float = 1.0
    """s, shortest wait."""
    mean: float = 1.5
    """s past the shift, mean of the exponential before it is cut."""
    cut: float = 6.0
    """s past the shift, longest wait."""

    def draw(self, rng: np.random.Generator) -> float:
        """One wait in s, by inverting the distribution at a uniform draw."""
        share = -math.expm1(-self.cut / self.mean)
        return self.shift - self.mean * math.log1p(-share * rng.random())
