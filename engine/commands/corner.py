"""Options of `levels --new zone` that describe a corner, and the example values of that corner."""

from __future__ import annotations

import argparse

from drills.example import example
from drills.example_values import ExampleValues
from drills.kinds import KINDS
from drills.kinds.zone import ZoneDrill
from drills.kinds.zone_example import corner
from drills.level_file import parse_level
from engine.commands.options import UsageError, within

KEYS = {key.name: key for key in ZoneDrill.keys}
"""Keys of a zone by their names; the options have the same names."""
OPTIONS = ("from", "to", "shifts")
"""Names of the options, without their dashes."""


def add_corner(parser: argparse.ArgumentParser) -> None:
    """Add the options of a corner to a parser."""
    for name in OPTIONS:
        key = KEYS[name]
        low, high = max(int(key.low), 1), int(key.high)
        parser.add_argument(
            f"--{name}",
            metavar="N" if key.whole else "KMH",
            dest=_place(name),
            type=within(int, low, high) if key.whole else within(float, low, high),
            help=f"with --new zone: {key.about.partition(',')[0]}",
        )


def corner_of(options: argparse.Namespace) -> ExampleValues | None:
    """Example values of the corner that the options describe; None where they describe none.

    Raises UsageError where the options do not belong there, and LevelError where no level can be
    made of that corner.
    """
    given = {name: getattr(options, _place(name)) for name in OPTIONS}
    named = [name for name in OPTIONS if given[name] is not None]
    if not named:
        return None
    if options.new != ZoneDrill.name:
        wanted = f"--new {ZoneDrill.name}"
        raise UsageError(f"--{named[0]}: expected together with {wanted}, found without it")
    asked = {name: given[name] or ZoneDrill.example.own[name] for name in OPTIONS}
    values = corner(asked["from"], asked["to"], round(asked["shifts"]))
    parse_level(example(KINDS[ZoneDrill.name], KINDS, values), f"--new {ZoneDrill.name}", KINDS)
    return values


def _place(name: str) -> str:
    """Name of an option in the parsed options: "from" is no name in Python."""
    return f"corner_{name}"
