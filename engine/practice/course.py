"""One measure over all repetitions of a kind, in columns: ten years of them are many."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]

LEFT_OUT = 5
"""Repetitions, of every kind together, at the start of a day that enter no trend, as a count."""


@dataclass(frozen=True, eq=False)
class Course:
    """One measure over the repetitions of one kind that count, oldest first; without trials."""

    number: Ints
    """Number of each repetition in the history, shape (n,), rising."""
    day: Ints
    """Local day of each as a proleptic ordinal, shape (n,)."""
    place: Ints
    """Position of each, from 1, among all repetitions of its day that count, shape (n,)."""
    value: NDArray[np.float64]
    """The measure, in its own unit, shape (n,); nan where a repetition has none."""

    def __len__(self) -> int:
        return int(self.number.size)
