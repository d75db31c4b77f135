"""`compare`: comparison of a drive with the drills in the history."""

from __future__ import annotations

from engine.practice.remeasuring import Remeasuring
from engine.road.drive import Drive
from engine.road.transfer import DRILLED, DrillComparison, comparisons
from engine.store import History
from engine.store.changes import scale_start
from engine.store.courses import courses_of
from engine.store.remeasure import remeasuring


def compare(
    history: History, drive: Drive
) -> tuple[tuple[DrillComparison, ...], Remeasuring | None]:
    """Comparisons of a drive with the drills, or how far these are remeasured. Raises StoreError.

    While they are being remeasured there are no comparisons.
    """
    waits = remeasuring(history)
    if waits:
        return (), waits
    courses = courses_of(history, DRILLED, scale_start(history))
    return comparisons(drive, courses), None
