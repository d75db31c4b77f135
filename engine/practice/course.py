"""One measure over all repetitions of a kind of drill, as columns that hold ten years of them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]

LEFT_OUT = 5
"""Repetitions at the start of a day, of all kinds together, left out of trends, as a count."""


@dataclass(frozen=True, eq=False)
class Course:
    """One measure over all repetitions of a kind of drill that count, oldest first; no trials."""

    number: Ints
    """Number of each repetition in the history, shape (n,), rising."""
    day: Ints
    """Local day of each repetition as a proleptic ordinal, shape (n,)."""
    place: Ints
    """Position of each repetition in its day, from 1, among all that count, shape (n,)."""
    value: NDArray[np.float64]
    """Value of the measure, in its own unit, shape (n,); nan if a repetition has none."""
    level: Ints
    """Level of each repetition as a number from 0, shape (n,): the same number, the same level."""

    def __len__(self) -> int:
        return int(self.number.size)

    def between(self, after: int, last: int) -> Course:
        """The part of the course that is numbered above `after`, up to `last`."""
        part = (self.number > after) & (self.number <= last)
        return self.only(part)

    def only(self, part: NDArray[np.bool_] | Ints) -> Course:
        """The repetitions that a mask or indices pick, in the order of the indices."""
        return Course(
            self.number[part], self.day[part], self.place[part], self.value[part], self.level[part]
        )
