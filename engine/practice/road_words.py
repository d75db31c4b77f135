"""A drive in words, the same in the terminal and on the screen."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from engine.practice.carrying import DAYS, ENOUGH, WARMING, Beside
from engine.practice.road import Drive, Placed

NO_BLIPS = "No blips with the brake on were found, so there is nothing to keep."
TOO_SHORT = "Too short to be measured."
CAUTION = "Road means the simulated one: practise in a stationary rig, never on the road."
CALLED: Mapping[str, str] = {"blip": "single blips", "trail": "blips while easing off"}
"""What the repetitions of a kind are called."""
PLACES = ("first", "second", "third", "fourth", "fifth", "sixth")
"""What a place in a run is called."""
MEASURED = (
    "The dip is held against the line from before to after each blip; in single blips against what "
    "was held."
)


def found_words(drive: Drive) -> str:
    """How many blips there are, and why some are not scored."""
    count, scored = len(drive.blips), len(drive.dips)
    said = f"{_count(count, 'blip')} in {minutes(drive.seconds)}"
    reasons = [blip.reason for blip in drive.blips if blip.dip is None]
    if not reasons:
        return f"{said}."
    most = max(dict.fromkeys(reasons), key=reasons.count)
    which = f"{most}" if len(set(reasons)) == 1 else f"mostly: {most}"
    return f"{said}, {scored} scored ({which})."


def road_words(drive: Drive) -> str:
    """The median and the worst."""
    if drive.dip is None:
        return "None of them can be scored."
    return f"Median dip {_points(drive.dip)}, worst {max(drive.dips):.1f}."


def place_words(places: Sequence[Placed]) -> str:
    """The median by place in the run; empty where all runs have one blip."""
    if len(places) < 2:
        return ""
    parts = [f"{called(one.place)} {one.dip:.1f} ({len(one.dips)})" for one in places]
    return f"By place in the run: {', '.join(parts)}."


def carry_words(drive: Drive, found: Sequence[Beside]) -> list[str]:
    """What can be said of road and drills, a line a kind; the short of it first."""
    there = [one for one in found if one.dip is not None]
    if not there:
        return [
            f"No drill of the last {DAYS} days to compare with "
            f"(the first {WARMING} repetitions of a day are left out)."
        ]
    return [_carried(drive, one) for one in there]


def told(drive: Drive, places: Sequence[Placed], found: Sequence[Beside]) -> list[str]:
    """All that is said of a drive, line by line."""
    lines = [found_words(drive), road_words(drive), place_words(places)]
    if drive.dip is not None:
        lines += carry_words(drive, found)
        lines.append(MEASURED)
    return [line for line in lines if line]


def called(place: int) -> str:
    """What a place in a run is called, from 1."""
    return PLACES[place - 1] if place <= len(PLACES) else f"number {place}"


def minutes(seconds: float) -> str:
    """A length of time, such as "12 min 5 s"."""
    whole = round(seconds)
    return f"{whole // 60} min {whole % 60} s" if whole >= 60 else f"{whole} s"


def _carried(drive: Drive, one: Beside) -> str:
    road = drive.dip or 0.0
    said = f"Drill {_points(one.dip or 0.0)}, road {road:.1f}"
    of = f"({one.count} {CALLED[one.kind]} of the last {DAYS} days)"
    if one.more is None or one.low is None or one.high is None:
        few = len(drive.dips) if len(drive.dips) < ENOUGH else one.count
        return f"{said}: too few to compare, {few} of at least {ENOUGH} {of}."
    if not one.tells:
        return f"{said}: no difference that can be told, {_between(one.low, one.high)} {of}."
    low, high = sorted((abs(one.low), abs(one.high)))
    which = "more" if one.more > 0 else "less"
    return f"{said}: {abs(one.more):.1f} {which} on the road, {low:.1f} to {high:.1f} {of}."


def _between(low: float, high: float) -> str:
    return f"{abs(low):.1f} less to {abs(high):.1f} more"


def _points(value: float) -> str:
    return f"{value:.1f} points"


def _count(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"
