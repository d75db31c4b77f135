"""Words of a trial: its status, its set-ups, and its outcome as sentences and a table.

Every figure of a measure has the same decimals: those of the catalogue, or as many more as it
takes to keep the interval clear of 0 where it is. B less A as written is the difference as written,
so one of the two may be off by three quarters of its last digit.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor

from drills.measures.catalogue import CATALOGUE
from engine.practice.blip_size import BLIP
from engine.trial.blip_words import (
    SCALED,
    is_split,
    split_reason,
    split_words,
)
from engine.trial.difference import Difference
from engine.trial.outcome import NOTICEABLE, ArmCount, Finding, Outcome
from engine.trial.trial import FEWEST_PAIRS, Arm, SetUp, features

MOST_DECIMALS = 6
"""Largest number of decimals tried for a figure: no pedal resolves as little."""
UNCLEAR = "Cannot tell: there may be no difference, or one you would notice"
"""Heading of a result whose interval has room for both."""
NO = "-"
"""Text in place of a figure that could not be computed."""
PHRASES = {"rebound": "coming back over", "settle": "settling"}
"""Names in sentences for the two compared measures other than the dip."""
SAME = ("says the same", "say the same")
"""Verbs for one measure and for two, if they favour the same set-up as the dip does."""
OPPOSITE = ("says the opposite", "say the opposite")
"""Verbs for one measure and for two, if they favour the other set-up than the dip does."""
NOTHING = ("does not tell them apart", "do not tell them apart")
"""Verbs for one measure and for two, if they favour neither set-up."""
HUNDRED = 100
"""Number of trials out of which a p-value is told, as "3 of 100"."""
HEADINGS = ("", "A", "B", "B less A", "likely", "by luck alone")
"""Headings of the columns of the table of a trial's measures."""
OF_LUCK = "By luck alone: of 100 trials of two that are alike, so many show as large a difference."
"""Meaning of the column "by luck alone" in the table of a trial's measures."""


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
    """Difference B less A as text, with its sign."""
    interval: str
    """Text of the 95 % interval of the difference B less A, such as "-7 to -1"."""
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


def table_rows(outcome: Outcome) -> tuple[tuple[str, ...], ...]:
    """Rows of the table: the dips, the dips scaled to one size of blip, the blips, the others."""
    blips = outcome.blips
    return (
        table_row(outcome.dip),
        table_row(blips.scaled, SCALED),
        *map(table_row, (blips.peaks, outcome.rebound, outcome.settle)),
    )


def table_row(difference: Difference, name: str = "", fewest: int = 0) -> tuple[str, ...]:
    """Row of the table for one compared measure, a cell for each heading; see `written`."""
    row = written(difference, name, fewest)
    return row.label, row.a, row.b, row.value, row.interval, luck_words(difference.p)


def luck_words(p: float | None) -> str:
    """Of 100 trials of two equal set-ups, how many show as large a difference by chance alone."""
    return NO if p is None else f"{ceil(p * HUNDRED)} of {HUNDRED}"


def count_words(arm: Arm, name: str, count: ArmCount) -> str:
    """Sentence on how the repetitions with one set-up ended; `name` is that of the set-up."""
    parts = [f"{count.counted} counted"]
    parts += [f"{count.left} of them left after the cue"] if count.left else []
    parts += [f"{count.failed} of them not done as asked"] if count.failed else []
    return f"{arm.value} ({name}): {', '.join(parts)}; {count.void} did not count."


def counts_words(counts: tuple[ArmCount, ArmCount], names: tuple[str, str]) -> tuple[str, ...]:
    """Lines below the table: what its last column means, and how the repetitions ended."""
    return (OF_LUCK, *(count_words(*arm) for arm in zip(Arm, names, counts, strict=True)))


def names_of(a_name: str, b_name: str) -> dict[Arm, str]:
    """Both arms as they are named in sentences, such as "A (toes)"; a set-up may have no name."""
    set_ups = {Arm.A: a_name, Arm.B: b_name}
    return {arm: f"{arm} ({name})" if name else f"{arm}" for arm, name in set_ups.items()}


def not_done_words(counts: Sequence[ArmCount], names: dict[Arm, str]) -> str:
    """Heading where too little was done as asked with a set-up to tell anything; else empty."""
    for arm, count in zip(Arm, counts, strict=True):
        if not count.is_telling:
            done = count.counted - count.left - count.failed
            return (
                f"Cannot tell: only {done} of {count.counted} were done as asked with {names[arm]}"
            )
    return ""


def alike_words(low: float, high: float) -> str:
    """Heading where no difference is large enough to notice; the interval is in points."""
    most = ceil(max(abs(low), abs(high), 1))
    return f"No difference you would notice: at most {points_words(most, 0)} either way"


def steadier_words(name: str, difference: Difference, fewest: int = 0) -> str:
    """Heading that names the steadier arm, by how much and within what interval."""
    digits = decimals(difference, fewest)
    value, low, high = difference.value or 0.0, difference.low or 0.0, difference.high or 0.0
    ends = [f"{end:.{digits}f}" for end in sorted((abs(low), abs(high)))]
    return f"{name} is steadier by {points_words(abs(value), digits)} ({' to '.join(ends)})"


def set_up_words(set_up: SetUp) -> tuple[str, ...]:
    """Features of a set-up of the foot in words, such as "toes on the brake"."""
    return (f"{set_up.ball.value} on the brake", *(part.value for part in features(set_up)[1:]))


def finding_words(outcome: Outcome) -> str:
    """Finding of a trial in a few words, for the list of past trials."""
    finding = outcome.finding.value
    if outcome.finding is Finding.CANNOT_TELL and _is_telling(outcome) and is_split(outcome):
        return f"{finding}: {split_reason(outcome)}"
    return finding if outcome.steadier is None else f"{outcome.steadier} is {finding}"


def outcome_words(outcome: Outcome, a_name: str, b_name: str) -> tuple[str, ...]:
    """Outcome of a trial: a heading, and at most three lines under it.

    `names` are those of the two set-ups.
    """
    names = names_of(a_name, b_name)
    lines = (
        _heading(outcome, names),
        _explanation(outcome, names),
        typical_words(outcome) if outcome.blips.differ and not is_split(outcome) else "",
        _warning(outcome),
    )
    return tuple(line for line in lines if line)


def typical_words(outcome: Outcome) -> str:
    """Sentence with the typical blips of both arms, as the table has them; empty if not known."""
    row = written(outcome.blips.peaks)
    return "" if row.a == NO else f"Typical blips: {row.a} % with A, {row.b} % with B."


def _heading(outcome: Outcome, names: dict[Arm, str]) -> str:
    dip = outcome.dip
    if dip.value is None or dip.low is None or dip.high is None:
        if dip.pairs < FEWEST_PAIRS:
            return f"Cannot tell: it takes {FEWEST_PAIRS} whole pairs of blocks, not {dip.pairs}"
        return "Cannot tell: no dip was measured"
    if not_done := not_done_words(outcome.counts, names):
        return not_done
    if outcome.finding is Finding.NO_DIFFERENCE:
        return alike_words(dip.low, dip.high)
    if outcome.steadier is None:
        return f"Cannot tell: {split_reason(outcome)}" if is_split(outcome) else UNCLEAR
    return steadier_words(names[outcome.steadier], dip)


def _explanation(outcome: Outcome, names: dict[Arm, str]) -> str:
    """Line under the heading of a trial's outcome; empty if the heading says it all."""
    dip = outcome.dip
    if dip.value is None or dip.low is None or dip.high is None or dip.p is None:
        return ""
    if not _is_telling(outcome):
        return "What was not done is taken to be as bad as the worst: the figures say little."
    if outcome.steadier is not None:
        return _other_measures(outcome, outcome.steadier)
    if outcome.finding is Finding.CANNOT_TELL:
        if not is_split(outcome):
            return _possible(outcome, names)
        told = split_words(outcome)
        return told and f"{typical_words(outcome)} {told}"
    favoured = None if is_split(outcome) else dip.smaller
    if favoured is None:
        return "Take the one you find easier."
    return f"What little there is favours {names[favoured]}."


def _is_telling(outcome: Outcome) -> bool:
    """Whether enough was done as asked with both set-ups for a finding."""
    return all(count.is_telling for count in outcome.counts)


def _possible(outcome: Outcome, names: dict[Arm, str]) -> str:
    """Sentence on how much steadier A or B may be: by the dips, or scaled where those allow more
    than a player would notice and the dips as they are do not."""
    dip, scaled = outcome.dip, outcome.blips.scaled
    at, widest = (f"At blips of {BLIP:g} %, ", scaled) if dip.is_within(NOTICEABLE) else ("", dip)
    if widest.low is None or widest.high is None:
        return ""
    return at + possible_words(widest.low, widest.high, names)


def possible_words(low: float, high: float, names: dict[Arm, str], digits: int = 0) -> str:
    """Sentence on how much steadier A or B may be, for an interval of B less A from low to high."""
    by = {Arm.A: high, Arm.B: -low}
    more, less = (Arm.A, Arm.B) if high > -low else (Arm.B, Arm.A)
    start = f"{names[more]} may be steadier by up to {points_words(by[more], digits)}"
    if round(by[less], digits) <= 0:
        return f"{start}, or not at all."
    return f"{start}, or {names[less]} by up to {by[less]:.{digits}f}."


def _other_measures(outcome: Outcome, steadier: Arm) -> str:
    """Sentence on whether the measures other than the dip favour the same set-up."""
    measures: dict[tuple[str, str], list[str]] = {SAME: [], OPPOSITE: [], NOTHING: []}
    for difference in (outcome.rebound, outcome.settle):
        favoured = difference.smaller
        agreement = NOTHING if favoured is None else SAME if favoured is steadier else OPPOSITE
        measures[agreement].append(PHRASES[difference.measure])
    parts = [
        f"{' and '.join(phrases)} {predicates[len(phrases) - 1]}"
        for predicates, phrases in measures.items()
        if phrases
    ]
    return f"{'; '.join(parts)}.".capitalize()


def _warning(outcome: Outcome) -> str:
    if not outcome.recalibrated:
        return ""
    return "The pedals were set up anew between blocks: part of this may be that."


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


def points_words(value: float, digits: int) -> str:
    """Number of points in words, with so many decimals."""
    return CATALOGUE["dip"].with_unit(f"{value:.{digits}f}")


def _signed(value: float, digits: int) -> str:
    """Number as text with its sign; 0 has none."""
    return f"{value:+.{digits}f}" if round(value, digits) else f"{0:.{digits}f}"


def _rounded_up(p: float) -> float:
    return ceil(p * HUNDRED) / HUNDRED
