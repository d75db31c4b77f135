"""Drives read from recordings: their blips, each measured against its chord as when easing off."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from statistics import median

from drills.measures.chord import ChordDisturbance, ChordRun, Unscorable
from drills.measures.runs import measure_recording, without_gaps
from drills.recording import Format, read_recording
from drills.trace import SECOND, Trace


@dataclass(frozen=True)
class RoadBlip:
    """One blip of a drive."""

    run: int
    """Number of its run in the drive, from 1."""
    place: int
    """Number of the blip in its run, from 1."""
    onset: float
    """When it began, in s on the time axis of the recording."""
    peak: float
    """Highest throttle, in %."""
    dip: float | None = None
    """How far the brake fell below its chord, in points; None where it is not scored."""
    surge: float | None = None
    """How far the brake rose above its chord, in points; None where it is not scored."""
    carry: float | None = None
    """Change of the chord over the blip, taken as intended, in points; None where not scored."""
    reason: str = ""
    """Reason why it is not scored; empty where it is."""


@dataclass(frozen=True)
class Drive:
    """One recorded drive in a simulated car."""

    at: datetime
    """When it was recorded, with the local offset from UTC."""
    name: str
    """Name of the recording's file, without the folder."""
    digest: str
    """SHA-256 of the recording in hexadecimal digits, so that it is stored only once."""
    seconds: float
    """Length of the recording, in s."""
    blips: tuple[RoadBlip, ...] = ()
    """All its blips, in order."""

    @property
    def dips(self) -> tuple[float, ...]:
        """Dips of the scored blips in points, in order."""
        return tuple(blip.dip for blip in self.blips if blip.dip is not None)

    @property
    def dip(self) -> float | None:
        """Median dip in points; None where no blip is scored."""
        return median(self.dips) if self.dips else None


@dataclass(frozen=True)
class BlipsAtPlace:
    """Scored blips with the same place in their runs."""

    place: int
    """Place in the run, from 1."""
    dips: tuple[float, ...]
    """Dips in points, in order."""

    @property
    def dip(self) -> float:
        """Median dip in points."""
        return median(self.dips)


@dataclass(frozen=True)
class Recorded:
    """A drive with the warnings of its recording."""

    drive: Drive
    """The drive."""
    warnings: tuple[str, ...]
    """Reasons why its measures are less certain, a line each."""


def recorded(raw: bytes, *, at: datetime, name: str) -> Recorded:
    """Read the drive from the bytes of a recording. Raises RecordingError."""
    recording = read_recording(raw.decode(), Format())
    trace = recording.trace
    runs = without_gaps(trace, measure_recording(trace))
    return Recorded(drive_of(runs, trace, at=at, name=name, raw=raw), recording.warnings)


def drive_of(
    runs: Sequence[ChordRun | Unscorable], trace: Trace, *, at: datetime, name: str, raw: bytes
) -> Drive:
    """The drive made of the runs of a recording; `raw` is the content of its file."""
    blips = [
        _blip(number, place, pulse.onset, pulse.peak, done)
        for number, run in enumerate(runs, start=1)
        for place, (pulse, done) in enumerate(run.blips, start=1)
    ]
    seconds = int(trace.time[-1] - trace.time[0]) / SECOND
    return Drive(at, name, sha256(raw).hexdigest(), seconds, tuple(blips))


def by_place(drive: Drive) -> list[BlipsAtPlace]:
    """Scored blips grouped by their place in the run, the first place first."""
    dips: dict[int, list[float]] = {}
    for blip in drive.blips:
        if blip.dip is not None:
            dips.setdefault(blip.place, []).append(blip.dip)
    return [BlipsAtPlace(place, tuple(dips[place])) for place in sorted(dips)]


def _blip(run: int, place: int, onset: float, peak: float, done: object) -> RoadBlip:
    if isinstance(done, ChordDisturbance):
        return RoadBlip(run, place, onset, peak, done.dip, done.surge, done.carry)
    return RoadBlip(run, place, onset, peak, reason=str(done))
