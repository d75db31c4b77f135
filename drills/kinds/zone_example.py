"""Example level of a braking zone: a corner from one speed to another, with so many downshifts."""

from __future__ import annotations

from dataclasses import replace

from drills.braking_zone import spread
from drills.example_values import ExampleValues
from drills.number_words import counted

LIMITS = {
    "dip": 15,
    "surge": 14,
    "brake_on": 0.25,
    "peak_error": 15,
    "line_error": 10,
    "lateness": 0.2,
    "off_at": 0.35,
}
"""Limits for every part of a zone, in the units of the measures: between those of the second and
the third zone that is shipped."""


def corner(fast: float, slow: float, shifts: int) -> ExampleValues:
    """Example of the corner from `fast` to `slow`, in km/h; its names tell the corner."""
    name = f"corner-{fast:g}-{slow:g}-{shifts}".replace(".", "-")
    return ExampleValues(
        id=name,
        title=f"{fast:g} to {slow:g}, {counted(shifts, 'downshift')}",
        purpose=f"{counted(shifts, 'downshift')} from {fast:g} km/h to a corner at {slow:g}.",
        targets=(80, 70),
        own={"from": fast, "to": slow, "shifts": shifts},
        listed={"gears": tuple(round(speed) for speed in spread(fast, slow, shifts))},
        limits=LIMITS,
    )


EXAMPLE = replace(corner(230, 90, 3), id="", title="", purpose="")
"""Example where no corner is asked for, named as that of any kind."""
