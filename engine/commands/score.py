"""The command `stillfoot score`: its options, and what they ask of scoring.py."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Sequence
from pathlib import Path

from drills.deviation import Deviation
from drills.measures.distance import Stop
from drills.measures.disturbance import BAND
from drills.measures.runs import measure_recording
from drills.recording import COLUMNS, Format
from engine.commands.options import UsageError, path_of, quoted, within
from engine.commands.scoring import (
    ScoreError,
    Span,
    as_json,
    as_text,
    grid_of,
    load,
    picture_of_window,
    pictures_of_runs,
    score_runs,
    score_window,
)
from engine.console import say
from engine.stage.hints import give_hints

ANYTHING = 1e6
"""Largest number an option takes."""


def add_score(parser: argparse.ArgumentParser) -> None:
    """Give the options of `score` to a parser."""
    usual = Stop()
    positive = within(float, 0.001, ANYTHING)
    percent = within(float, 0.0, 100.0)
    add = parser.add_argument
    file = path_of("a file")
    add("file", metavar="FILE", type=file, help="a recording as CSV, or - for standard input")
    add("--columns", metavar="LIST", type=_columns, default={}, help="time=NAME,brake=NAME,...")
    add("--time-unit", choices=("s", "ms"), default="s", help="unit of the time column")
    add("--full", type=positive, default=100.0, help="what a full pedal reads (default 100)")
    add("--band", type=positive, default=None, help=f"%% settled within (default {BAND:g})")
    add("--v0", type=positive, default=usual.v0, help=f"m/s at first (default {usual.v0:g})")
    add(
        "--v1",
        type=within(float, 0.0, ANYTHING),
        default=usual.v1,
        help=f"m/s at last (default {usual.v1:g})",
    )
    add("--decel", type=positive, default=usual.deceleration, help="m/s2 at the held brake")
    window = parser.add_mutually_exclusive_group()
    window.add_argument("--hold", metavar="A:B", type=_span, help="measure a hold from A to B s")
    window.add_argument("--step", metavar="CUE:B", type=_span, help="measure a squeeze")
    window.add_argument("--release", metavar="CUE:T", type=_span, help="measure a ramp of T s")
    add("--target", metavar="X", type=percent, help="%% aimed at, for --hold and --step")
    add("--tolerance", metavar="Y", type=percent, help="%% for --hold")
    add("--from", dest="start", metavar="X", type=percent, help="%% where --release begins")
    add("--json", action="store_true", help="JSON instead of a table")
    add("--plot", metavar="FILE.png", type=file, help="save the picture of the deviation")


def run_score(options: argparse.Namespace) -> int:
    """Score a recording; the exit code. Raises ScoreError, UsageError."""
    window = _window(options)
    if options.v1 >= options.v0:
        raise UsageError(f"--v1: expected less than --v0 = {options.v0:g}, found {options.v1:g}")
    if options.plot is not None and options.plot.suffix.lower() != ".png":
        raise UsageError(f"--plot: expected a name that ends in .png, found '{options.plot}'")
    if options.plot is not None and window is not None and window.kind != "hold":
        raise UsageError(f"--plot: expected runs of blips or --hold, found --{window.kind}")
    unit = 0.001 if options.time_unit == "ms" else 1.0
    recording = load(str(options.file), Format(options.columns, unit, options.full))
    trace, shown = recording.trace, None
    if window is not None:
        band = window.band
        grid = grid_of(trace, window)
        found = score_window(grid, window)
        if options.plot is not None:
            shown = picture_of_window(grid, window)
    else:
        band = BAND if options.band is None else options.band
        runs = measure_recording(trace, band, Stop(options.v0, options.v1, options.decel))
        found = score_runs(recording, runs)
        if options.plot is not None:
            shown = pictures_of_runs(trace, runs)
    if shown is not None:
        _save(options.plot, shown, band)
    say(f"{as_json(found) if options.json else as_text(found)}\n")
    return 0


def _save(path: Path, shown: Sequence[Deviation], tolerance: float) -> None:
    give_hints()
    import pygame

    from engine.screens.picture_file import save_picture

    try:
        save_picture(path, shown, tolerance)
    except (OSError, pygame.error) as error:
        found = error.strerror if isinstance(error, OSError) else error
        raise ScoreError(f"--plot {path}: expected a file to write to, found: {found}") from error


def _window(options: argparse.Namespace) -> Span | None:
    """The window that is asked for; options that do not go with it are refused."""
    kind = next((name for name in _GOES_WITH if getattr(options, name) is not None), None)
    wanted = _GOES_WITH[kind] if kind else {}
    for name, flag in {"target": "--target", "tolerance": "--tolerance", "start": "--from"}.items():
        given = getattr(options, name) is not None
        if given and name not in wanted:
            with_what = " or ".join(f"--{k}" for k, names in _GOES_WITH.items() if name in names)
            raise UsageError(f"{flag}: expected together with {with_what}, found without")
    for name in wanted:
        if getattr(options, name) is None:
            flag = "--from" if name == "start" else f"--{name}"
            raise UsageError(f"--{kind}: expected together with {flag}, found without")
    match kind:
        case "hold":
            start, stop = options.hold
            return Span(kind, start, stop, options.target, options.tolerance)
        case "step":
            if options.target == 0:
                raise UsageError("--target: expected a number above 0, found 0")
            start, stop = options.step
            return Span(kind, start, stop, options.target, options.band)
        case "release":
            cue, length = options.release
            return Span(kind, cue, cue + length, options.start)
        case _:
            return None


_GOES_WITH = {
    "hold": ("target", "tolerance"),
    "step": ("target", "band"),
    "release": ("start",),
}


def _columns(text: str) -> dict[str, str]:
    names = {}
    for part in text.split(","):
        column, equals, name = part.partition("=")
        if column.strip() not in COLUMNS or not equals or not name.strip():
            raise argparse.ArgumentTypeError(
                f"expected {'=NAME, '.join(COLUMNS)}=NAME, found {quoted(part)}"
            )
        if column.strip() in names:
            raise argparse.ArgumentTypeError(
                f"expected each column once, found '{column.strip()}' twice"
            )
        names[column.strip()] = name.strip()
    return names


def _span(text: str) -> tuple[float, float]:
    read: Callable[[str], float] = within(float, -ANYTHING * 1e4, ANYTHING * 1e4)
    first, colon, second = text.partition(":")
    if not colon:
        raise argparse.ArgumentTypeError(f"expected two times in s as A:B, found {quoted(text)}")
    return read(first), read(second)
