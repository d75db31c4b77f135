"""Words about a recorded drive, the same in the terminal and on the screen."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from statistics import median

from engine.practice.course import LEFT_OUT
from engine.practice.remeasuring import Remeasuring
from engine.road.drive import BlipsAtPlace, Drive
from engine.road.transfer import DAYS, ENOUGH, DrillComparison

NO_BLIPS = "No blips with the brake on were found, so there is nothing to keep."
TOO_SHORT = "Too short to be measured."
OLDER = "older measure"
"""Words in place of the median dip of a drive that older definitions measured."""
OLDER_WHY = (
    "Older measure: not to be compared with the others. "
    "`stillfoot score FILE --keep` measures it again."
)
"""Line under a list with such a drive: what it means, and what to do."""
CAUTION = "Road means the simulated one: practise in a stationary rig, never on the road."
CALLED: Mapping[str, str] = {
    "blip": "Single blips",
    "trail": "Easing off, measured as the road",
}
"""Name in sentences for the repetitions of each kind of drill that a drive is compared with."""
SMALLEST = 0.05
"""Least change of the brake that is told, in points: less reads as 0.0."""
PLACES = ("first", "second", "third", "fourth", "fifth", "sixth")
"""Words for the position of a blip in its run: first, second and so on."""


def found_words(drive: Drive) -> str:
    """Sentence on how many blips a drive has, and why some are not scored."""
    found = f"{_count(len(drive.blips), 'blip')} in {minutes(drive.seconds)}."
    reasons = Counter(blip.reason for blip in drive.blips if blip.dip is None)
    if not reasons:
        return found
    each = [why if len(reasons) == 1 else f"{why} ({n})" for why, n in reasons.most_common()]
    return f"{found} Not scored {reasons.total()}: {', '.join(each)}."


def short_words(drive: Drive, compared: Sequence[DrillComparison]) -> str:
    """Median dips of drill and road, such as "Drill 4.0 points, road 6.1"."""
    if not drive.blips:
        return "No blips found"
    if drive.dip is None:
        return "No blip could be scored"
    drill = next((drills.dip for drills in compared if drills.dip is not None), None)
    if drill is None:
        return f"Road {_points(drive.dip)}"
    return f"Drill {_points(drill)}, road {drive.dip:.1f}"


def carry_words(
    drive: Drive, compared: Sequence[DrillComparison], waits: Remeasuring | None = None
) -> list[str]:
    """Comparisons of a drive with the drills, a line for each kind that was drilled.

    `waits`: the drills are being remeasured, and are not compared before that is done.
    """
    if waits is not None:
        return [waits.words]
    lines = [_compared(drive, each, each.dip) for each in compared if each.dip is not None]
    return lines or [
        f"No drill of the last {DAYS} days to compare with (the first {LEFT_OUT} repetitions of a "
        "day are left out)."
    ]


def brake_words(drive: Drive) -> list[str]:
    """Change of the brake that is taken as meant, and how often it left before the throttle."""
    if drive.carry is None:
        return []
    lines = [f"Taken as meant: {_changed(drive.carry)} over a blip (median)."]
    known = [blip.early for blip in drive.blips if blip.early is not None]
    early = [blip.early for blip in drive.blips if blip.is_early and blip.early is not None]
    if early:
        lines.append(
            f"In {len(early)} of {_count(len(known), 'blip')} the brake left before the throttle. "
            f"Their dips count it: {_points(median(early))} (median)."
        )
    return lines


def drive_words(
    drive: Drive,
    places: Sequence[BlipsAtPlace],
    compared: Sequence[DrillComparison],
    waits: Remeasuring | None = None,
) -> list[str]:
    """Everything there is to say about a drive, line by line; `waits` as in `carry_words`."""
    lines = [f"{short_words(drive, compared)}.", found_words(drive)]
    if drive.dip is None:
        return lines
    lines.append(f"Median dip {_points(drive.dip)}, worst {max(drive.dips):.1f}.")
    if len(places) > 1:
        parts = [f"{drive_name(at.place)} {at.dip:.1f} ({len(at.dips)})" for at in places]
        lines.append(f"By place in the run: {', '.join(parts)}.")
    return [*lines, *brake_words(drive), *carry_words(drive, compared, waits)]


def drive_name(place: int) -> str:
    """Name of a place in a run of blips, such as "second"; places count from 1."""
    return PLACES[place - 1] if place <= len(PLACES) else f"number {place}"


def minutes(seconds: float) -> str:
    """A duration in words, such as "12 min 5 s"."""
    whole = round(seconds)
    return f"{whole // 60} min {whole % 60} s" if whole >= 60 else f"{whole} s"


def _compared(drive: Drive, drills: DrillComparison, dip: float) -> str:
    start = f"{CALLED[drills.kind]}: {_points(dip)} ({drills.count} in the last {DAYS} days). "
    if drive.dip is None or drills.more is None or drills.low is None or drills.high is None:
        few = f"{_count(len(drive.dips), 'blip')} on the road"
        few = few if len(drive.dips) < ENOUGH else f"{drills.count} of them"
        return f"{start}Too few to compare: {few}, {ENOUGH} are needed."
    if not drills.tells:
        low, high = _signed_words(drills.low), _signed_words(drills.high)
        return f"{start}No difference that can be told: likely {low} to {high}."
    # The difference of the rounded medians, so that the three numbers agree as written.
    more = round(drive.dip, 1) - round(dip, 1)
    ends = sorted((abs(drills.low), abs(more), abs(drills.high)))
    return f"{start}On the road {_signed_words(more)}, likely {ends[0]:.1f} to {ends[-1]:.1f}."


def _changed(carry: float) -> str:
    """How the brake changed over a blip, where that is taken as meant; `carry` is in points."""
    if abs(carry) < SMALLEST:
        return "the brake did not change"
    return f"the brake {'fell' if carry < 0 else 'rose'} {_points(abs(carry))}"


def _signed_words(points: float) -> str:
    return f"{abs(points):.1f} {'less' if points < 0 else 'more'}"


def _points(value: float) -> str:
    return f"{value:.1f} points"


def _count(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"
