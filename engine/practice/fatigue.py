"""Fall of the scores within a session, which a tired foot may be behind.

It is asked after every repetition, so its level falls with the number of repetitions in the
session. `tests/bench/rates.py` measures how often scores that do not fall are called falling, also
where neighbouring ones are alike, and what falls are found.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from math import erfc, sqrt
from statistics import fmean

from engine.practice.results import Purpose, Result

NEWEST = 12
"""Newest repetitions of a kind of drill over which scores may have fallen, as a count."""
FEWEST = 20
"""Repetitions of a kind of drill, as a count, from which on a fall is looked for.

With fewer than eight before the newest twelve there is too little for these to be compared with."""
ALIKE, MOST_ALIKE = 0.3, 0.8
"""Correlation of neighbouring scores that is usual, and the largest that is allowed for.

Some twenty scores say little of it, so what they say counts half and what is usual the other."""
LEVEL = 0.17
"""p-value at which scores count as falling, times the number of repetitions in the session.

That the looks overlap makes the share of sessions with a false alarm a quarter of this."""
SESSION = 40
"""Repetitions, as a count, for which LEVEL is set; a longer session has a smaller p-value."""
TIED = 1e-9
"""Sum of squares of ranks, in squared ranks, up to which they count as all fitted."""
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
    """Kind of drill in which the scores fall within a session, and by how much."""

    kind: str
    """Name of the kind of drill whose scores fall."""
    fall: float
    """Points of score lost over the newest twelve, by least squares; 0 where it is none."""


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


def scored_in(
    results: Sequence[Result], earlier: Mapping[str, float], after: Mapping[str, int]
) -> list[Scored]:
    """Scores in a session by kind of drill, each minus the usual score of its level.

    So a harder level does not look like fatigue; those with nothing shown are left out for the same
    reason. `earlier` are usual scores before the session by the id of the level, and `after` is how
    many of the session's first results are left out, by the kind of drill.
    """
    usual = {**usual_scores(results, 1), **earlier}
    return [
        Scored(result.kind, result.score - usual[result.level])
        for number, result in enumerate(results)
        if result.counts and result.score is not None and result.why is not Purpose.DARK
        if number >= after.get(result.kind, 0)
    ]


def fatigue_of(session: Sequence[Scored]) -> Fatigue | None:
    """Fall of the scores in the kind of drill played last; None if there is none.

    `session` holds every repetition of the session that counted, oldest first. Compared are the n
    scores of that kind, n >= 20, with the course `t` of a foot that tires at last: 0 up to the
    newest twelve, then 1 to 12. With `c = t - mean(t)`, and `r` the mid-ranks of the scores less
    their mean:

        s^2 = sum(r^2) / (n - 1)
        e   = r less its least-squares fit by c and a straight line
        a   = sum(e_i e_(i+1)) / sum(e^2), 0 where all e are 0
        rho = (0.3 + a + (2 + 4 a) / n) / 2, between 0 and 0.8
        z   = -sum(c r) / (s sqrt(sum_ij c_i c_j rho^|i - j|))

    `rho` is the correlation of neighbours, half by these scores (with the correction for few that
    follow a line, after Marriott & Pope 1954, from memory), half the usual one. Scores count as
    falling where the upper tail of the standard normal distribution at `z` is at most
    0.17 / max(40, len(session)). Ranks, as scores are skewed, end at 100, and are 0 where the
    repetition was not done. The fall in points is that of the line of shape `t` that fits the
    scores themselves best.

    After a suggestion to stop, the caller leaves out that kind's repetitions up to then, so that
    nothing is suggested again before there are twenty newer ones.
    """
    if not session:
        return None
    kind = session[-1].kind
    scores = [scored.score for scored in session if scored.kind == kind]
    if len(scores) < FEWEST or _tail(_fall_of(scores)) > LEVEL / max(SESSION, len(session)):
        return None
    course = _course(len(scores))
    fitted = _product(course, scores) / _product(course, course)
    return Fatigue(kind, max(0.0, -NEWEST * fitted))


def _fall_of(scores: Sequence[float]) -> float:
    """How far the scores fall over the newest twelve, in standard deviations of chance."""
    middle = (len(scores) - 1) / 2
    ranks = [rank - middle for rank in _ranks(scores)]
    square = _product(ranks, ranks)
    if square == 0:
        return 0.0
    course = _course(len(scores))
    fall = -_product(course, ranks)
    alike = _alike(ranks, course)
    return fall / sqrt(square / (len(ranks) - 1) * _variance(course, alike))


def _alike(ranks: Sequence[float], course: Sequence[float]) -> float:
    """Correlation of neighbouring scores that is allowed for, from 0 to MOST_ALIKE."""
    middle = (len(ranks) - 1) / 2
    line = _without([place - middle for place in range(len(ranks))], course)
    rest = _without(_without(ranks, course), line)
    square = _product(rest, rest)
    own = _product(rest, rest[1:]) / square if square > TIED else 0.0
    own += (2 + 4 * own) / len(rest)
    return min(max((ALIKE + own) / 2, 0.0), MOST_ALIKE)


def _without(values: Sequence[float], fitted: Sequence[float]) -> list[float]:
    """What is left of values after their least-squares fit by multiples of other values."""
    factor = _product(values, fitted) / _product(fitted, fitted)
    return [value - factor * fit for value, fit in zip(values, fitted, strict=True)]


@cache
def _course(count: int) -> tuple[float, ...]:
    """Course of a foot that tires over the newest twelve of `count` repetitions, less its mean."""
    rising = [max(0, place + 1 + NEWEST - count) for place in range(count)]
    return tuple(value - fmean(rising) for value in rising)


def _variance(weights: Sequence[float], alike: float) -> float:
    """Variance of a weighted sum of noise of variance 1 whose neighbours correlate by `alike`."""
    before, variance = 0.0, 0.0
    for weight in weights:
        variance += weight * (weight + 2 * alike * before)
        before = weight + alike * before
    return variance


def _product(these: Sequence[float], those: Sequence[float]) -> float:
    """Sum of the products of two sequences, up to the end of the shorter one."""
    return sum(one * other for one, other in zip(these, those, strict=False))


def _ranks(scores: Sequence[float]) -> list[float]:
    """Mid-ranks of the scores, from 0: those that are tied share the mean of their places."""
    ordered = sorted(scores)
    return [(bisect_left(ordered, one) + bisect_right(ordered, one) - 1) / 2 for one in scores]


def _tail(deviations: float) -> float:
    """Chance that a standard normal deviate lies at least so far up."""
    return erfc(deviations / sqrt(2)) / 2
