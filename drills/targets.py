"""The brake targets of a level: some taken in turn, or any between two."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True)
class Targets:
    """Where the brake is to be brought to, repetition by repetition."""

    values: tuple[float, ...]
    """%, taken in turn; where they are drawn, the least and the greatest."""
    drawn: bool = False
    """Whether a whole number between the two is drawn each time."""

    def at(self, number: int, rng: np.random.Generator) -> float:
        """The target in % of repetition `number` of a set, from 1."""
        if not self.drawn:
            return self.values[(number - 1) % len(self.values)]
        least, greatest = self.values
        return float(rng.integers(round(least), round(greatest), endpoint=True))

    @property
    def least(self) -> float:
        """%, the smallest there may be."""
        return min(self.values)

    @property
    def greatest(self) -> float:
        """%, the largest there may be."""
        return max(self.values)
