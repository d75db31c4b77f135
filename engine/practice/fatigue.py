"""Fatigue of the foot: a Mann-Kendall test on the newest twelve scores of one kind of drill.

It is asked after every repetition, so its level falls with the number of repetitions in the
session. `tests/bench/rates.py` measures how often a foot that does not tire is called tired: in
fewer than 5 of 100 sessions.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from engine.practice.results import Result
from engine.practice.statistics import chance_of_fall, slope

NEWEST = 12
"""Newest repetitions of a kind of drill that the test for fatigue looks at, as a count."""
LEVEL = 0.03
"""p-value at which the foot counts as tired, times the number of repetitions in the session.

An even share of one small chance for each repetition would be a constant over their number."""
USUAL, ENOUGH = 20, 5
"""Newest scores that a level's usual score is the mean of: most and fewest, as counts."""


@dataclass(frozen=True)
class Scored:
    """Score of one repetition that counted, as the test for fatigue reads it."""

    kind: str
    """Group the score is compared within: the kind of drill, or the level if some are harder."""
    score: float
    """Score, 0 to 100 (0: not done as asked), or points above the level's usual score."""


@dataclass(frozen=True)
class Fatigue:
    """Kind of drill in which the scores fall within a session, and how fast they fall."""

    kind: str
    """Name of the kind of drill whose scores fall."""
    fall: float
    """Points of score lost per repetition (Theil-Sen); 0 if most pairs of scores are tied."""


def usual_scores(earlier: Sequence[Result], fewest: int = ENOUGH) -> dict[str, float]:
    """Mean of the newest scores of each level, by the id of the level; `earlier` is oldest first.

    A level with fewer scores than `fewest` is left out.
    """
    scores: dict[str, list[float]] = defaultdict(list)
    for result in earlier:
        if result.counts and result.score is not None:
            scores[result.level].append(result.score)
    return {
        level: fmean(of_level[-USUAL:])
        for level, of_level in scores.items()
        if len(of_level) >= fewest
    }


def fatigue_of(session: Sequence[Scored]) -> Fatigue | None:
    """Fatigue in the kind of drill played last; None if its scores do not fall.

    `session` holds every repetition of the session that counted, oldest first. After a suggestion
    to stop, the caller leaves out that kind's repetitions up to then, so that nothing is suggested
    again before there are twelve newer ones.
    """
    if not session:
        return None
    kind = session[-1].kind
    scores = [scored.score for scored in session if scored.kind == kind][-NEWEST:]
    if len(scores) < NEWEST or chance_of_fall(scores) > LEVEL / len(session):
        return None
    return Fatigue(kind, max(0.0, -slope(scores)))
