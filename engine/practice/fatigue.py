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
"""Newest repetitions of a kind that the test looks at, as a count."""
LEVEL = 0.03
"""p-value that calls the foot tired, times the number of repetitions in the session, from 0 to 1.

An even share of one small chance for each repetition would be a constant over their number."""
USUAL, ENOUGH = 20, 5
"""Newest scores of a level that its usual score is the mean of, and the fewest, as counts."""


@dataclass(frozen=True)
class Scored:
    """Score of a repetition that counted."""

    kind: str
    """What it is compared with: its kind of drill, or its level where some are harder."""
    score: float
    """0 to 100, 0 where it did not do what was asked; or points above the level's usual score."""


@dataclass(frozen=True)
class Fatigue:
    """A kind of drill whose scores fall, and how fast."""

    kind: str
    """Name of the kind of drill."""
    fall: float
    """Points lost per repetition of it (Theil-Sen); 0 where most pairs are tied."""


def usual_scores(earlier: Sequence[Result], fewest: int = ENOUGH) -> dict[str, float]:
    """The mean of the newest scores of each level, by its id; `earlier` is oldest first.

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
    """Fatigue in the kind of drill played last; None where its scores do not fall.

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
