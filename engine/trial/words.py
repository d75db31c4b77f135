"""Outcome of a trial as a lead sentence, a few more, one figure, and the rows of its picture."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from drills.measures.catalogue import CATALOGUE
from drills.remark import Headline
from engine.practice.blip_size import BLIP
from engine.trial.blip_words import blips_words, is_split, split_reason, split_words
from engine.trial.difference import Difference
from engine.trial.difference_rows import DifferenceRow, rows_of
from engine.trial.measure_table import HEADINGS, count_rows, decimals, table_rows
from engine.trial.outcome import NOTICEABLE, ArmCount, Finding, Outcome
from engine.trial.result_texts import ResultTexts
from engine.trial.trial import FEWEST_PAIRS, Arm, SetUp, features

UNCLEAR = "Cannot tell them apart."
"""Lead sentence of a result whose interval has room for no difference and for a noticeable one."""
BECAUSE = "Cannot tell them apart: {}."
"""Lead sentence of a result that tells nothing for a reason, which is filled in."""
PHRASES = {"rebound": "overshoot", "settle": "settling"}
"""Names in sentences for the two compared measures other than the dip."""
SAME = ("says the same", "say the same")
"""Verbs for one measure and for two, if they favour the same set-up as the dip does."""
OPPOSITE = ("says the opposite", "say the opposite")
"""Verbs for one measure and for two, if they favour the other set-up than the dip does."""
NOTHING = ("does not tell them apart", "do not tell them apart")
"""Verbs for one measure and for two, if they favour neither set-up."""
WORST = "What was not done counts as the worst. The figures say little."
"""Sentences on a trial with a set-up of which more than half was not done as asked."""
EASIER = "Take the one you find easier."
"""Advice after a trial that found no difference."""
RECALIBRATED = "The pedals were set up again meanwhile: part may be that."
"""Warning of a trial whose pedals were calibrated between its blocks or days."""
AT_SIZE = f" That is at blips of {BLIP:g} %."
"""Sentence after one on dips that are scaled to one size of blip."""
PLAYED, AT_ONE_SIZE = "dips as played", f"dips at blips of {BLIP:g} %"
"""Names of the two rows in the picture of a trial's difference."""


def result_texts(outcome: Outcome, a_name: str, b_name: str) -> ResultTexts:
    """All that the screens of a trial's result say; the names are those of its set-ups."""
    return ResultTexts(
        outcome_words(outcome),
        outcome_figure(outcome),
        outcome_rows(outcome),
        (a_name, b_name),
        (HEADINGS, *table_rows(outcome)),
        count_rows(outcome.counts),
    )


def outcome_words(outcome: Outcome) -> tuple[str, ...]:
    """Outcome of a trial: the lead sentence, and at most three lines under it."""
    lines = (
        _lead(outcome),
        _explanation(outcome),
        blips_words(outcome.blips) if _names_blips(outcome) else "",
        RECALIBRATED if outcome.recalibrated else "",
    )
    return tuple(line for line in lines if line)


def outcome_figure(outcome: Outcome) -> Headline | None:
    """The large figure of a trial's result: by how much one set-up is steadier, if it is told."""
    return None if outcome.steadier is None else steadier_figure(outcome.dip)


def outcome_rows(outcome: Outcome) -> tuple[DifferenceRow, ...]:
    """Rows of the picture: the dips as played, and the scaled ones where they say something else.

    There are none where too little was done as asked for the figures to say anything, or where
    the size of the blips is not known.
    """
    dip, scaled = outcome.dip, outcome.blips.scaled
    if scaled.p is None or not is_telling(outcome.counts):
        return ()
    return rows_of((PLAYED, dip), *(() if say_alike(dip, scaled) else ((AT_ONE_SIZE, scaled),)))


def say_alike(one: Difference, other: Difference) -> bool:
    """Whether two comparisons say the same, so that one of them is enough to draw."""
    is_small = one.is_within(NOTICEABLE) is other.is_within(NOTICEABLE)
    return is_small and one.smaller is other.smaller


def finding_words(outcome: Outcome) -> str:
    """Finding of a trial in a few words, for the list of past trials."""
    finding = outcome.finding.value
    is_unclear = outcome.finding is Finding.CANNOT_TELL and is_telling(outcome.counts)
    if is_unclear and is_split(outcome):
        return f"{finding}: {split_reason(outcome)}"
    return finding if outcome.steadier is None else f"{outcome.steadier} is {finding}"


def set_up_words(set_up: SetUp) -> tuple[str, ...]:
    """Features of a set-up of the foot in words, such as "toes on the brake"."""
    return (f"{set_up.ball.value} on the brake", *(part.value for part in features(set_up)[1:]))


def _lead(outcome: Outcome) -> str:
    dip = outcome.dip
    if dip.value is None or dip.low is None or dip.high is None:
        if dip.pairs < FEWEST_PAIRS:
            return BECAUSE.format(f"{dip.pairs} whole pairs, {FEWEST_PAIRS} are needed")
        return BECAUSE.format("no dip was measured")
    if not_done := not_done_lead(outcome.counts):
        return not_done
    if outcome.finding is Finding.NO_DIFFERENCE:
        return alike_lead(dip.low, dip.high)
    if outcome.steadier is None:
        return BECAUSE.format(split_reason(outcome)) if is_split(outcome) else UNCLEAR
    return steadier_lead(outcome.steadier, dip)


def _explanation(outcome: Outcome) -> str:
    """Line under the lead sentence of a trial's outcome; empty if that says it all."""
    dip = outcome.dip
    if dip.value is None or dip.low is None or dip.high is None or dip.p is None:
        return ""
    if not is_telling(outcome.counts):
        return WORST
    if outcome.steadier is not None:
        return _other_measures(outcome, outcome.steadier)
    if outcome.finding is Finding.CANNOT_TELL:
        return split_words(outcome) if is_split(outcome) else _possible(outcome)
    return favoured_words(None if is_split(outcome) else dip.smaller)


def _names_blips(outcome: Outcome) -> bool:
    """Whether the blips are named: where they differ, and where their size decides the outcome."""
    if not is_split(outcome):
        return outcome.blips.differ
    is_unclear = outcome.finding is Finding.CANNOT_TELL and is_telling(outcome.counts)
    return is_unclear and outcome.blips.scaled.p is not None


def _possible(outcome: Outcome) -> str:
    """Sentence on how much steadier A or B may be: by the dips, or scaled where those allow more
    than a player would notice and the dips as they are do not."""
    dip, scaled = outcome.dip, outcome.blips.scaled
    at, widest = (AT_SIZE, scaled) if dip.is_within(NOTICEABLE) else ("", dip)
    if widest.low is None or widest.high is None:
        return ""
    return possible_words(widest.low, widest.high) + at


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


def is_telling(counts: Sequence[ArmCount]) -> bool:
    """Whether enough was done as asked with both set-ups for a finding."""
    return all(count.is_telling for count in counts)


def not_done_lead(counts: Sequence[ArmCount]) -> str:
    """Lead sentence where too little was done as asked with a set-up to tell anything; else
    empty."""
    for arm, count in zip(Arm, counts, strict=True):
        if not count.is_telling:
            done = count.counted - count.left - count.failed
            return BECAUSE.format(f"{done} of {count.counted} done as asked with {arm}")
    return ""


def alike_lead(low: float, high: float) -> str:
    """Lead sentence where no difference is large enough to notice; the interval is in points."""
    most = ceil(max(abs(low), abs(high), 1))
    return f"No difference you would notice: {points_words(most, 0)} at most."


def steadier_lead(arm: Arm, difference: Difference, fewest: int = 0) -> str:
    """Lead sentence that names the steadier arm, by how much and within what interval."""
    digits = decimals(difference, fewest)
    value, low, high = difference.value or 0.0, difference.low or 0.0, difference.high or 0.0
    ends = [f"{end:.{digits}f}" for end in sorted((abs(low), abs(high)))]
    points = points_words(abs(value), digits)
    return f"{arm} is steadier by {points}, likely {' to '.join(ends)}."


def steadier_figure(difference: Difference, fewest: int = 0) -> Headline:
    """Large figure of a result: by how many points an arm is steadier, as the lead has it."""
    value, _, unit = points_words(
        abs(difference.value or 0.0), decimals(difference, fewest)
    ).partition(" ")
    return Headline(value, f"{unit} steadier")


def possible_words(low: float, high: float, digits: int = 0) -> str:
    """Sentence on how much steadier A or B may be, for an interval of B minus A from low to
    high."""
    by = {Arm.A: high, Arm.B: -low}
    more, less = (Arm.A, Arm.B) if high > -low else (Arm.B, Arm.A)
    start = f"{more} may be up to {points_words(by[more], digits)} steadier"
    if round(by[less], digits) <= 0:
        return f"{start}, or not at all."
    return f"{start}, {less} up to {by[less]:.{digits}f}."


def favoured_words(arm: Arm | None) -> str:
    """Sentence after a difference too small to notice; None: it favours neither arm."""
    return EASIER if arm is None else f"What little there is favours {arm}."


def points_words(value: float, digits: int) -> str:
    """Number of points in words, with so many decimals."""
    return CATALOGUE["dip"].with_unit(f"{value:.{digits}f}")
