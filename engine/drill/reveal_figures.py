"""Figures of a repetition for the details of its reveal: the score, and measures with limits."""

from __future__ import annotations

from drills.digits import apart, decimals
from drills.level import Level
from drills.measures.catalogue import CATALOGUE
from drills.measures.sampling import Sampling
from drills.score import Verdict, within
from engine.drill.reveal_words import ALLOWED, OF_SCORE, SCORE
from engine.kit.figures import Figure

MOST_FIGURES = 10
"""Largest number of figures in the details of a reveal, the score among them."""


def figures(level: Level, verdict: Verdict, sampling: Sampling | None = None) -> list[Figure]:
    """Figures of a repetition: the score, what was missed, and the measures with their limits.

    The measure that decided comes first, then those with a limit; one over its limit is marked.
    There is no score where the tolerance follows the player.
    """
    row = [] if level.is_staircase else [Figure(SCORE, verdict.points, OF_SCORE)]
    missed = level.kind.missed(level, verdict)
    if missed is not None:
        name, actual, asked = missed
        row.append(Figure(name, actual, asked, failed=True))
    candidates = [
        *([verdict.worst] if verdict.over else []),
        *level.limits,
        *level.kind.reveal_measures,
    ]
    names = [name for name in dict.fromkeys(candidates) if name in verdict.measures]
    finest = decimals(None if sampling is None else sampling.report_interval)
    return [*row, *(_figure(name, verdict, level, finest) for name in names)][:MOST_FIGURES]


def _figure(name: str, verdict: Verdict, level: Level, finest: int) -> Figure:
    measure, value, limit = CATALOGUE[name], verdict.measures[name], level.limits.get(name)
    written = measure.written(value, finest)
    if limit is None:
        return Figure(measure.label, written)
    allowed = f"{limit:g} {ALLOWED}"
    if within(value, limit):
        return Figure(measure.label, written, allowed)
    if value is not None:
        sign = "-" if value < 0 else "+" if measure.form.startswith("+") else ""
        written = measure.with_unit(f"{sign}{apart(abs(value), limit)[0]}")
    return Figure(measure.label, written, allowed, failed=True)
