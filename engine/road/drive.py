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

from drills.measures.chord import ChordDisturbance, ChordRun, Unscorable
from drills.measures.definition import DEFINITION
from drills.measures.early import EARLY_LEAST
from drills.measures.runs import floor_warning, measure_recording, throttle_floor, without_gaps
from drills.recording import Format, read_recording
from drills.text import decoded
from drills.trace import SECOND, Trace


@dataclass(frozen=True)
class RoadBlip:
    """One blip of a recorded drive."""

    run: int
    """Number of the run of blips that it is part of, from 1."""
    place: int
    """Number of the blip within its run, from 1."""
    onset: float
    """Time at which the blip began, in s on the time axis of the recording."""
    peak: float
    """Highest throttle of the blip, in %."""
    dip: float | None = None
    """How far the brake fell below its chord, in points; None if the blip is not scored."""
    surge: float | None = None
    """How far the brake rose above its chord, in points; None if the blip is not scored."""
    carry: float | None = None
    """Change of the chord over the blip, taken as intended, in points; None if not scored."""
    early: float | None = None
    """Brake that was gone before the throttle moved, in points; None if that is not known."""
    reason: str = ""
    """Reason why the blip is not scored; empty if it is scored."""

    @property
    def is_early(self) -> bool:
        """Whether the brake left before the throttle, so that the dip is told from before that."""
        return self.early is not None and self.early > EARLY_LEAST


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

    @property
    def carry(self) -> float | None:
        """Median change of the brake that is taken as meant, in points; None if none is scored."""
        carries = [blip.carry for blip in self.blips if blip.carry is not None]
        return median(carries) if carries else None


@dataclass(frozen=True)
class BlipsAtPlace:
    """Scored blips of a drive that have the same place in their runs, such as all second ones."""

    place: int
    """Number of the blips within their runs, from 1."""
    dips: tuple[float, ...]
    """Dips of these blips in points, in order of time."""

    @property
    def dip(self) -> float:
        """Median dip of these blips, in points."""
        return median(self.dips)


@dataclass(frozen=True)
class Recorded:
    """A drive read from a recording, with the warnings about that recording."""

    drive: Drive
    """Drive that the recording holds."""
    warnings: tuple[str, ...]
    """Reasons why the measures of the drive are less certain, a line each."""


def recorded(raw: bytes, *, at: datetime, name: str) -> Recorded:
    """Drive read from the bytes of a recording by stillfoot, from 0 to 100 %, with warnings.

    Raises RecordingError, TextError.
    """
    recording = read_recording(decoded(raw), Format(full=100.0))
    trace = recording.trace
    floor = throttle_floor(trace)
    runs = without_gaps(trace, measure_recording(trace, floor=floor))
    warning = floor_warning(floor)
    warnings = recording.warnings if warning is None else (*recording.warnings, warning)
    return Recorded(drive_of(runs, trace, at=at, name=name, raw=raw), warnings)


def drive_of(
    runs: Sequence[ChordRun | Unscorable], trace: Trace, *, at: datetime, name: str, raw: bytes
) -> Drive:
    """Drive made of the runs of blips in a recording; `raw` is the content of its file."""
    blips = [
        _blip(number, place, pulse.onset, pulse.peak, done)
        for number, run in enumerate(runs, start=1)
        for place, (pulse, done) in enumerate(run.blips, start=1)
    ]
    seconds = int(trace.time[-1] - trace.time[0]) / SECOND
    return Drive(at, name, sha256(raw).hexdigest(), seconds, tuple(blips))


def by_place(drive: Drive) -> list[BlipsAtPlace]:
    """Scored blips of a drive grouped by their place in the run, the first place first."""
    dips: dict[int, list[float]] = {}
    for blip in drive.blips:
        if blip.dip is not None:
            dips.setdefault(blip.place, []).append(blip.dip)
    return [BlipsAtPlace(place, tuple(dips[place])) for place in sorted(dips)]


def _blip(run: int, place: int, onset: float, peak: float, done: object) -> RoadBlip:
    if isinstance(done, ChordDisturbance):
        return RoadBlip(run, place, onset, peak, done.dip, done.surge, done.carry, done.early)
    return RoadBlip(run, place, onset, peak, reason=str(done))
