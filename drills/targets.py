"""`Targets`: the brake targets of a level, taken in turn or drawn."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True)
class Targets:
    """Brake targets of a level: some taken in turn, or any whole number between two."""

    values: tuple[float, ...]
    """Brake targets in %, taken in turn; where targets are drawn, the least and the greatest."""
    drawn: bool = False
    """Whether each brake target is a whole number drawn between the two values."""

    def at(self, number: int, rng: np.random.Generator) -> float:
        """Brake target in % of repetition `number` of a set, counted from 1."""
        if not self.drawn:
            return self.values[(number - 1) % len(self.values)]
        least, greatest = self.values
        return float(rng.integers(round(least), round(greatest), endpoint=True))

    @property
    def least(self) -> float:
        """Smallest possible brake target, in %."""
        return min(self.values)

    @property
    def greatest(self) -> float:
        """Largest possible brake target, in %."""
        return max(self.values)
