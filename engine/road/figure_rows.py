"""Rows of the table of all figures of a drive: a name, a value, and a few words beside it.

They hold the same numbers as the sentences in the terminal (`summary_words`, `transfer_words`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from engine.practice.remeasuring import Remeasuring
from engine.road.drive import Drive
from engine.road.summary import Summary, summary_of
from engine.road.summary_words import SMALLEST, minutes, place_name, written
from engine.road.transfer import ALIKE, DrillComparison
from engine.road.words import (
    NO_DRILL,
    NOT_EASED,
    few_words,
    of_days,
    on_the_road,
    points_words,
    signed_words,
)

FigureRow = tuple[str, str, str]
"""Name of a figure, its value with its unit, and a few words beside it, which may be empty."""


def figure_rows(
    drive: Drive, compared: Sequence[DrillComparison], waits: Remeasuring | None = None
) -> list[FigureRow]:
    """All figures of a drive, the most telling first; empty without a blip.

    `waits`: the drills are being remeasured, and are not compared before that is done.
    """
    summary = summary_of(drive.blips)
    if not summary.blips:
        return []
    rows = [*_counted(summary, drive.seconds), *_typical(summary)]
    if not summary.scored:
        return rows
    return [*rows, *_drilled(drive, compared, waits)]


def _counted(summary: Summary, seconds: float) -> Iterator[FigureRow]:
    """How many blips there are, how many are scored, and why the others are not."""
    yield "blips", f"{summary.blips}", f"{summary.scored} scored, in {minutes(seconds)}"
    for why, count in summary.reasons:
        yield "not scored", f"{count}", why


def _typical(summary: Summary) -> Iterator[FigureRow]:
    """Dips, blips, early rolls and stopping distance of the scored blips."""
    dips = summary.typical
    if dips is None or summary.peak is None or summary.worst is None:
        return
    low, high = written(dips.low, dips.high)
    spread = f"the middle half {low} to {high}, the worst {summary.worst:.1f}"
    yield "typical dip", points_words(dips.dip), spread
    yield "typical blip", f"{summary.peak:.0f} %", "throttle"
    if summary.carry is not None:
        yield "taken as intended", _change(summary.carry), "on the brake over a blip, typically"
    yield from _early(summary)
    if summary.places:
        first, *others = summary.places
        more = [f"{place_name(at.place)} {at.dip:.1f} ({at.count})" for at in others]
        start = f"{place_name(first.place)} blip of a run ({first.count})"
        yield "dip by place", points_words(first.dip), ", ".join([start, *more])
    if summary.extra_distance is not None:
        yield (
            "longer to stop",
            f"{summary.extra_distance:.1f} m",
            "at most, after a blip; estimated",
        )


def _early(summary: Summary) -> Iterator[FigureRow]:
    """How often the brake left before the throttle, and how much of it, where that is known."""
    if not summary.early_known:
        return
    unknown = summary.scored - summary.early_known
    notes = [] if summary.early_dip is None else [f"typically by {points_words(summary.early_dip)}"]
    notes += [f"{unknown} more cannot be told"] if unknown > 0 else []
    count = "none" if summary.early_dip is None else f"{summary.early}"
    yield "early roll", f"{count} of {summary.early_known}", ", ".join(notes)


def _change(carry: float) -> str:
    """Change of the brake over a blip, in points, as text."""
    if abs(carry) < SMALLEST:
        return "no change"
    return f"{points_words(abs(carry))} {'less' if carry < 0 else 'more'}"


def _drilled(
    drive: Drive, compared: Sequence[DrillComparison], waits: Remeasuring | None
) -> Iterator[FigureRow]:
    """Comparisons of a drive with the drills of each kind."""
    if waits is not None:
        yield "in the drills", "later", waits.words
        return
    drilled = [each for each in compared if each.dip is not None]
    for each in drilled:
        if each.kind == ALIKE:
            yield from _alike(drive, each)
        elif each.dip is not None:
            note = f"measured against what was held ({of_days(each)})"
            yield "single drill blips", points_words(each.dip), note
    if not drilled:
        yield "in the drills", "none yet", NO_DRILL
    elif all(each.kind != ALIKE for each in drilled):
        yield "in the drills", "none yet", NOT_EASED


def _alike(drive: Drive, drills: DrillComparison) -> Iterator[FigureRow]:
    """Comparison of a drive with the drill that is measured as the road is."""
    if drive.dip is None or drills.dip is None:
        return
    note = f"easing off, measured the same way ({of_days(drills)})"
    yield "in the drills", points_words(drills.dip), note
    if drills.more is None or drills.low is None or drills.high is None:
        yield "on the road", "too few", few_words(drive, drills)
    elif not drills.tells:
        ends = f"likely {signed_words(drills.low)} to {signed_words(drills.high)}"
        yield "on the road", "cannot tell", ends
    else:
        more, ends = on_the_road(drive.dip, drills.dip, (drills.low, drills.high))
        yield "on the road", signed_words(more), f"likely {ends}"
