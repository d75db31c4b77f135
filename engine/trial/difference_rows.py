"""Rows of the picture of a trial's difference, and its scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from engine.kit.charts import top_of
from engine.trial.difference import Difference
from engine.trial.outcome import NOTICEABLE

PARTS = 4
"""Largest number of steps of the picture's scale to either side of 0."""
LEAST = 2 * NOTICEABLE
"""Smallest reach of the picture's scale to either side of 0, in points: twice what is noticed."""


@dataclass(frozen=True)
class DifferenceRow:
    """One comparison drawn as an interval with a dot: how much steadier B is than A, in points.

    A negative number is by how much A is the steadier one.
    """

    label: str
    """What is compared, in a few words."""
    value: float
    """Difference that was found, in points."""
    low: float
    """Low end of its 95 % interval, in points."""
    high: float
    """High end of its 95 % interval, in points."""


def rows_of(*compared: tuple[str, Difference]) -> tuple[DifferenceRow, ...]:
    """Rows for some comparisons with their names; without those that have no interval."""
    return tuple(
        # Steadier is the arm with less: B by as much as B minus A is below 0.
        DifferenceRow(label, -one.value, -one.high, -one.low)
        for label, one in compared
        if one.value is not None and one.low is not None and one.high is not None
    )


def reach_of(rows: Sequence[DifferenceRow]) -> float:
    """Reach of the picture's scale to either side of 0, in points: all intervals are inside."""
    return top_of(max(LEAST, *(max(abs(row.low), abs(row.high)) for row in rows)), PARTS)
