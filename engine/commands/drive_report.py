"""Storage and description of a drive, for `stillfoot record` and `stillfoot score --keep`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Any

from engine.commands.data import change_data
from engine.practice.remeasuring import Remeasuring
from engine.road.compared import compare
from engine.road.drive import Drive
from engine.road.saved import keep_drive
from engine.road.summary import summary_of
from engine.road.summary_words import summary_words
from engine.road.transfer import DrillComparison
from engine.road.words import NOTHING_TO_KEEP, short_words, transfer_words
from engine.store import History

KEPT = "Saved with your history."


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
    summary = summary_of(drive.blips)
    return {
        "kept": bool(drive.blips),
        "name": drive.name,
        "digest": drive.digest,
        "seconds": drive.seconds,
        "blips": len(drive.blips),
        "scored": len(drive.dips),
        "dip": drive.dip,
        "worst": summary.worst,
        "carry": summary.carry,
        "early": summary.early,
        "noise": drive.noise,
        "places": [asdict(place) for place in summary.places],
        "drills": [asdict(comparison) for comparison in found],
        "drills_missing": None if waits is None else waits.words,
    }


def drive_text(
    drive: Drive, found: Sequence[DrillComparison], waits: Remeasuring | None = None
) -> str:
    """A drive and its comparison with drills, as text; `waits`: these are being remeasured."""
    lines = summary_words(summary_of(drive.blips), drive.seconds) if drive.blips else []
    return "\n".join([*lines, kept_text(drive, found, waits)])


def kept_text(
    drive: Drive, found: Sequence[DrillComparison], waits: Remeasuring | None = None
) -> str:
    """The comparison of a drive with drills, and that it was stored, as text."""
    if not drive.blips:
        return NOTHING_TO_KEEP
    short = f"{short_words(drive, found)}."
    return "\n".join([short, *transfer_words(drive, found, waits), KEPT])
