"""Reader of a recording for `stillfoot score`, and the measures and pictures of what is in it."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from drills.deviation import Deviation, of_run, of_window
from drills.measures.chord import ChordRun, Unscorable
from drills.measures.disturbance import Run
from drills.measures.easing import measure_release
from drills.measures.hold import measure_hold
from drills.measures.runs import NotScored
from drills.measures.step import measure_step
from drills.pieces import part, points
from drills.recording import Format, Recording, RecordingError, read_recording
from drills.refusal import Refusal
from drills.text import TextError, decoded
from drills.trace import SECOND, STEP, Grid, Trace, nanoseconds
from engine.errors import reason_of
from engine.road.curves import chord_curves

LARGEST = 500_000_000
"""Largest size of a recording that is read, in bytes: a day at 200 samples a second."""
LONGEST = 3600.0
"""Largest length of a window to measure, in s: no foot holds longer, and it takes memory."""
AROUND = 3.0
"""Time on either side of a run of blips that its picture may need, in s."""


class ScoreError(Refusal):
    """A recording or an option of `score` cannot be used; the text is one line for the user."""


@dataclass(frozen=True)
class TimeSpan:
    """One window of the brake in a recording, measured in place of runs of blips."""

    kind: str
    """Kind of the window: "hold", "step" or "release"."""
    start: float
    """Start of the window on the file's own time axis, in s."""
    stop: float
    """End of the window on the file's own time axis, in s; not included."""
    target: float
    """Target of a hold or step, or the brake at which a release begins, in %."""
    band: float = 0.0
    """Tolerance of a hold or band of a step, in points."""


def read(name: str, largest: int = LARGEST) -> bytes:
    """Bytes of a recording, at most `largest`, from a file or for "-" from standard input.

    Raises ScoreError.
    """
    where = recording_name(name)
    try:
        raw = _standard_input(largest) if name == "-" else _file(name, largest)
    except OSError as error:
        raise ScoreError(f"{where}: expected a file to read, found: {reason_of(error)}") from error
    if len(raw) > largest:
        raise ScoreError(f"{where}: expected at most {largest / 1e6:g} MB, found more")
    return raw


def parse(name: str, raw: bytes, form: Format) -> Recording:
    """Recording in the bytes `raw` of the file called `name`. Raises ScoreError."""
    where = recording_name(name)
    try:
        return read_recording(decoded(raw), form)
    except TextError as error:
        raise ScoreError(f"{where}: {error}; save it as UTF-8") from error
    except RecordingError as error:
        raise ScoreError(f"{where}: {error}") from error


def recording_name(name: str) -> str:
    """Name of a recording in errors: the name of its file, or "standard input"."""
    return "standard input" if name == "-" else name


def grid_of(trace: Trace, window: TimeSpan) -> Grid:
    """Part of a recording's 1 ms grid inside a window. Raises ScoreError."""
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
    """Measures of one window of a recording by name, under the name of the window's kind."""
    late, length = grid.late(nanoseconds(window.start)), window.stop - window.start
    measured: Any
    match window.kind:
        case "hold":
            measured = measure_hold(grid.brake, window.target, window.band)
        case "step":
            measured = measure_step(grid.brake, window.target, window.band, late)
        case _:
            measured = measure_release(grid.brake, window.target, length, late)
    return {window.kind: asdict(measured)}


def picture_of_window(grid: Grid, window: TimeSpan) -> list[Deviation]:
    """Picture of the brake in a window. Raises ScoreError if it is too short to draw."""
    picture = of_window(grid, window.start, window.stop, window.target)
    if picture is None:
        raise ScoreError("--plot: expected a window of at least 2 ms, found less")
    return [picture]


def pictures_of_runs(
    trace: Trace, runs: Sequence[ChordRun | Unscorable | Run | NotScored]
) -> list[Deviation]:
    """Pictures of the runs of blips that were measured, in order. Raises ScoreError if none was."""
    pictures = [picture for run in runs for picture in _pictures(trace, run)]
    if not pictures:
        raise ScoreError("--plot: expected a run of blips that is scored, found none")
    return pictures


def _pictures(trace: Trace, run: ChordRun | Unscorable | Run | NotScored) -> Iterator[Deviation]:
    """Pictures of a run of blips: one against the held brake, or one a blip against its chord."""
    match run:
        case Run():
            first, last = run.blips[0][0], run.blips[-1][0]
            picture = of_run(_around(trace, first.onset, last.end), run)
            if picture is not None:
                yield picture
        case ChordRun():
            yield from chord_curves(trace, [run])
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
    """Index of the first grid point at or after a time in s, clipped to [0, n]."""
    point = -((int(trace.time[0]) - nanoseconds(seconds)) // STEP)
    return min(max(point, 0), points(trace))
