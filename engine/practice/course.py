"""What a measure was, repetition by repetition: columns, as ten years of them are many."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]

LEFT_OUT = 5
"""Repetitions at the start of a day, of every kind, that enter no trend, as a count."""


@dataclass(frozen=True, eq=False)
class Course:
    """One measure over the repetitions of one kind that count, oldest first; no trial's."""

    number: Ints
    """Number of each in the history, shape (n,), rising."""
    day: Ints
    """Local day of each as a proleptic ordinal, shape (n,)."""
    place: Ints
    """From 1, which one of its day it was among those of every kind that count, shape (n,)."""
    value: NDArray[np.float64]
    """What it was, in the unit of the measure, shape (n,); nan where it has none."""

    def __len__(self) -> int:
        return int(self.number.size)
