"""A measure over repetitions for a chart: median and middle half of a handful each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from engine.practice.course import Course
from engine.progress.day_bins import is_in_trend

MOST = 40
"""count of handfuls at most, so that each can be told from the next."""
LEAST = 5
"""count of repetitions in a handful, where there are as many."""


@dataclass(frozen=True)
class Handful:
    """Some repetitions of a kind one after another."""

    first: int
    """From 1, the place of the first of them among those of the kind."""
    last: int
    """The place of the last of them."""
    count: int
    """count of those that enter a trend."""
    low: float
    """Lower quartile, in the unit of the measure."""
    middle: float
    """Median, in the unit of the measure."""
    high: float
    """Upper quartile, in the unit of the measure."""


def handfuls(course: Course, changes: Sequence[int]) -> Iterator[Handful]:
    """What enters a trend, a handful at a time; none reaches over a change.

    `changes` are counts of repetitions of the kind, each before a change.
    """
    entering = np.flatnonzero(is_in_trend(course))
    size = max(-(-entering.size // MOST), LEAST)
    for part in np.split(entering, np.searchsorted(entering, sorted(set(changes)))):
        for some in np.array_split(part, max(part.size // size, 1)):
            if some.size:
                low, middle, high = np.percentile(course.value[some], (25, 50, 75)).tolist()
                yield Handful(int(some[0]) + 1, int(some[-1]) + 1, some.size, low, middle, high)
