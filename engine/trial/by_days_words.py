"""Words of a trial by days: what it can find, and its outcome as sentences and a table."""

from __future__ import annotations

from engine.practice.blip_size import BLIP
from engine.trial.by_days_outcome import DaysOutcome
from engine.trial.by_days_power import FEWEST_DAYS, Power
from engine.trial.outcome import Finding
from engine.trial.trial import Arm
from engine.trial.words import (
    UNCLEAR,
    alike_words,
    names_of,
    not_done_words,
    possible_words,
    steadier_words,
    table_row,
    written,
)

SCALED = f"Scaled to {BLIP:.0f} %"
"""Name of the deviations as they would be at blips of one size."""
RAW = "As played"
"""Name of the deviations as they were."""
DECIMALS = 1
"""Fewest decimals of deviations in points: they are means of many blips."""


def power_words(power: Power) -> tuple[str, str]:
    """What a trial by days can find, and what that is known from, a sentence each."""
    if power.points is None:
        finds = f"8 of 10 such trials find one that is steadier by {100 * power.share:.0f} %."
    else:
        now = f"your brake is {power.typical:.1f} off now"
        finds = f"8 of 10 such trials find a difference of {power.points:.1f} points; {now}."
    if power.is_guess:
        return finds, f"That is a guess until it knows {FEWEST_DAYS} of your days."
    return finds, "That follows from how much your own days differ."


def days_finding_words(outcome: DaysOutcome) -> str:
    """Finding of a trial by days in a few words, for the list of past trials."""
    finding = outcome.finding.value
    return finding if outcome.steadier is None else f"{outcome.steadier} is {finding}"


def days_outcome_words(outcome: DaysOutcome, a_name: str, b_name: str) -> tuple[str, ...]:
    """Outcome of a trial by days: a heading, and at most three lines under it.

    `a_name` and `b_name` are those of the two set-ups.
    """
    names = names_of(a_name, b_name)
    lines = (
        _heading(outcome, names),
        _explanation(outcome, names),
        _blips(outcome),
        _warning(outcome),
    )
    return tuple(line for line in lines if line)


def days_table(outcome: DaysOutcome) -> tuple[tuple[str, ...], ...]:
    """Rows of the table of a trial by days, a cell for each heading of `words.HEADINGS`."""
    return (
        table_row(outcome.blips.scaled, SCALED, DECIMALS),
        table_row(outcome.raw, RAW, DECIMALS),
        table_row(outcome.blips.peaks),
    )


def _heading(outcome: DaysOutcome, names: dict[Arm, str]) -> str:
    figure = outcome.blips.scaled
    if figure.low is None or figure.high is None:
        return "Cannot tell: no blip was measured"
    if not_done := not_done_words(outcome.counts, names):
        return not_done
    if outcome.finding is Finding.NO_DIFFERENCE:
        return alike_words(figure.low, figure.high)
    if outcome.steadier is None:
        return "Cannot tell: the blips differed" if outcome.hangs_on_size else UNCLEAR
    return steadier_words(names[outcome.steadier], figure, DECIMALS)


def _explanation(outcome: DaysOutcome, names: dict[Arm, str]) -> str:
    """Line under the heading of a trial by days; empty if the heading says it all."""
    figure = outcome.blips.scaled
    if figure.low is None or figure.high is None:
        return ""
    if not all(count.is_telling for count in outcome.counts):
        return "What was not done is taken to be as bad as the worst."
    if outcome.finding is Finding.NO_DIFFERENCE:
        favoured = figure.smaller if outcome.blips.agree(outcome.raw) else None
        if favoured is None:
            return "Take the one you find easier."
        return f"What little there is favours {names[favoured]}."
    if outcome.steadier is not None:
        return f"By blips scaled to {BLIP:.0f} %, over {outcome.pairs} pairs of days."
    if outcome.hangs_on_size:
        return "Scaled and as played, the figures say different things."
    return possible_words(figure.low, figure.high, names, DECIMALS)


def _blips(outcome: DaysOutcome) -> str:
    """Line that names the blips of both set-ups, if they differ; else empty."""
    if not outcome.blips.differ:
        return ""
    row = written(outcome.blips.peaks)
    return f"Typical blips: {row.a} % with A, {row.b} % with B."


def _warning(outcome: DaysOutcome) -> str:
    if not outcome.recalibrated:
        return ""
    return "The pedals were set up anew between days: part of this may be that."
