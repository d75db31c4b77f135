"""Words of the reveal beside those of the kinds of drill: notes, and a guess."""

from __future__ import annotations

from collections.abc import Sequence

from drills.digits import beside
from drills.health.words import LUCK
from drills.level import Level
from drills.measures.catalogue import CATALOGUE
from drills.measures.jumps import Jump
from drills.measures.sampling import NOTED_GAP, Sampling
from drills.score import WEIGHED, Verdict, load
from engine.drill.guesses import is_right
from engine.practice.personal_limit import load_of
from engine.practice.personal_words import OF_THE_LIMIT, figure

ALLOWED = "allowed"
SCORE = "Score"
OF_SCORE = "of 100"
GUESSED = "You said"


def of_limit_words(level: Level, verdict: Verdict) -> str:
    """Quiet line on how much of its limits a repetition took, such as "0.48 of the limit".

    It is the share of the figure beside it, as that is written. Empty where that is not the measure
    that the reveal is about, or reads as the limit itself.
    """
    limit, value = level.limits.get(verdict.worst), verdict.measures.get(verdict.worst)
    if verdict.reason not in WEIGHED or limit is None or value is None:
        return ""
    is_largest = figure(load(value, limit)) == figure(load_of(verdict.score or 0.0))
    shown, _ = beside(abs(value), limit, int(CATALOGUE[verdict.worst].form[-2]))
    taken = figure(float(shown) / limit)
    return f"{taken} {OF_THE_LIMIT}" if is_largest and taken != figure(1.0) else ""


def pedal_note(sampling: Sampling | None, jumps: Sequence[Jump], *, is_luck: bool) -> str:
    """Note about what the pedals had to do with a verdict; empty for nothing.

    There is room for one: jumps that were left out, or else luck, or else a gap between reads.
    """
    if jumps:
        times = "once" if len(jumps) == 1 else f"{len(jumps)} times"
        return f"The {jumps[-1].pedal} jumped {times}; that is left out."
    if is_luck:
        return f"{LUCK.capitalize()}."
    gap = None if sampling is None else sampling.gap_max
    return "" if gap is None or gap <= NOTED_GAP else f"The pedals were not read for {gap:.2f} s."


def guess_words(level: Level, verdict: Verdict, guess: float) -> str:
    """Sentence that compares the player's guess with what was measured.

    The measure is not written again where the large figure shows it.
    """
    measure = CATALOGUE[level.kind.guess_measure]
    was = verdict.measures.get(measure.name) or 0.0
    said = f"{GUESSED} {measure.written(guess)}"
    if is_right(guess, was):
        return f"{said}: right."
    if verdict.reason in WEIGHED and verdict.worst == measure.name:
        return f"{said}."
    return f"{said}, it was {measure.written(was)}."
