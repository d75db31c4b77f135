"""A foot whose learning curve is known: what its repetitions are worth, day by day."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
import numpy.typing as npt

from engine.practice.course import Course

Floats = npt.NDArray[np.float64]
Numbers = npt.NDArray[np.floating[Any]] | npt.NDArray[np.int64]
WARMING = 1.3  # factor, the first five of a day


@dataclass(frozen=True)
class Learner:
    """A foot whose curve is known."""

    floor: float = 6.0
    """points, where it ends."""
    gain: float = 0.0
    """points above that at first."""
    half: float = 200.0
    """count of repetitions, to halve what is left."""
    days: int = 20
    """days with practice."""
    a_day: int = 20
    """count of repetitions on each."""
    every: int = 1
    """days from one to the next."""
    spread: float = 0.5
    """1, log, of repetitions."""
    moods: float = 0.2
    """1, log, of days."""
    spells: float = 0.0
    """1, correlation of a day with the next."""
    worse: float = 0.0
    """1, log, by which it gets worse a day."""

    def at(self, n: float) -> float:
        """The median after so many repetitions on a usual day, in points."""
        return float(self._at(np.array(n)))

    def _at(self, n: Numbers) -> Floats:
        found: Floats = self.floor + self.gain * np.exp2(-n / self.half)
        return found

    def course(self, chance: np.random.Generator) -> Course:
        """Everything it does."""
        mood = chance.standard_normal(self.days)
        for one in range(1, self.days):
            mood[one] = self.spells * mood[one - 1] + np.sqrt(1 - self.spells**2) * mood[one]
        count = self.days * self.a_day
        number, day = np.arange(1, count + 1), np.repeat(np.arange(self.days), self.a_day)
        place = np.tile(np.arange(1, self.a_day + 1), self.days)
        value = self._at(number) * np.exp(
            self.moods * mood[day] + self.spread * chance.standard_normal(count) + self.worse * day
        )
        value[place <= 5] *= WARMING
        return Course(number, 730_000 + self.every * day, place, value)

    def over(self, back: int) -> float:
        """What the medians of the newest days are worth, in points."""
        days = np.arange(self.days - 1 - back // self.every, self.days, dtype=np.float64)
        middles = self._at((days + 0.5) * self.a_day + 2.5) * np.exp(self.worse * days)
        return float(np.mean(middles)) * self.scale(self.a_day - 5)

    def scale(self, count: int) -> float:
        """What medians of so many, averaged over days, are to the curve."""
        return _of_medians(self.spread, count) * float(np.exp(self.moods**2 / 2))


@cache
def _of_medians(spread: float, count: int) -> float:
    rows = np.random.default_rng(5).standard_normal((100_000, count))
    return float(np.exp(spread * np.median(rows, axis=1)).mean())
