"""Words that hold a drive against the drills, the same in the terminal and on the screen."""

from __future__ import annotations

from collections.abc import Sequence

from drills.number_words import counted
from drills.remark import Headline
from engine.practice.course import LEFT_OUT
from engine.practice.remeasuring import Remeasuring
from engine.road.drive import Drive
from engine.road.transfer import ALIKE, ENOUGH, DrillComparison

NOTHING_TO_KEEP = "No blips with the brake on were found: nothing to keep."
"""Line in place of a drive that is not stored."""
TOO_SHORT = "Too short to be measured."
"""Reason why a recording is no drive."""
OLDER = "older measure"
"""Words in place of the median dip of a drive that older definitions measured."""
OLDER_WHY = (
    "An older measure cannot be compared with the others. "
    "`stillfoot score FILE --keep` measures it again."
)
"""Line under a list with such a drive: what it means, and what to do."""
CAUTION = "Practise in a stationary rig, never on the road. Road here means the simulated one."
NO_DRILL = f"No drill to compare with yet. A day's first {LEFT_OUT} repetitions are left out."
"""Line in place of the comparisons if nothing was drilled."""
NOT_EASED = "Practise easing off with blips: it is measured the same way."
"""Line in place of the comparison with easing off if there is none."""


def short_words(drive: Drive, compared: Sequence[DrillComparison]) -> str:
    """Median dips of drill and road, such as "4.0 points in the drills, 6.1 on the road".

    The drill is easing off, which is measured as the road is; without it the road stands alone.
    """
    if not drive.blips:
        return "No blips found"
    if drive.dip is None:
        return "No blip could be scored"
    drill = next((drills.dip for drills in compared if drills.kind == ALIKE), None)
    if drill is None:
        return f"{points_words(drive.dip)} on the road"
    return f"{points_words(drill)} in the drills, {drive.dip:.1f} on the road"


def lead_words(
    drive: Drive, compared: Sequence[DrillComparison], waits: Remeasuring | None = None
) -> str:
    """Lead sentence on a drive: how its dips compare with those of the drills, measured alike.

    `waits`: the drills are being remeasured, and are not compared before that is done.
    """
    if drive.dip is None:
        return f"{short_words(drive, compared)}."
    if waits is not None:
        return "Your drills are being measured again."
    drills = next((each for each in compared if each.kind == ALIKE), None)
    if drills is None or drills.dip is None:
        return "No drill measured the same way yet."
    if drills.more is None or drills.low is None or drills.high is None:
        return f"Too few to compare: {points_words(drills.dip)} in your drills."
    if not drills.tells:
        return "Road and drills cannot be told apart."
    more, ends = on_the_road(drive.dip, drills.dip, (drills.low, drills.high))
    return f"{points_words(abs(more))} {_way(more)} than in your drills, likely {ends}."


def dip_figure(drive: Drive) -> Headline | None:
    """Large figure of a drive, its typical dip; None if no blip is scored."""
    return None if drive.dip is None else Headline(f"{drive.dip:.1f}", "points typical dip")


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
    start = f"{points_words(dip)} easing off, measured the same way ({of_days(drills)}). "
    if drive.dip is None or drills.more is None or drills.low is None or drills.high is None:
        return f"{start}Too few to compare: {few_words(drive, drills)}."
    if not drills.tells:
        low, high = signed_words(drills.low), signed_words(drills.high)
        return f"{start}The road cannot be told apart: likely {low} to {high}."
    more, ends = on_the_road(drive.dip, dip, (drills.low, drills.high))
    return f"{start}{signed_words(more)} on the road, likely {ends}."


def few_words(drive: Drive, drills: DrillComparison) -> str:
    """What there is too little of to compare a drive with drills, and how much is needed."""
    few = f"{counted(len(drive.dips), 'blip')} on the road"
    few = few if len(drive.dips) < ENOUGH else counted(drills.count, "drill")
    return f"{few}, {ENOUGH} are needed"


def on_the_road(road: float, drill: float, ends: tuple[float, float]) -> tuple[float, str]:
    """How much more the road dips than the drill, in points, and the interval as text.

    It is the difference of the rounded medians, so that the three numbers agree as written.
    """
    more = round(road, 1) - round(drill, 1)
    sizes = sorted((abs(ends[0]), abs(more), abs(ends[1])))
    return more, f"{sizes[0]:.1f} to {sizes[-1]:.1f}"


def _otherwise(drills: DrillComparison, dip: float) -> str:
    """Median dip of a drill that is not measured as the road is, and that it is not."""
    return (
        f"{points_words(dip)} in single drill blips ({of_days(drills)}). "
        "Those are measured differently: against what was held."
    )


def of_days(drills: DrillComparison) -> str:
    """How many drills, and of how many days, such as "46 on 10 days"."""
    return f"{drills.count} on {counted(drills.days, 'day')}"


def signed_words(points: float) -> str:
    """Difference of dips in points, as text such as "4.4 more"."""
    return f"{abs(points):.1f} {_way(points)}"


def _way(points: float) -> str:
    """Word for the direction of a difference in points."""
    return "less" if points < 0 else "more"


def points_words(value: float) -> str:
    """Number of points as text."""
    return f"{value:.1f} points"
