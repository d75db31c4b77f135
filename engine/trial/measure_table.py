"""Table of the measures of a trial: the figures of A and B, their difference, and the counts.

Every figure of a measure has the same decimals: those of the catalogue, or as many more as it
takes to keep the interval clear of 0 where it is. B minus A as written is the difference as
written, so one of the two may be off by three quarters of its last digit.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor

from drills.measures.catalogue import CATALOGUE
from engine.practice.blip_size import BLIP
from engine.trial.difference import Difference
from engine.trial.outcome import ArmCount, Outcome

MOST_DECIMALS = 6
"""Largest number of decimals tried for a figure: no pedal resolves as little."""
NO = "-"
"""Text in place of a figure that could not be computed."""
SCALED = f"Dip at {BLIP:g} %"
"""Name of the dips that are scaled to blips of one size."""
HUNDRED = 100
"""Number of trials out of which a p-value is told, as "3 of 100"."""
CHANCE = "Chance alone: how many of 100 trials of equals differ as much."
"""Meaning of the column "chance alone" in the table of a trial's measures."""
COUNTED, LEFT, FAILED, VOID = (
    "Counted",
    "Left after the cue",
    "Not as asked",
    "Not judged, repeated",
)
"""Names of the rows that count how the repetitions ended."""

Row = tuple[str, ...]
"""Cells of one row of a table, from left to right."""
HEADINGS: Row = ("", "A", "B", "difference", "likely", "chance alone")
"""Headings of the columns of the table, a cell for each."""


@dataclass(frozen=True)
class WrittenDifference:
    """One measure compared between A and B, as text; a dash stands for a missing figure."""

    label: str
    """Name of the measure, with its unit."""
    a: str
    """Mean of the medians of A's blocks, as text."""
    b: str
    """Mean of the medians of B's blocks, as text."""
    value: str
    """Difference B minus A as text, with its sign."""
    interval: str
    """Text of the 95 % interval of the difference B minus A, such as "-7 to -1"."""
    p: str
    """Two-sided p-value as text, rounded up: "0.05" means at most 0.05."""


def written(difference: Difference, name: str = "", fewest: int = 0) -> WrittenDifference:
    """Comparison of one measure between A and B, written as text.

    `name` stands for its own, if given; `fewest` decimals are written, or those of the catalogue.
    """
    measure = CATALOGUE[difference.measure]
    label = f"{name or measure.label}, {measure.unit}"
    a, b, value = difference.a, difference.b, difference.value
    if a is None or b is None:
        return WrittenDifference(label, NO, NO, NO, NO, NO)
    digits = decimals(difference, fewest)
    rounded = round(b - a if value is None else value, digits)
    a = _nearest((a + b - rounded) / 2, digits)
    in_a, in_b = (f"{level:.{digits}f}" for level in (a, a + rounded))
    low, high, p = difference.low, difference.high, difference.p
    if value is None or low is None or high is None or p is None:
        return WrittenDifference(label, in_a, in_b, NO, NO, NO)
    signed = [_signed(end, digits) for end in (value, low, high)]
    return WrittenDifference(
        label, in_a, in_b, signed[0], f"{signed[1]} to {signed[2]}", f"{_rounded_up(p):.2f}"
    )


def table_rows(outcome: Outcome) -> tuple[Row, ...]:
    """Rows of the table: the dips, the dips scaled to one size of blip, the blips, the others."""
    blips = outcome.blips
    return (
        table_row(outcome.dip),
        table_row(blips.scaled, SCALED),
        *map(table_row, (blips.peaks, outcome.rebound, outcome.settle)),
    )


def table_row(difference: Difference, name: str = "", fewest: int = 0) -> Row:
    """Row of the table for one compared measure, a cell for each heading; see `written`."""
    row = written(difference, name, fewest)
    return row.label, row.a, row.b, row.value, row.interval, luck_words(difference.p)


def count_rows(counts: tuple[ArmCount, ArmCount]) -> tuple[Row, ...]:
    """Rows on how the repetitions of A and B ended; none for an ending that never came."""
    a, b = counts
    rows = (
        (COUNTED, a.counted, b.counted),
        (LEFT, a.left, b.left),
        (FAILED, a.failed, b.failed),
        (VOID, a.void, b.void),
    )
    return tuple(
        (name, str(of_a), str(of_b)) for name, of_a, of_b in rows if name == COUNTED or of_a or of_b
    )


def luck_words(p: float | None) -> str:
    """Of 100 trials of two equal set-ups, how many show as large a difference by chance alone."""
    return NO if p is None else f"{ceil(p * HUNDRED)} of {HUNDRED}"


def decimals(difference: Difference, fewest: int = 0) -> int:
    """Decimals for a measure: at least those of the catalogue, and at least `fewest`.

    There are as many as it takes for no end of an interval clear of 0 to be rounded to 0.
    """
    fewest = max(fewest, int(CATALOGUE[difference.measure].form[-2]))
    low, high = difference.low, difference.high
    if low is None or high is None or low <= 0 <= high:
        return fewest
    nearest = min(abs(low), abs(high))
    candidates = range(fewest, MOST_DECIMALS)
    return next((digits for digits in candidates if round(nearest, digits)), MOST_DECIMALS)


def _nearest(value: float, digits: int) -> float:
    """Number rounded to so many decimals; halves are rounded up."""
    unit = 10.0**-digits
    return floor(value / unit + 0.5) * unit


def _signed(value: float, digits: int) -> str:
    """Number as text with its sign; 0 has none."""
    return f"{value:+.{digits}f}" if round(value, digits) else f"{0:.{digits}f}"


def _rounded_up(p: float) -> float:
    return ceil(p * HUNDRED) / HUNDRED
