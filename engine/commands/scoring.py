"""`stillfoot score`: reading a recording, and measuring and drawing what is in it."""

from __future__ import annotations

import codecs
import sys
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from drills.deviation import Deviation, of_chord, of_run, of_window
from drills.measures.chord import ChordDisturbance, ChordRun, Unscorable
from drills.measures.disturbance import Run
from drills.measures.easing import measure_release
from drills.measures.hold import measure_hold
from drills.measures.runs import NotScored
from drills.measures.step import measure_step
from drills.pieces import part, points
from drills.recording import Format, Recording, RecordingError, read_recording
from drills.refusal import Refusal
from drills.trace import SECOND, STEP, Grid, Trace, nanoseconds

LARGEST = 500_000_000
"""bytes, a recording: a day of 200 samples a second."""
LONGEST = 3600.0
"""s, a window: no foot holds for longer, and every millisecond of it takes memory."""
AROUND = 3.0
"""s on either side of a run that its picture needs at most."""


class ScoreError(Refusal):
    """A recording or an option of `score` cannot be used; the text is one line for the person."""


@dataclass(frozen=True)
class TimeSpan:
    """What is measured instead of runs: one window of the brake."""

    kind: str
    """"hold", "step" or "release"."""
    start: float
    """s, on the file's own time axis."""
    stop: float
    """s, on the file's own time axis; not included."""
    target: float
    """%, target of a hold or step, or where a release begins."""
    band: float = 0.0
    """%, tolerance of a hold or band of a step."""


def read(name: str, largest: int = LARGEST) -> bytes:
    """A recording of at most `largest` bytes as it is in a file, or on standard input for "-".

    Raises ScoreError.
    """
    where = blip_name(name)
    try:
        raw = _standard_input(largest) if name == "-" else _file(name, largest)
    except OSError as error:
        raise ScoreError(f"{where}: expected a file to read, found: {error.strerror}") from error
    if len(raw) > largest:
        raise ScoreError(f"{where}: expected at most {largest / 1e6:g} MB, found more")
    return raw


def parse(name: str, raw: bytes, form: Format) -> Recording:
    """What was recorded in a file that was read. Raises ScoreError."""
    where = blip_name(name)
    if raw.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        raise ScoreError(f"{where}: expected UTF-8 text, found UTF-16")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise ScoreError(
            f"{where}: expected UTF-8 text, found a byte that is not at {error.start}"
        ) from error
    if "\0" in text:
        raise ScoreError(f"{where}: expected UTF-8 text, found a zero byte")
    try:
        return read_recording(text, form)
    except RecordingError as error:
        raise ScoreError(f"{where}: {error}") from error


def blip_name(name: str) -> str:
    """What a recording is called where something is said of it."""
    return "standard input" if name == "-" else name


def grid_of(trace: Trace, window: TimeSpan) -> Grid:
    """The part of the grid that a window asks for. Raises ScoreError."""
    origin, size = int(trace.time[0]), points(trace)
    first, last = origin / SECOND, (origin + size * STEP) / SECOND
    if not (first <= window.start < window.stop <= last + 1e-9):
        raise ScoreError(
            f"--{window.kind}: expected a window inside {first:g} to {last:g} s, "
            f"found {window.start:g} to {window.stop:g}"
        )
    if window.stop - window.start > LONGEST:
        raise ScoreError(
            f"--{window.kind}: expected a window of at most {LONGEST:g} s, "
            f"found {window.stop - window.start:g} s"
        )
    start, stop = _point(trace, window.start), _point(trace, window.stop)
    if stop <= start:
        raise ScoreError(f"--{window.kind}: expected a window of at least 1 ms, found less")
    return part(trace, start, stop)


def score_window(grid: Grid, window: TimeSpan) -> dict[str, Any]:
    """The measures of one window by name, under the name of its kind."""
    measured: Any
    match window.kind:
        case "hold":
            measured = measure_hold(grid.brake, window.target, window.band)
        case "step":
            measured = measure_step(grid.brake, window.target, window.band)
        case _:
            measured = measure_release(grid.brake, window.target)
    return {window.kind: asdict(measured)}


def picture_of_window(grid: Grid, window: TimeSpan) -> list[Deviation]:
    """The picture of a window. Raises ScoreError where there is too little to show."""
    picture = of_window(grid, window.start, window.stop, window.target)
    if picture is None:
        raise ScoreError("--plot: expected a window of at least 2 ms, found less")
    return [picture]


def pictures_of_runs(
    trace: Trace, runs: Sequence[ChordRun | Unscorable | Run | NotScored]
) -> list[Deviation]:
    """Pictures of what is scored, in order. Raises ScoreError where nothing is."""
    shown = [picture for run in runs for picture in _pictures(trace, run)]
    if not shown:
        raise ScoreError("--plot: expected a run of blips that is scored, found none")
    return shown


def _pictures(trace: Trace, run: ChordRun | Unscorable | Run | NotScored) -> Iterator[Deviation]:
    """One picture of a run against what was held; one of each blip against its chord."""
    match run:
        case Run():
            first, last = run.blips[0][0], run.blips[-1][0]
            picture = of_run(_around(trace, first.onset, last.end), run)
            if picture is not None:
                yield picture
        case ChordRun():
            for pulse, done in run.blips:
                if isinstance(done, ChordDisturbance):
                    yield of_chord(_around(trace, pulse.onset, done.stop), pulse, done)
        case _:
            return


def _around(trace: Trace, first: float, last: float) -> Grid:
    return part(trace, _point(trace, first - AROUND), _point(trace, last + AROUND))


def _standard_input(largest: int) -> bytes:
    if sys.stdin is None or sys.stdin.closed:
        raise ScoreError("standard input: expected a recording to read, found it closed")
    return sys.stdin.buffer.read(largest + 1)


def _file(name: str, largest: int) -> bytes:
    with Path(name).open("rb") as file:
        return file.read(largest + 1)


def _point(trace: Trace, seconds: float) -> int:
    """The first point of the whole grid at or after a time in s, held within [0, n]."""
    point = -((int(trace.time[0]) - nanoseconds(seconds)) // STEP)
    return min(max(point, 0), points(trace))
