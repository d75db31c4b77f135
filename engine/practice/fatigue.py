"""Whether the foot tires: the newest twelve scores of a kind of drill fall, by Mann-Kendall.

Asked after every repetition, so the level falls with the repetitions there are: an even share of
one small chance for each would be a constant over their number. A foot that does not tire
is then called tired in fewer than 5 of 100 sittings, of 30 repetitions as of 100, and of 30 also
where each is a little like the one before: `tests/bench/rates.py`.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from engine.practice.results import Result
from engine.practice.statistics import chance_of_fall, slope

NEWEST = 12
"""count of repetitions of a kind that are looked at."""
LEVEL = 0.03
"""1, chance that calls the foot tired, times the repetitions of the sitting."""
USUAL, ENOUGH = 20, 5
"""count, newest scores of a level that say what is usual of it, and the fewest that do."""


@dataclass(frozen=True)
class Scored:
    """A repetition that counted."""

    kind: str
    """What it is compared with: its kind of drill, or its level where some are harder."""
    score: float
    """0 to 100, 0 where it did not do what was asked; or how far it is from what is usual."""


@dataclass(frozen=True)
class Fatigue:
    """What tires, and how fast."""

    kind: str
    """Name of the kind of drill."""
    fall: float
    """points, lower per repetition of it, by Theil-Sen; 0 where most pairs are tied."""


def usual_scores(earlier: Sequence[Result], fewest: int = ENOUGH) -> dict[str, float]:
    """The usual score of each level, by its id, that earlier repetitions tell, oldest first.

    Of a level with fewer scores than `fewest` nothing is usual.
    """
    scores: dict[str, list[float]] = defaultdict(list)
    for one in earlier:
        if one.counts and one.score is not None:
            scores[one.level].append(one.score)
    return {level: fmean(some[-USUAL:]) for level, some in scores.items() if len(some) >= fewest}


def fatigue_of(session: Sequence[Scored]) -> Fatigue | None:
    """Whether the kind of the newest repetition tires; None where it does not.

    To be asked after every repetition that counted, with those of this sitting, oldest first.
    Where a stop was suggested the caller leaves out the repetitions of that kind up to then, and
    nothing is suggested again before there are twelve newer ones.
    """
    if not session:
        return None
    kind = session[-1].kind
    scores = [one.score for one in session if one.kind == kind][-NEWEST:]
    if len(scores) < NEWEST or chance_of_fall(scores) > LEVEL / len(session):
        return None
    return Fatigue(kind, max(0.0, -slope(scores)))
