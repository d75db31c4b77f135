"""Drives read from recordings of the pedals, with their blips.

Each blip is measured against its chord, the straight line through the brake before and after it, as
in the drill of easing off.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from statistics import median

from drills.measures.chord import ChordRun, Unscorable
from drills.measures.definition import DEFINITION
from drills.measures.long_blips import long_blips_warning
from drills.measures.noise import brake_noise, noise_warning
from drills.measures.runs import floor_warning, measure_recording, throttle_floor, without_gaps
from drills.recording import Format, read_recording
from drills.text import decoded
from drills.trace import SECOND, Trace
from engine.road.blips import RoadBlip, chord_blips, untimed_warning


@dataclass(frozen=True)
class Drive:
    """One recorded drive in a simulated car."""

    at: datetime
    """Local date and time at which it was recorded, with the offset from UTC."""
    name: str
    """Name of the recording's file, without the folder."""
    digest: str
    """SHA-256 of the recording in hexadecimal digits: no recording is stored twice."""
    seconds: float
    """Length of the recording, in s."""
    blips: tuple[RoadBlip, ...] = ()
    """All blips of the drive, scored or not, in order of time."""
    definition: int = DEFINITION
    """Version of the definitions that its blips were measured by."""
    noise: float | None = None
    """Noise of the brake in the recording, in points; None if it is not known."""
    rig: int | None = None
    """Number of the rig that it was driven with; None if that is not known."""

    @property
    def is_current(self) -> bool:
        """Whether its blips were measured as they would be now, so that it can be compared."""
        return self.definition == DEFINITION

    @property
    def dips(self) -> tuple[float, ...]:
        """Dips of the scored blips in points, in order of time."""
        return tuple(blip.dip for blip in self.blips if blip.dip is not None)

    @property
    def dip(self) -> float | None:
        """Median dip of the scored blips, in points; None if no blip is scored."""
        return median(self.dips) if self.dips else None


@dataclass(frozen=True)
class Recorded:
    """A drive read from a recording, with the warnings about that recording."""

    drive: Drive
    """Drive that the recording holds."""
    warnings: tuple[str, ...]
    """Reasons why the measures of the drive are less certain, a line each."""
    trace: Trace
    """What the pedals reported during the drive."""
    runs: Sequence[ChordRun | Unscorable]
    """Runs of blips of the drive, each blip against its chord."""


def recorded(raw: bytes, *, at: datetime, name: str) -> Recorded:
    """Drive read from the bytes of a recording by stillfoot, from 0 to 100 %, with warnings.

    Raises RecordingError, TextError.
    """
    recording = read_recording(decoded(raw), Format(full=100.0))
    trace = recording.trace
    floor = throttle_floor(trace)
    runs = without_gaps(trace, measure_recording(trace, floor=floor))
    drive = drive_of(runs, trace, at=at, name=name, raw=raw, floor=floor)
    warnings = (
        noise_warning(drive.noise),
        *recording.warnings,
        floor_warning(floor),
        long_blips_warning([pulse for run in runs for pulse, _ in run.blips]),
        untimed_warning(runs),
    )
    told = tuple(warning for warning in warnings if warning is not None)
    return Recorded(drive, told, trace, runs)


def drive_of(
    runs: Sequence[ChordRun | Unscorable],
    trace: Trace,
    *,
    at: datetime,
    name: str,
    raw: bytes,
    floor: float,
) -> Drive:
    """Drive made of the runs of blips in a recording.

    `raw` is the content of its file, `floor` the throttle at rest in %.
    """
    seconds = int(trace.time[-1] - trace.time[0]) / SECOND
    digest, noise = sha256(raw).hexdigest(), brake_noise(trace, floor)
    return Drive(at, name, digest, seconds, chord_blips(runs), noise=noise)
