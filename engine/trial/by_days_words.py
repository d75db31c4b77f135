"""Words of a trial by days: what it can find, and its outcome in sentences, figure and rows."""

from __future__ import annotations

from drills.remark import Headline
from engine.practice.blip_size import BLIP
from engine.trial.blip_words import DIFFERED, blips_words
from engine.trial.by_days_outcome import DaysOutcome
from engine.trial.by_days_power import FEWEST_DAYS, Power
from engine.trial.difference_rows import DifferenceRow, rows_of
from engine.trial.measure_table import HEADINGS, Row, count_rows, table_row
from engine.trial.outcome import Finding
from engine.trial.result_texts import ResultTexts
from engine.trial.words import (
    BECAUSE,
    RECALIBRATED,
    UNCLEAR,
    WORST,
    alike_lead,
    favoured_words,
    is_telling,
    not_done_lead,
    points_words,
    possible_words,
    say_alike,
    steadier_figure,
    steadier_lead,
)

SCALED = f"At blips of {BLIP:g} %"
"""Name of the deviations as they would be at blips of one size."""
RAW = "As played"
"""Name of the deviations as they were."""
DECIMALS = 1
"""Fewest decimals of deviations in points: they are means of many blips."""
DISAGREE = f"As played and at blips of {BLIP:g} %, the figures disagree."
"""Sentence where the deviations as they were and scaled say different things."""
A_GUESS = f"A guess, until {FEWEST_DAYS} of your days are known."
"""Sentence on what a trial finds, if the spread of days is assumed."""
KNOWN = "Known from how much your own days differ."
"""Sentence on what a trial finds, if the spread of days is the player's own."""


def power_figure(power: Power) -> Headline:
    """Large figure of a trial by days before it begins: the difference that it can find."""
    if power.points is None:
        return Headline(f"{100 * power.share:.0f} %", "steadier: 8 of 10 trials find it")
    value, _, unit = points_words(power.points, 1).partition(" ")
    return Headline(value, f"{unit}: 8 of 10 trials find it")


def power_words(power: Power) -> tuple[str, ...]:
    """Sentences on the typical blip now, if known, and on what the large figure is known from."""
    from_what = A_GUESS if power.is_guess else KNOWN
    if power.typical is None:
        return (from_what,)
    return f"Your typical blip is {points_words(power.typical, 1)} off now.", from_what


def days_texts(outcome: DaysOutcome, a_name: str, b_name: str) -> ResultTexts:
    """All that the screens of such a result say; the names are those of its set-ups."""
    return ResultTexts(
        days_outcome_words(outcome),
        days_figure(outcome),
        days_rows(outcome),
        (a_name, b_name),
        (HEADINGS, *days_table(outcome)),
        count_rows(outcome.counts),
    )


def days_finding_words(outcome: DaysOutcome) -> str:
    """Finding of a trial by days in a few words, for the list of past trials."""
    finding = outcome.finding.value
    return finding if outcome.steadier is None else f"{outcome.steadier} is {finding}"


def days_outcome_words(outcome: DaysOutcome) -> tuple[str, ...]:
    """Outcome of a trial by days: the lead sentence, and at most three lines under it."""
    lines = (
        _lead(outcome),
        _explanation(outcome),
        blips_words(outcome.blips) if outcome.blips.differ else "",
        RECALIBRATED if outcome.recalibrated else "",
    )
    return tuple(line for line in lines if line)


def days_figure(outcome: DaysOutcome) -> Headline | None:
    """Large figure of the result: by how much one set-up is steadier, if it is told."""
    return None if outcome.steadier is None else steadier_figure(outcome.blips.scaled, DECIMALS)


def days_rows(outcome: DaysOutcome) -> tuple[DifferenceRow, ...]:
    """Rows of the picture: the scaled blips, and those as played where they say something else.

    There are none where too little was done as asked for the figures to say anything.
    """
    if not is_telling(outcome.counts):
        return ()
    scaled, raw = outcome.blips.scaled, outcome.raw
    played = () if say_alike(scaled, raw) else ((RAW.lower(), raw),)
    return rows_of((SCALED.lower(), scaled), *played)


def days_table(outcome: DaysOutcome) -> tuple[Row, ...]:
    """Rows of the table of a trial by days, a cell for each heading of its table."""
    return (
        table_row(outcome.blips.scaled, SCALED, DECIMALS),
        table_row(outcome.raw, RAW, DECIMALS),
        table_row(outcome.blips.peaks),
    )


def _lead(outcome: DaysOutcome) -> str:
    figure = outcome.blips.scaled
    if figure.low is None or figure.high is None:
        return BECAUSE.format("no blip was measured")
    if not_done := not_done_lead(outcome.counts):
        return not_done
    if outcome.finding is Finding.NO_DIFFERENCE:
        return alike_lead(figure.low, figure.high)
    if outcome.steadier is None:
        return BECAUSE.format(DIFFERED) if outcome.hangs_on_size else UNCLEAR
    return steadier_lead(outcome.steadier, figure, DECIMALS)


def _explanation(outcome: DaysOutcome) -> str:
    """Line under the lead sentence of a trial by days; empty if that says it all."""
    figure = outcome.blips.scaled
    if figure.low is None or figure.high is None:
        return ""
    if not is_telling(outcome.counts):
        return WORST
    if outcome.finding is Finding.NO_DIFFERENCE:
        return favoured_words(figure.smaller if outcome.blips.agree(outcome.raw) else None)
    if outcome.steadier is not None:
        return f"{outcome.pairs} pairs of days, at blips of {BLIP:g} %."
    if outcome.hangs_on_size:
        return DISAGREE
    return possible_words(figure.low, figure.high, DECIMALS)
