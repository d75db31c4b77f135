"""`stillfoot score`: what a recording shows, as a table, as JSON, or as a picture."""

from __future__ import annotations

import codecs
import io
import json
import sys
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, fields
from pathlib import Path
from typing import Any

from drills.deviation import Deviation, of_run, of_window
from drills.measures.blip import Blip
from drills.measures.catalogue import CATALOGUE
from drills.measures.disturbance import OF_A_RUN, Disturbance, Run
from drills.measures.hold import measure_hold
from drills.measures.release import measure_release
from drills.measures.runs import NotScored
from drills.measures.sampling import measure_sampling
from drills.measures.step import measure_step
from drills.pieces import part, points
from drills.recording import Format, Recording, RecordingError, read_recording
from drills.refusal import Refusal
from drills.trace import SECOND, STEP, Grid, Trace, nanoseconds

TIMED = tuple(field.name for field in fields(Blip) if field.name not in ("first", "after"))
DISTURBED = tuple(field.name for field in fields(Disturbance))

LARGEST = 500_000_000
"""bytes, a recording: a day of 200 samples a second."""
LONGEST = 3600.0
"""s, a window: no foot holds for longer, and every millisecond of it takes memory."""
AROUND = 3.0
"""s on either side of a run that its picture needs at most."""


class ScoreError(Refusal):
    """A recording or an option of `score` cannot be used; the text is one line for the person."""


@dataclass(frozen=True)
class Span:
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


def load(name: str, form: Format, largest: int = LARGEST) -> Recording:
    """Read a recording of at most `largest` bytes from a file, or from standard input for "-".

    Raises ScoreError.
    """
    where = "standard input" if name == "-" else name
    try:
        raw = _standard_input(largest) if name == "-" else _file(name, largest)
    except OSError as error:
        raise ScoreError(f"{where}: expected a file to read, found: {error.strerror}") from error
    if len(raw) > largest:
        raise ScoreError(f"{where}: expected at most {largest / 1e6:g} MB, found more")
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


def grid_of(trace: Trace, window: Span) -> Grid:
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


def score_window(grid: Grid, window: Span) -> dict[str, Any]:
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


def score_runs(recording: Recording, runs: Sequence[Run | NotScored]) -> dict[str, Any]:
    """Every run of blips with its measures by name, the sampling, and what was odd."""
    trace = recording.trace
    return {
        "runs": [_as_data(run) for run in runs],
        "sampling": asdict(measure_sampling(trace, int(trace.time[0]))),
        "warnings": list(recording.warnings),
    }


def picture_of_window(grid: Grid, window: Span) -> list[Deviation]:
    """The picture of a window. Raises ScoreError where there is too little to show."""
    picture = of_window(grid, window.start, window.stop, window.target)
    if picture is None:
        raise ScoreError("--plot: expected a window of at least 2 ms, found less")
    return [picture]


def pictures_of_runs(trace: Trace, runs: Sequence[Run | NotScored]) -> list[Deviation]:
    """Pictures of the runs that are scored, in order. Raises ScoreError where there is none."""
    shown = []
    for run in runs:
        if isinstance(run, Run):
            first, last = run.blips[0][0], run.blips[-1][0]
            start, stop = first.onset - AROUND, last.end + AROUND
            picture = of_run(part(trace, _point(trace, start), _point(trace, stop)), run)
            shown += [] if picture is None else [picture]
    if not shown:
        raise ScoreError("--plot: expected a run of blips that is scored, found none")
    return shown


def as_text(found: Mapping[str, Any]) -> str:
    """What was found, for a person to read."""
    out = io.StringIO()
    for kind in ("hold", "step", "release"):
        if kind in found:
            out.write(f"{kind}\n")
            _write_table(out, found[kind])
    for number, run in enumerate(found.get("runs", []), start=1):
        _write_run(out, number, run)
    if "runs" in found and not found["runs"]:
        out.write("No blips with the brake on were found.\n")
    for warning in found.get("warnings", []):
        out.write(f"warning: {warning}\n")
    return out.getvalue().rstrip("\n")


def as_json(found: Mapping[str, Any]) -> str:
    """What was found, as one line of JSON."""
    return json.dumps(found, allow_nan=False)


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


def _as_data(run: Run | NotScored) -> dict[str, Any]:
    if isinstance(run, NotScored):
        whole = dict.fromkeys(OF_A_RUN)
        nothing = dict.fromkeys(DISTURBED)
        blips = [_timed(blip) | nothing for blip in run.blips]
        return {"scored": False, "reason": run.reason.value, **whole, "blips": blips}
    whole = {name: getattr(run, name) for name in OF_A_RUN}
    blips = [_timed(blip) | asdict(disturbance) for blip, disturbance in run.blips]
    return {"scored": True, **whole, "blips": blips}


def _timed(blip: Blip) -> dict[str, Any]:
    return {name: getattr(blip, name) for name in TIMED}


def _write_run(out: io.StringIO, number: int, run: Mapping[str, Any]) -> None:
    blips = run["blips"]
    when = f" from {blips[0]['onset']:.3f} s" if blips else ""
    count = f"{len(blips)} blip{'' if len(blips) == 1 else 's'}"
    out.write(f"run {number}: {count}{when}\n")
    if not run["scored"]:
        out.write(f"  not scored: {run['reason']}\n\n")
        return
    _write_table(out, {name: run[name] for name in OF_A_RUN})
    heads = ("onset", "peak", "width", "dip", "dip_at", "rebound", "settle", "coupling", "lag")
    out.write("  " + "".join(f"{name:>10}" for name in ("blip", *heads)) + "\n")
    for place, blip in enumerate(blips, start=1):
        cells = "".join(f"{_number(blip[name]):>10}" for name in heads)
        out.write(f"  {place:>10}{cells}\n")
    out.write("\n")


def _write_table(out: io.StringIO, measures: Mapping[str, Any]) -> None:
    for name, value in measures.items():
        number = CATALOGUE[name].with_unit(f"{_number(value):>10}")
        out.write(f"  {name:<16}{number}\n")


def _number(value: float | None) -> str:
    return "none" if value is None else f"{value:.3f}"
