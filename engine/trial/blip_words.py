"""Words on the blips of both arms of a trial, and on dips that are scaled to one size of blip."""

from __future__ import annotations

from engine.practice.blip_size import BLIP
from engine.trial.blips_compared import BlipsCompared
from engine.trial.measure_table import NO, written
from engine.trial.outcome import Outcome

NOT_KNOWN = "the size of the blips is not known"
"""Reason not to tell a difference of repetitions that have a dip and no blip."""
DIFFERED = "the blips differed"
"""Reason not to tell a difference that may be that of the blips."""
UNSURE = "the size of the blips decides it"
"""Reason not to tell a difference that one size of blip shows and another does not, where the blips
of A and B are much alike."""


def is_split(outcome: Outcome) -> bool:
    """Whether dips as they are and scaled ones do not tell the same, so that nothing is told."""
    return outcome.dip.p is not None and not outcome.blips.agree(outcome.dip)


def split_reason(outcome: Outcome) -> str:
    """Reason why nothing can be told of a trial whose dips do not tell the same once scaled."""
    blips = outcome.blips
    if blips.scaled.p is None:
        return NOT_KNOWN
    return DIFFERED if blips.differ else UNSURE


def split_words(outcome: Outcome) -> str:
    """Sentence on what the dips of such a trial say as they are and scaled; empty if unknown."""
    plain, scaled = outcome.dip.smaller, outcome.blips.scaled.smaller
    if outcome.blips.scaled.p is None:
        return ""
    if scaled is None:
        return f"The dips may be alike at blips of {BLIP:g} %."
    played = "but not as played" if plain is None else f"{plain} as played"
    return f"{scaled} is steadier at blips of {BLIP:g} %, {played}."


def blips_words(blips: BlipsCompared) -> str:
    """Sentence with the typical blips of both arms, as the table has them; empty if not known."""
    row = written(blips.peaks)
    return "" if row.a == NO else f"Typical blips: {row.a} % with A, {row.b} % with B."
