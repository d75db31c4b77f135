"""The command `stillfoot score`: its options, and the measurement of a recording they ask for."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from drills.deviation import Deviation
from drills.measures.chord import ChordRun, Unscorable
from drills.measures.distance import Stop
from drills.measures.disturbance import BAND, Run
from drills.measures.noise import brake_noise
from drills.measures.runs import measure_held, measure_recording, throttle_floor, without_gaps
from drills.recording import Recording
from drills.trace import SECOND
from engine.commands.drive_report import drive_data, kept_text, store_drive
from engine.commands.options import (
    UsageError,
    data_folder,
    local_now,
    path_of,
    quoted,
    within,
)
from engine.commands.score_format import ANYTHING, add_format, format_of
from engine.commands.score_output import (
    about,
    chord_runs_data,
    held_runs_data,
    measures_json,
    measures_table,
)
from engine.commands.score_recording import (
    TimeSpan,
    grid_of,
    parse,
    picture_of_window,
    pictures_of_runs,
    read,
    recording_name,
    score_window,
)
from engine.commands.score_summary import FEW_RUNS, summary_data
from engine.commands.whole_file import write_whole
from engine.console import say
from engine.road.blips import chord_blips, held_blips
from engine.road.drive import drive_of


def add_score(parser: argparse.ArgumentParser) -> None:
    """Add the options of `score` to a parser."""
    usual = Stop()
    positive = within(float, 0.001, ANYTHING)
    percent = within(float, 0.0, 100.0)
    add = parser.add_argument
    file = path_of("a file")
    add("file", metavar="FILE", type=file, help="a recording as CSV, or - for standard input")
    add_format(parser)
    add(
        "--against",
        choices=("chord", "held"),
        help="measure blips against their chord (default) or what was held",
    )
    add(
        "--band",
        type=positive,
        help=f"points around what was held (default {BAND:g}); in a --step, around its target",
    )
    add("--v0", type=positive, help=f"first speed in m/s (default {usual.v0:g})")
    add("--v1", type=within(float, 0.0, ANYTHING), help=f"last speed in m/s (default {usual.v1:g})")
    add("--decel", type=positive, help=f"m/s2 at full brake (default {usual.deceleration:g})")
    window = parser.add_mutually_exclusive_group()
    window.add_argument(
        "--hold", metavar="A:B", type=_span, help="measure a hold from A to B seconds"
    )
    window.add_argument(
        "--step", metavar="CUE:B", type=_span, help="measure a squeeze from the cue to B seconds"
    )
    window.add_argument(
        "--release", metavar="CUE:T", type=_span, help="measure easing off over T seconds"
    )
    add("--target", metavar="X", type=percent, help="target in %%, with --hold and --step")
    add("--tolerance", metavar="Y", type=percent, help="tolerance in points, with --hold")
    add("--from", dest="start", metavar="X", type=percent, help="where --release begins, in %%")
    add("--keep", action="store_true", help="save it with your history as a drive")
    add(
        "--runs",
        action="store_true",
        default=None,
        help=f"print all runs (default: the {FEW_RUNS} deepest dips)",
    )
    add("--json", action="store_true", help="JSON in place of a table, with all runs")
    add("--plot", metavar="FILE.png", type=file, help="save a picture of the blips")


def run_score(options: argparse.Namespace) -> int:
    """Measure a recording and print the result; the exit code. Raises ScoreError, UsageError."""
    mode = _mode(options)
    _refuse_unused(options, mode)
    window, road = _window(options), _road(options)
    if options.keep and mode != "chord":
        raise UsageError(f"--keep: expected blips against their chord, found {_called(mode)}")
    if options.plot is not None and options.plot.suffix.lower() != ".png":
        raise UsageError(f"--plot: expected a name that ends in .png, found '{options.plot}'")
    name, form = str(options.file), format_of(options)
    raw = read(name)
    recording = parse(name, raw, form)
    measured = _measure(recording, mode, window, road, options)
    if measured.pictures is not None:
        picture = _picture(measured.pictures, mode, options)
        write_whole(options.plot, picture, "--plot")
    found, drive_lines = measured.found, ""
    if options.keep:
        at, trace, label = local_now(), recording.trace, Path(recording_name(name)).name
        floor = throttle_floor(trace)
        drive = drive_of(measured.chords, trace, at=at, name=label, raw=raw, floor=floor)
        drills, waits = store_drive(data_folder(options), drive)
        found = found | {"drive": drive_data(drive, drills, waits)}
        drive_lines = f"\n{kept_text(drive, drills, waits)}\n"
    table = measures_table(found, every_run=bool(options.runs))
    say(f"{measures_json(found)}\n" if options.json else f"{table}\n{drive_lines}")
    return 0


@dataclass(frozen=True)
class _Measured:
    """What `score` found in a recording: measures and pictures."""

    found: dict[str, Any]
    """Measures by name, ready for JSON."""
    pictures: list[Deviation] | None
    """Pictures of the recording; None if no picture is asked for."""
    chords: Sequence[ChordRun | Unscorable] = ()
    """Runs whose blips are measured against their chord; empty in other modes."""


def _measure(
    recording: Recording,
    mode: str,
    window: TimeSpan | None,
    road: Stop,
    options: argparse.Namespace,
) -> _Measured:
    trace, plots = recording.trace, options.plot is not None
    if window is not None:
        grid = grid_of(trace, window)
        found = score_window(grid, window) | about(recording)
        return _Measured(found, picture_of_window(grid, window) if plots else None)
    floor = throttle_floor(trace)
    noise, seconds = brake_noise(trace, floor), int(trace.time[-1] - trace.time[0]) / SECOND
    if mode == "held":
        band = BAND if options.band is None else options.band
        held = measure_held(trace, band, road, floor)
        pulses = [pulse for run in held if isinstance(run, Run) for pulse, _ in run.blips]
        found = summary_data(held_blips(held), seconds, noise) | held_runs_data(held)
        found |= about(recording, floor, pulses, noise, held)
        return _Measured(found, pictures_of_runs(trace, held) if plots else None)
    chords = without_gaps(trace, measure_recording(trace, road, floor))
    pulses = [pulse for run in chords for pulse, _ in run.blips]
    found = summary_data(chord_blips(chords), seconds, noise) | chord_runs_data(chords)
    found |= about(recording, floor, pulses, noise, chords)
    return _Measured(found, pictures_of_runs(trace, chords) if plots else None, chords)


def _tolerance(options: argparse.Namespace, mode: str) -> float | None:
    """Tolerance band in the picture of a scoring mode, in points about 0; None: it has no band."""
    match mode:
        case "held":
            return BAND if options.band is None else float(options.band)
        case "hold":
            return float(options.tolerance)
        case _:
            return None


def _picture(pictures: Sequence[Deviation], mode: str, options: argparse.Namespace) -> bytes:
    """Pictures of a recording as PNG: of a window, or all its blips over each other."""
    from engine.commands.score_picture import blips_png
    from engine.kit.picture_file import deviation_png

    tolerance = _tolerance(options, mode)
    if mode in _NEEDS:
        return deviation_png(pictures[0], tolerance)
    return blips_png(pictures, tolerance, data_folder(options))


_USES = {
    "chord": ("against", "v0", "v1", "decel", "runs", "plot"),
    "held": ("against", "band", "v0", "v1", "decel", "runs", "plot"),
    "hold": ("hold", "target", "tolerance", "plot"),
    "step": ("step", "target", "band"),
    "release": ("release", "start"),
}
"""Options that each scoring mode uses, beside those about the file."""
_NEEDS = {"hold": ("target", "tolerance"), "step": ("target", "band"), "release": ("start",)}
"""Options that a scoring mode requires."""
_MODES = {"chord": "runs of blips", "held": "--against held"}
"""Names in errors of the scoring modes that have no option of their own name."""


def _mode(options: argparse.Namespace) -> str:
    """Scoring mode that the options ask for: the kind of a window; "chord" or "held" for blips."""
    windows = (kind for kind in _NEEDS if getattr(options, kind) is not None)
    return next(windows, None) or options.against or "chord"


def _refuse_unused(options: argparse.Namespace, mode: str) -> None:
    """Refuse options that a scoring mode does not use, and a missing one that it requires.

    Raises UsageError.
    """
    for name in dict.fromkeys(name for names in _USES.values() for name in names):
        if getattr(options, name) is not None and name not in _USES[mode]:
            using = [kind for kind, names in _USES.items() if name in names]
            modes = " or ".join(_called(kind) for kind in using if not _is_part(kind, using))
            found = f"--{mode}" if mode in _NEEDS else "without"
            raise UsageError(f"{_flag(name)}: expected together with {modes}, found {found}")
    for name in _NEEDS.get(mode, ()):
        if getattr(options, name) is None:
            raise UsageError(f"--{mode}: expected together with {_flag(name)}, found without")


def _called(mode: str) -> str:
    return _MODES.get(mode, f"--{mode}")


def _is_part(mode: str, using: Sequence[str]) -> bool:
    """Whether an error leaves a mode out, because the other way to measure runs is named too."""
    return mode == "held" and "chord" in using


def _flag(name: str) -> str:
    return "--from" if name == "start" else f"--{name}"


def _road(options: argparse.Namespace) -> Stop:
    """Braking manoeuvre that turns a dip into metres, from the options. Raises UsageError."""
    usual = Stop()
    v0 = usual.v0 if options.v0 is None else options.v0
    v1 = usual.v1 if options.v1 is None else options.v1
    if v1 >= v0:
        raise UsageError(f"--v1: expected less than --v0 = {v0:g}, found {v1:g}")
    return Stop(v0, v1, usual.deceleration if options.decel is None else options.decel)


def _window(options: argparse.Namespace) -> TimeSpan | None:
    """Time span of the brake that the options ask for; None: runs of blips are measured."""
    if options.hold is not None:
        start, stop = options.hold
        return TimeSpan("hold", start, stop, options.target, options.tolerance)
    if options.step is not None:
        if options.target == 0:
            raise UsageError("--target: expected a number above 0, found 0")
        start, stop = options.step
        return TimeSpan("step", start, stop, options.target, options.band)
    if options.release is not None:
        cue, length = options.release
        return TimeSpan("release", cue, cue + length, options.start)
    return None


def _span(text: str) -> tuple[float, float]:
    read: Callable[[str], float] = within(float, -ANYTHING * 1e4, ANYTHING * 1e4)
    first, colon, second = text.partition(":")
    if not colon:
        raise argparse.ArgumentTypeError(f"expected two times in s as A:B, found {quoted(text)}")
    return read(first), read(second)
