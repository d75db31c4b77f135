"""Flow that records a drive in the game: shows the screens, writes the file, stores the result."""

from __future__ import annotations

from contextlib import suppress
from datetime import datetime
from pathlib import Path

from drills.recording import RecordingError
from drills.trace import SECOND, Pedal, Sample
from engine.drill.attempt import Now
from engine.kit.flow import show
from engine.pedals.rig import Rig
from engine.road.compared import compare
from engine.road.drive import recorded
from engine.road.journal import Journal, JournalError
from engine.road.recorder import DriveRecorder
from engine.road.recording_screen import Ended, RecordingDrive
from engine.road.saved import all_drives, keep_drive
from engine.road.screens import BeforeDrive, NotRecorded, Road, RoadShown
from engine.road.words import TOO_SHORT
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History

FOLDER = "drives"
"""Name of the folder of recordings inside the data folder."""


def record_drive(rig: Rig, stage: Stage, history: History, now: Now) -> Flow[None]:
    """Record a drive, store it and show its result; closing the window stores it too.

    Raises StoreError.
    """
    earlier = all_drives(history)
    if not (yield from show(BeforeDrive(earlier), rig, stage)):
        return
    path = history.path.parent / FOLDER / f"{now():%Y-%m-%d %H.%M.%S}.csv"
    recorder = DriveRecorder(clutch=Pedal.CLUTCH in rig.there, date=lambda: _nanoseconds(now()))
    with suppress(OSError):
        path.parent.mkdir(exist_ok=True)
    try:
        journal = Journal(path, recorder.header)
    except JournalError as error:
        yield from show(NotRecorded(str(error)), rig, stage)
        return
    trouble: tuple[str, ...] = ()
    road: Road | None = None
    try:
        with journal:
            yield from _driving(recorder, journal, path.name, rig, stage)
    except JournalError as error:
        trouble = (str(error),)
    finally:
        road = _measured(path, history, now(), trouble)
    screen = NotRecorded(*(trouble or (TOO_SHORT,))) if road is None else RoadShown(road, earlier)
    yield from show(screen, rig, stage)


def _driving(
    recorder: DriveRecorder, journal: Journal, file: str, rig: Rig, stage: Stage
) -> Flow[None]:
    """Record pedal samples to a file until the recording screen ends. Raises JournalError."""
    failed: list[JournalError] = []

    def write(sample: Sample | None, at: int) -> bool:
        if failed:
            return False
        try:
            journal.add(recorder.take(sample, at), at, busy=recorder.is_braking)
        except JournalError as error:
            failed.append(error)
        return not failed

    try:
        ended = yield from show(RecordingDrive(recorder, write, file), rig, stage)
    finally:
        if not failed:
            journal.add(recorder.end(), rig.clock(), busy=False)
    if ended is Ended.BROKEN:
        raise failed[0]


def _measured(path: Path, history: History, at: datetime, trouble: tuple[str, ...]) -> Road | None:
    """Measure a recording and store it if it has blips; None if it is too short."""
    try:
        recording = recorded(path.read_bytes(), at=at, name=path.name)
    except (OSError, RecordingError):
        return None
    if recording.drive.blips:
        keep_drive(history, recording.drive)
    warnings = (*trouble, *recording.warnings)
    beside, waits = compare(history, recording.drive)
    return Road(recording.drive, beside, warnings, waits)


def _nanoseconds(at: datetime) -> int:
    return round(at.timestamp() * SECOND)
