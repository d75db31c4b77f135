"""Storage and description of a drive, for `stillfoot record` and `stillfoot score --keep`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any

from engine.commands.data import change_data
from engine.practice.remeasuring import Remeasuring
from engine.road.compared import compare
from engine.road.drive import Drive, by_place
from engine.road.saved import keep_drive
from engine.road.transfer import DrillComparison
from engine.road.words import NO_BLIPS, drive_words
from engine.store import History

KEPT = "Kept with your history."


def store_drive(
    folder: Path, drive: Drive, rig: int | None = None
) -> tuple[tuple[DrillComparison, ...], Remeasuring | None]:
    """Store a drive with blips in the history, and compare it with the drills of the last weeks.

    `rig` is the number of the rig it was recorded with, whose drills it is compared with; None for
    that played with last. Returns the comparisons, or how far the drills are remeasured, which
    these wait for.
    Raises StoreError, also if the drive is stored already.
    """

    def compared(history: History) -> tuple[tuple[DrillComparison, ...], Remeasuring | None]:
        if rig is not None:
            from engine.setup.saved_rigs import use_rig

            use_rig(history, rig)
        return compare(history, drive)

    found = change_data(folder, compared)
    if drive.blips:
        # Last and by itself: whatever fails before, the drive can be stored anew.
        change_data(folder, lambda history: keep_drive(history, drive))
    return found


def drive_data(
    drive: Drive, found: Sequence[DrillComparison], waits: Remeasuring | None = None
) -> dict[str, Any]:
    """A drive and its comparison with drills, ready for JSON; `waits`: these are being remeasured.

    "drills_missing" says then, in a line, why it is compared with none.
    """
    return {
        "kept": bool(drive.blips),
        "name": drive.name,
        "digest": drive.digest,
        "seconds": drive.seconds,
        "blips": len(drive.blips),
        "scored": len(drive.dips),
        "dip": drive.dip,
        "worst": max(drive.dips, default=None),
        "carry": drive.carry,
        "early": sum(blip.is_early for blip in drive.blips),
        "places": [
            {"place": place.place, "count": len(place.dips), "dip": place.dip}
            for place in by_place(drive)
        ],
        "drills": [asdict(comparison) for comparison in found],
        "drills_missing": None if waits is None else waits.words,
    }


def drive_text(
    drive: Drive, found: Sequence[DrillComparison], waits: Remeasuring | None = None
) -> str:
    """A drive and its comparison with drills, as text; `waits`: these are being remeasured."""
    if not drive.blips:
        return NO_BLIPS
    return "\n".join([*drive_words(drive, by_place(drive), found, waits), KEPT])
