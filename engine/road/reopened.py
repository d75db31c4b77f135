"""Results of drives to be shown: of one that was just recorded, and of one in the history."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path

from drills.recording import RecordingError
from drills.text import TextError
from engine.road.compared import compare
from engine.road.curves import chord_curves, drill_curve
from engine.road.drive import Drive, Recorded, recorded
from engine.road.screen_words import GONE
from engine.road.screens import Road
from engine.store import History


def road_of(history: History, recording: Recorded) -> Road:
    """Result of a drive whose recording is at hand. Raises StoreError."""
    beside, waits = compare(history, recording.drive)
    curves = tuple(chord_curves(recording.trace, recording.runs))
    drill = drill_curve(history, recording.drive.at.date())
    return Road(recording.drive, beside, recording.warnings, waits, curves, drill)


def reopened(history: History, drive: Drive, folder: Path) -> Road:
    """Result of a drive in the history; its curves come from its recording in a folder.

    Without that there are no curves, and a warning says so. Raises StoreError.
    """
    recording = _recording(drive, folder / drive.name)
    if recording is not None:
        return road_of(history, recording)
    beside, waits = compare(history, drive)
    return Road(drive, beside, (GONE,), waits)


def _recording(drive: Drive, path: Path) -> Recorded | None:
    """The recording of a drive in a file; None if the file is gone or is another one."""
    try:
        raw = path.read_bytes()
        if sha256(raw).hexdigest() != drive.digest:
            return None
        return recorded(raw, at=drive.at, name=drive.name)
    except (OSError, RecordingError, TextError, ValueError):
        return None
