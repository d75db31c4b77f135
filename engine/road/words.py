"""A drive in words, the same in the terminal and on the screen."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from engine.practice.course import LEFT_OUT
from engine.road.drive import BlipsAtPlace, Drive
from engine.road.transfer import DAYS, ENOUGH, DrillComparison

NO_BLIPS = "No blips with the brake on were found, so there is nothing to keep."
TOO_SHORT = "Too short to be measured."
CAUTION = "Road means the simulated one: practise in a stationary rig, never on the road."
CALLED: Mapping[str, str] = {
    "blip": "Single blips",
    "trail": "Easing off, measured as the road",
}
"""What the repetitions of a kind are called."""
PLACES = ("first", "second", "third", "fourth", "fifth", "sixth")
"""What a place in a run is called."""


def found_words(drive: Drive) -> str:
    """How many blips there are, and why some are not scored."""
    said = f"{_count(len(drive.blips), 'blip')} in {minutes(drive.seconds)}."
    reasons = Counter(blip.reason for blip in drive.blips if blip.dip is None)
    if not reasons:
        return said
    each = [why if len(reasons) == 1 else f"{why} ({n})" for why, n in reasons.most_common()]
    return f"{said} Not scored {reasons.total()}: {', '.join(each)}."


def short_words(drive: Drive, found: Sequence[DrillComparison]) -> str:
    """The short of it: drill against road."""
    if not drive.blips:
        return "No blips found"
    if drive.dip is None:
        return "No blip could be scored"
    drill = next((one.dip for one in found if one.dip is not None), None)
    if drill is None:
        return f"Road {_points(drive.dip)}"
    return f"Drill {_points(drill)}, road {drive.dip:.1f}"


def carry_words(drive: Drive, found: Sequence[DrillComparison]) -> list[str]:
    """What can be said of road and drills, a line a kind."""
    there = [_carried(drive, one, one.dip) for one in found if one.dip is not None]
    return there or [
        f"No drill of the last {DAYS} days to compare with (the first {LEFT_OUT} repetitions of a "
        "day are left out)."
    ]


def drive_words(
    drive: Drive, places: Sequence[BlipsAtPlace], found: Sequence[DrillComparison]
) -> list[str]:
    """All that is said of a drive, line by line."""
    lines = [f"{short_words(drive, found)}.", found_words(drive)]
    if drive.dip is None:
        return lines
    lines.append(f"Median dip {_points(drive.dip)}, worst {max(drive.dips):.1f}.")
    if len(places) > 1:
        parts = [f"{drive_name(one.place)} {one.dip:.1f} ({len(one.dips)})" for one in places]
        lines.append(f"By place in the run: {', '.join(parts)}.")
    return [*lines, *carry_words(drive, found)]


def drive_name(place: int) -> str:
    """What a place in a run is called, from 1."""
    return PLACES[place - 1] if place <= len(PLACES) else f"number {place}"


def minutes(seconds: float) -> str:
    """A length of time, such as "12 min 5 s"."""
    whole = round(seconds)
    return f"{whole // 60} min {whole % 60} s" if whole >= 60 else f"{whole} s"


def _carried(drive: Drive, one: DrillComparison, dip: float) -> str:
    said = f"{CALLED[one.kind]}: {_points(dip)} ({one.count} in the last {DAYS} days). "
    if drive.dip is None or one.more is None or one.low is None or one.high is None:
        few = f"{_count(len(drive.dips), 'blip')} on the road"
        few = few if len(drive.dips) < ENOUGH else f"{one.count} of them"
        return f"{said}Too few to compare: {few}, {ENOUGH} are needed."
    if not one.tells:
        return f"{said}No difference that can be told: likely {_way(one.low)} to {_way(one.high)}."
    # Of the two as they are written, so that it is what a reader gets who takes one off the other.
    more = round(drive.dip, 1) - round(dip, 1)
    ends = sorted((abs(one.low), abs(more), abs(one.high)))
    return f"{said}On the road {_way(more)}, likely {ends[0]:.1f} to {ends[-1]:.1f}."


def _way(points: float) -> str:
    return f"{abs(points):.1f} {'less' if points < 0 else 'more'}"


def _points(value: float) -> str:
    return f"{value:.1f} points"


def _count(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"
