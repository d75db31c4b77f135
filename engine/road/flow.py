"""Flow that records a drive in the game: shows the screens, writes the file, stores the result."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from datetime import datetime
from pathlib import Path

from drills.recording import RecordingError
from drills.trace import SECOND, Pedal, Sample
from engine.drill.attempt import Now
from engine.kit.flow import show
from engine.pedals.rig import Rig
from engine.road.before_screens import BeforeDrive, EarlierDrives, NotRecorded, Start
from engine.road.drive import Drive, recorded
from engine.road.journal import Journal, JournalError
from engine.road.recorder import DriveRecorder
from engine.road.recording_screen import Ended, RecordingDrive
from engine.road.reopened import reopened, road_of
from engine.road.saved import keep_drive, rig_drives
from engine.road.screens import Look, Road, RoadInWords, RoadShown
from engine.road.words import TOO_SHORT
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History

FOLDER = "drives"
"""Name of the folder of recordings inside the data folder."""


def record_drive(rig: Rig, stage: Stage, history: History, now: Now) -> Flow[None]:
    """Record a drive, store it and show its result; closing the window stores it too.

    Earlier drives are shown before, where the player asks for them. Raises StoreError.
    """
    earlier = rig_drives(history)
    while (start := (yield from show(BeforeDrive(earlier), rig, stage))) is Start.EARLIER:
        chosen = yield from show(EarlierDrives(earlier), rig, stage)
        if isinstance(chosen, Drive):
            road = reopened(history, chosen, history.path.parent / FOLDER)
            before = earlier[: earlier.index(chosen)]
            yield from _show_road(road, before, rig, stage)
    if start is Start.BEGIN:
        yield from _record(earlier, rig, stage, history, now)


def _record(
    earlier: Sequence[Drive], rig: Rig, stage: Stage, history: History, now: Now
) -> Flow[None]:
    """Record a drive, store it and show its result, after the `earlier` drives."""
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
    if road is None:
        yield from show(NotRecorded(*(trouble or (TOO_SHORT,))), rig, stage)
    else:
        yield from _show_road(road, earlier, rig, stage)


def _show_road(road: Road, earlier: Sequence[Drive], rig: Rig, stage: Stage) -> Flow[None]:
    """Show the result of a drive, and its words where the player asks for them."""
    while (yield from show(RoadShown(road), rig, stage)) is Look.WORDS:
        yield from show(RoadInWords(road, earlier), rig, stage)


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
    road = road_of(history, recording)
    return replace(road, warnings=(*trouble, *road.warnings))


def _nanoseconds(at: datetime) -> int:
    return round(at.timestamp() * SECOND)
