"""Options of `stillfoot score` that tell how a recording is written."""

from __future__ import annotations

import argparse

from drills.recording import COLUMNS, Format
from drills.recording.units import TIME_UNITS
from engine.commands.options import UsageError, quoted, within

ANYTHING = 1_000_000
"""Largest number accepted by an option of `score` without a limit of its own."""


def add_format(parser: argparse.ArgumentParser) -> None:
    """Add the options about the file of a recording to a parser."""
    positive = within(float, 0.001, ANYTHING)
    add = parser.add_argument
    add(
        "--columns",
        metavar="LIST",
        type=_columns,
        default={},
        help="names in the header: time=NAME,brake=NAME,...",
    )
    add(
        "--time-unit",
        choices=("s", "ms"),
        help="unit of the times (default: as the file says, or s)",
    )
    add("--full", type=positive, help="reading of a full pedal (default: as the file says)")
    add("--rate", metavar="HZ", type=positive, help="rows per second, in place of a time column")


def format_of(options: argparse.Namespace) -> Format:
    """What the options tell of the file of a recording. Raises UsageError."""
    if options.rate is not None and (options.time_unit is not None or "time" in options.columns):
        other = "--columns time=NAME" if options.time_unit is None else "--time-unit"
        raise UsageError(f"--rate: expected without {other}, found both")
    unit = None if options.time_unit is None else TIME_UNITS[options.time_unit]
    return Format(options.columns, unit, options.full, options.rate)


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
