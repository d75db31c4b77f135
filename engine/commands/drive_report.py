"""Storage and description of a drive, for `stillfoot record` and `stillfoot score --keep`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any

from engine.commands.data import open_data
from engine.road.drive import Drive, by_place
from engine.road.saved import keep_drive
from engine.road.transfer import DRILLED, DrillComparison, comparisons
from engine.road.words import NO_BLIPS, drive_words
from engine.store.changes import scale_start
from engine.store.courses import courses_of

KEPT = "Kept with your history."


def store_drive(folder: Path, drive: Drive) -> tuple[DrillComparison, ...]:
    """Store a drive with blips in the history, and compare it with the drills of the last weeks.

    Raises StoreError, also if the drive is stored already.
    """
    with open_data(folder) as history:
        if drive.blips:
            keep_drive(history, drive)
        return comparisons(drive, courses_of(history, DRILLED, scale_start(history)))


def drive_data(drive: Drive, found: Sequence[DrillComparison]) -> dict[str, Any]:
    """A drive and its comparison with drills, ready for JSON."""
    return {
        "kept": bool(drive.blips),
        "name": drive.name,
        "digest": drive.digest,
        "seconds": drive.seconds,
        "blips": len(drive.blips),
        "scored": len(drive.dips),
        "dip": drive.dip,
        "worst": max(drive.dips, default=None),
        "places": [
            {"place": place.place, "count": len(place.dips), "dip": place.dip}
            for place in by_place(drive)
        ],
        "drills": [asdict(comparison) for comparison in found],
    }


def drive_text(drive: Drive, found: Sequence[DrillComparison]) -> str:
    """A drive and its comparison with drills, as text."""
    if not drive.blips:
        return NO_BLIPS
    return "\n".join([*drive_words(drive, by_place(drive), found), KEPT])
