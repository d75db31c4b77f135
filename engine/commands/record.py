"""The command `stillfoot record`: records the pedals into a file while the player drives."""

from __future__ import annotations

import argparse
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from drills.recording import RecordingError
from drills.refusal import Refusal
from drills.trace import Sample
from engine.commands.data import all_levels, read_data
from engine.commands.drive_report import drive_text, store_drive
from engine.commands.options import data_folder, local_now, path_of
from engine.commands.score_recording import read
from engine.commands.stopping import Stopping
from engine.console import say, warn
from engine.pedals.identity import Missing
from engine.road.drive import recorded
from engine.road.journal import Journal
from engine.road.words import CAUTION, TOO_SHORT
from engine.store.opening import is_new

if TYPE_CHECKING:
    from engine.pedals.rig import Rig
    from engine.road.recorder import DriveRecorder
    from engine.setup.rigs import NamedRig

BEGUN = f"Recording until Ctrl-C, or until no pedal moves for five minutes. {CAUTION}"
AWAY = "the pedals are gone: recording goes on when they are back"
BACK = "the pedals are back"
TROUBLES = {
    Missing.ABSENT: "them missing",
    Missing.AMBIGUOUS: "several alike: start stillfoot, and it asks which is which",
}
"""What an error says was found, by what is wrong with the pedals that were set up."""


class RecordError(Refusal):
    """The pedals cannot be recorded; the text is one line for the user."""


def add_record(parser: argparse.ArgumentParser) -> None:
    """Add the options of `record` to a parser."""
    parser.add_argument(
        "file", metavar="FILE", type=path_of("a file"), help="new file for the recording, as CSV"
    )


def run_record(options: argparse.Namespace) -> int:
    """Record the pedals until the player stops; return the exit code. Raises Refusal."""
    folder = data_folder(options)
    rigs = rigs_set_up(folder)
    from engine.pedals.rig import Rig
    from engine.pedals.sdl import Devices
    from engine.road.recorder import DriveRecorder
    from engine.stage.polling import joysticks_without_window, poll_without_window

    with Stopping() as stopping, joysticks_without_window():
        rig = Rig(time.perf_counter_ns, Devices(choosing=False))
        saved = bind_pedals(rig, rigs)
        recorder = DriveRecorder(clutch=saved.binding.clutch is not None, date=time.time_ns)
        with Journal(options.file, recorder.header) as journal:
            say(f"{BEGUN}\n")
            look = looking(recorder, journal, warn)
            poll_without_window(rig, look, recorder.cut, lambda: stopping.asked or recorder.is_idle)
            journal.add(recorder.end(), rig.clock(), busy=False)
    return _score(options.file, folder, saved.number)


def looking(
    recorder: DriveRecorder, journal: Journal, tell: Callable[[str], None]
) -> Callable[[Sample | None, int], None]:
    """Function that records each sample, and tells when the pedals go and when they are back."""
    away = False

    def look(sample: Sample | None, now: int) -> None:
        nonlocal away
        if (sample is None) is not away:
            away = sample is None
            tell(AWAY if away else BACK)
        journal.add(recorder.take(sample, now), now, busy=recorder.is_braking)

    return look


def _score(path: Path, folder: Path, number: int) -> int:
    """Measure and store the drive in a recording, and print its figures; return the exit code.

    `number` is that of the rig it was recorded with.
    """
    raw = read(str(path))
    try:
        found = recorded(raw, at=local_now(), name=path.name)
    except RecordingError:
        say(f"{TOO_SHORT}\n")
        return 0
    drills, waits = store_drive(folder, found.drive, number)
    for warning in found.warnings:
        warn(warning)
    say(f"{drive_text(found.drive, drills, waits)}\n")
    return 0


def rigs_set_up(folder: Path) -> list[NamedRig]:
    """Rigs that were set up, the one played with last first.

    Raises RecordError if there is none, StoreError.
    """
    from engine.setup.saved_rigs import saved_rigs

    known = not is_new(folder)
    rigs = read_data(folder, all_levels(folder), saved_rigs) if known else []
    if not rigs:
        raise RecordError(
            f"{folder}: expected pedals that were set up, found none: start stillfoot and set "
            "them up first"
        )
    return rigs


def bind_pedals(rig: Rig, rigs: Sequence[NamedRig]) -> NamedRig:
    """Bind the pedals of the first rig that is plugged in, of those set up; returns that rig.

    Raises RecordError where none of them is. No other device is opened, as a simulator may be
    running that drives a wheel's motor.
    """
    from engine.setup.rigs import fitting

    saved = (fitting(rigs, rig) or rigs)[0]
    trouble = rig.bind(saved.binding, saved.number)
    if trouble is not None:
        from engine.setup.unopened import unopened_note

        names = dict.fromkeys(pedal.device.name for pedal in saved.binding.pedals)
        note = unopened_note(rig)
        raise RecordError(
            f"pedals: expected {' and '.join(names)} to be plugged in, found {TROUBLES[trouble]}"
            + (f"; {note}" if note else "")
        )
    return saved
