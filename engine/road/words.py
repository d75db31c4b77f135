"""Words that hold a drive against the drills, the same in the terminal and on the screen."""

from __future__ import annotations

from collections.abc import Sequence

from engine.practice.course import LEFT_OUT
from engine.practice.remeasuring import Remeasuring
from engine.road.drive import Drive
from engine.road.summary_words import counted
from engine.road.transfer import ALIKE, DAYS, ENOUGH, DrillComparison

NOTHING_TO_KEEP = "No blips with the brake on were found, so there is nothing to keep."
"""Line in place of a drive that is not stored."""
TOO_SHORT = "Too short to be measured."
"""Reason why a recording is no drive."""
OLDER = "older measure"
"""Words in place of the median dip of a drive that older definitions measured."""
OLDER_WHY = (
    "Older measure: not to be compared with the others. "
    "`stillfoot score FILE --keep` measures it again."
)
"""Line under a list with such a drive: what it means, and what to do."""
CAUTION = "Road means the simulated one: practise in a stationary rig, never on the road."
NO_DRILL = f"No drill to compare with yet. A day's first {LEFT_OUT} repetitions are left out."
"""Line in place of the comparisons if nothing was drilled."""
NOT_EASED = "Practise easing off with blips: that is measured as the road is."
"""Line in place of the comparison with easing off if there is none."""


def short_words(drive: Drive, compared: Sequence[DrillComparison]) -> str:
    """Median dips of drill and road, such as "Drill 4.0 points, road 6.1".

    The drill is easing off, which is measured as the road is; without it the road stands alone.
    """
    if not drive.blips:
        return "No blips found"
    if drive.dip is None:
        return "No blip could be scored"
    drill = next((drills.dip for drills in compared if drills.kind == ALIKE), None)
    if drill is None:
        return f"Road {_points(drive.dip)}"
    return f"Drill {_points(drill)}, road {drive.dip:.1f}"


def transfer_words(
    drive: Drive, compared: Sequence[DrillComparison], waits: Remeasuring | None = None
) -> list[str]:
    """Comparisons of a drive with the drills, a line for each kind that was drilled.

    `waits`: the drills are being remeasured, and are not compared before that is done.
    """
    if waits is not None:
        return [waits.words]
    lines = [
        _alike(drive, each, each.dip) if each.kind == ALIKE else _otherwise(each, each.dip)
        for each in compared
        if each.dip is not None
    ]
    if lines and all(each.dip is None for each in compared if each.kind == ALIKE):
        lines.append(NOT_EASED)
    return lines or [NO_DRILL]


def _alike(drive: Drive, drills: DrillComparison, dip: float) -> str:
    """Comparison of a drive with the drill that is measured as the road is."""
    start = f"Easing off, measured as the road: {_points(dip)} ({_of_days(drills)}). "
    if drive.dip is None or drills.more is None or drills.low is None or drills.high is None:
        few = f"{counted(len(drive.dips), 'blip')} on the road"
        few = few if len(drive.dips) < ENOUGH else f"{drills.count} of them"
        return f"{start}Too few to compare: {few}, {ENOUGH} are needed."
    if not drills.tells:
        low, high = _signed_words(drills.low), _signed_words(drills.high)
        return f"{start}No difference that can be told: likely {low} to {high}."
    # The difference of the rounded medians, so that the three numbers agree as written.
    more = round(drive.dip, 1) - round(dip, 1)
    ends = sorted((abs(drills.low), abs(more), abs(drills.high)))
    return f"{start}On the road {_signed_words(more)}, likely {ends[0]:.1f} to {ends[-1]:.1f}."


def _otherwise(drills: DrillComparison, dip: float) -> str:
    """Median dip of a drill that is not measured as the road is, and that it is not."""
    return (
        f"Single blips, measured otherwise (against what was held): {_points(dip)} "
        f"({_of_days(drills)})."
    )


def _of_days(drills: DrillComparison) -> str:
    """How many drills, and of how many days, such as "46 on the last 10 such days"."""
    if drills.days == DAYS:
        return f"{drills.count} on the last {DAYS} such days"
    return f"{drills.count} on {counted(drills.days, 'day')}"


def _signed_words(points: float) -> str:
    return f"{abs(points):.1f} {'less' if points < 0 else 'more'}"


def _points(value: float) -> str:
    return f"{value:.1f} points"
