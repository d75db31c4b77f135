"""Simulated foot with a known learning curve: the value of each repetition, day by day."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from engine.practice.course import Course

Floats = npt.NDArray[np.float64]
Numbers = npt.NDArray[np.floating[Any]] | npt.NDArray[np.int64]
WARMING = 1.3
"""Factor by which the first five repetitions of a day are worse."""


@dataclass(frozen=True)
class Learner:
    """Simulated foot with a known learning curve."""

    floor: float = 6.0
    """Floor of the curve, in points."""
    gain: float = 0.0
    """Points above the floor at the first repetition."""
    half: float = 200.0
    """Repetitions that halve the distance to the floor."""
    days: int = 20
    """Number of days with practice."""
    a_day: int = 20
    """Repetitions on each day."""
    every: int = 1
    """Days from one day of practice to the next."""
    spread: float = 0.5
    """Standard deviation of repetitions within a day, in logarithms."""
    moods: float = 0.2
    """Standard deviation of days, in logarithms."""
    spells: float = 0.0
    """Correlation of a day with the next, from 0 to 1."""
    worse: float = 0.0
    """Logarithm by which the foot gets worse each day."""

    def at(self, n: float) -> float:
        """Median in points after `n` repetitions, on an average day."""
        return float(self._at(np.array(n)))

    def _at(self, n: Numbers) -> Floats:
        found: Floats = self.floor + self.gain * np.exp2(-n / self.half)
        return found

    def course(self, chance: np.random.Generator) -> Course:
        """All repetitions of the foot, in order."""
        mood = chance.standard_normal(self.days)
        for day in range(1, self.days):
            mood[day] = self.spells * mood[day - 1] + np.sqrt(1 - self.spells**2) * mood[day]
        count = self.days * self.a_day
        number, days = np.arange(1, count + 1), np.repeat(np.arange(self.days), self.a_day)
        place = np.tile(np.arange(1, self.a_day + 1), self.days)
        chances = self.spread * chance.standard_normal(count)
        of_days = self.moods * mood[days] + self.worse * days
        value = self._at(number) * np.exp(of_days + chances)
        value[place <= 5] *= WARMING
        return Course(number, 730_000 + self.every * days, place, value, np.zeros_like(number))
