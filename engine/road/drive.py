"""A drive that was recorded: its blips, each held against its chord as a drill's easing off is."""

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
    """From 1, which run of the drive it is of."""
    place: int
    """From 1, which one of its run it is."""
    onset: float
    """s, when it began, on the time axis of the recording."""
    peak: float
    """%, most throttle."""
    dip: float | None = None
    """points, how far the brake fell under its chord; None where it is not scored."""
    surge: float | None = None
    """points, how far it rose over its chord; None where it is not scored."""
    carry: float | None = None
    """points, the change that the chord takes for intention; None where it is not scored."""
    reason: str = ""
    """Why it is not scored; empty where it is."""


@dataclass(frozen=True)
class Drive:
    """One recorded drive in a simulated car."""

    at: datetime
    """When it was kept, with the local offset from UTC."""
    name: str
    """Name of its file, without the folder."""
    digest: str
    """SHA-256 of the recording in hexadecimal digits: the same one is kept once."""
    seconds: float
    """s, how long it is."""
    blips: tuple[RoadBlip, ...] = ()
    """Every one, in order."""

    @property
    def dips(self) -> tuple[float, ...]:
        """points, the dip of every blip that is scored, in order."""
        return tuple(blip.dip for blip in self.blips if blip.dip is not None)

    @property
    def dip(self) -> float | None:
        """points, the median dip; None where no blip is scored."""
        return median(self.dips) if self.dips else None


@dataclass(frozen=True)
class BlipsAtPlace:
    """The blips at one place of their runs."""

    place: int
    """From 1: the first of a run, the second, and so on."""
    dips: tuple[float, ...]
    """points, in order."""

    @property
    def dip(self) -> float:
        """points, the median."""
        return median(self.dips)


@dataclass(frozen=True)
class Recorded:
    """What stands in a recording that the program made."""

    drive: Drive
    """The drive."""
    warnings: tuple[str, ...]
    """What makes its measures less sure, a line each."""


def recorded(raw: bytes, *, at: datetime, name: str) -> Recorded:
    """The drive in a file that the program wrote. Raises RecordingError."""
    recording = read_recording(raw.decode(), Format())
    trace = recording.trace
    runs = without_gaps(trace, measure_recording(trace))
    return Recorded(drive_of(runs, trace, at=at, name=name, raw=raw), recording.warnings)


def drive_of(
    runs: Sequence[ChordRun | Unscorable], trace: Trace, *, at: datetime, name: str, raw: bytes
) -> Drive:
    """The drive that the runs of a recording make; `raw` is its file as it is."""
    blips = [
        _blip(number, place, pulse.onset, pulse.peak, done)
        for number, run in enumerate(runs, start=1)
        for place, (pulse, done) in enumerate(run.blips, start=1)
    ]
    seconds = int(trace.time[-1] - trace.time[0]) / SECOND
    return Drive(at, name, sha256(raw).hexdigest(), seconds, tuple(blips))


def by_place(drive: Drive) -> list[BlipsAtPlace]:
    """The blips that are scored by their place in the run, the first place first."""
    found: dict[int, list[float]] = {}
    for blip in drive.blips:
        if blip.dip is not None:
            found.setdefault(blip.place, []).append(blip.dip)
    return [BlipsAtPlace(place, tuple(found[place])) for place in sorted(found)]


def _blip(run: int, place: int, onset: float, peak: float, done: object) -> RoadBlip:
    if isinstance(done, ChordDisturbance):
        return RoadBlip(run, place, onset, peak, done.dip, done.surge, done.carry)
    return RoadBlip(run, place, onset, peak, reason=str(done))
