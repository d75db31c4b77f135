"""What `stillfoot record` and `stillfoot score --keep` do with a drive: keep it, and tell of it."""

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
from engine.store.courses import courses_of

KEPT = "Kept with your history."


def keep(folder: Path, drive: Drive) -> tuple[DrillComparison, ...]:
    """Keep a drive that has blips; what it is beside the drills of the last weeks.

    Raises StoreError, also where it is kept already.
    """
    with open_data(folder) as history:
        if drive.blips:
            keep_drive(history, drive)
        return comparisons(drive, courses_of(history, DRILLED))


def drive_as_data(drive: Drive, found: Sequence[DrillComparison]) -> dict[str, Any]:
    """A drive with its figures by name."""
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
            {"place": one.place, "count": len(one.dips), "dip": one.dip} for one in by_place(drive)
        ],
        "drills": [asdict(one) for one in found],
    }


def drive_as_text(drive: Drive, found: Sequence[DrillComparison]) -> str:
    """The same for a person to read."""
    if not drive.blips:
        return NO_BLIPS
    return "\n".join([*drive_words(drive, by_place(drive), found), KEPT])
