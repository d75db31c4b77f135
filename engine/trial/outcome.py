"""What a trial of two set-ups ends with: differences, how sure they are, and what that means.

Every whole pair of blocks gives one number: the median of block B less that of block A. Their mean
is what is told. It is the mean of the medians of B less that of A, so the two and their difference
agree, and it is what the sign-flip test and its interval are of.

A repetition that counts stands for the largest value of the whole trial where it has none (left
after the cue, no blip, not settled) and where the foot did less than was asked (a light blip: a
simulated beginner's takes 7 points off, where its others take 30). To leave it out, or to take it
as it is, would make an arm look better by its failures (worst-rank scores: Lachin 1999, from
memory). An arm of which more than half failed so tells nothing of how steady it is.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import Enum
from statistics import fmean, median

from drills.score import Reason
from engine.trial.randomisation import counting, order, recalibrated
from engine.trial.sign_flip import LEVEL, SignFlip
from engine.trial.trial import BLOCK, FEWEST_PAIRS, MOST_PAIRS, Arm, Trial, TrialRepetition

NOTICEABLE = 2.0
"""points, a difference of dip under which nobody would notice it: one rung at the narrow end of the
ladder, whose limits are 10, 9, 7.5 and 6 points, and less than the 3 in which a dip is guessed."""
LESS = frozenset({Reason.LIGHT, Reason.FEW_BLIPS})
"""How a repetition ends that disturbs the brake little because it did too little."""
USUAL_SPREAD = 5.0
"""points, spread of the dips of a player of whom none are known. Of the simulated foot on "Good
company" it is 7 at skill 0.25 and 3 at 0.5: `tests/bench/trial.py`."""
ENOUGH = 20
"""count of dips that tell their spread, to about a quarter (two sets)."""
FOUND = dict(
    zip(
        range(FEWEST_PAIRS, MOST_PAIRS + 1),
        (1.40, 1.06, 0.94, 0.86, 0.80, 0.74, 0.70, 0.68, 0.65, 0.61, 0.60),
        strict=True,
    )
)
"""By the number of pairs, how many spreads of a dip a difference must be to be found in 8 of 10
trials: `tests/bench/trial.py`, lognormal dips. Six pairs find little, as all must say the same.
Where each dip is like the one before it (autocorrelation 0.5) it takes 1.3 times as much."""

Value = Callable[[TrialRepetition], float | None]
"""Which measure of a repetition is meant."""
Pair = tuple[tuple[TrialRepetition, ...], tuple[TrialRepetition, ...]]
"""The repetitions that count of a block of A and of one of B."""


class Finding(Enum):
    """What a trial tells."""

    STEADIER = "steadier"
    """One arm is steadier than the other."""
    NO_DIFFERENCE = "no difference you would notice"
    CANNOT_TELL = "cannot tell"


@dataclass(frozen=True)
class Difference:
    """One measure in both arms: medians, and the difference B less A with how sure it is."""

    measure: str
    """Name of the measure."""
    a: float | None
    """Mean of the medians of A's blocks, in the unit of the measure; None where it has none."""
    b: float | None
    """The same of B's blocks: B less A is the value."""
    value: float | None
    """B less A, in the unit of the measure; None where there are too few pairs."""
    low: float | None = None
    """Low end of the interval of 95 %; None where there are too few pairs."""
    high: float | None = None
    """High end of it; None where there are too few pairs."""
    p: float | None = None
    """Two-sided p of the sign-flip test over pairs; None where there are too few pairs."""
    pairs: int = 0
    """count of whole pairs it rests on, or would if they were enough."""


@dataclass(frozen=True)
class ArmCount:
    """What became of the repetitions of one arm."""

    counted: int
    """count of those that counted, those that were left among them."""
    void: int
    """count of those that did not count."""
    left: int
    """count of those that were left after the cue."""
    failed: int = 0
    """count of the others that counted and had no dip, or did less than was asked."""

    @property
    def is_telling(self) -> bool:
        """Whether at least half of what counted was done as asked."""
        return 2 * (self.left + self.failed) <= self.counted


@dataclass(frozen=True)
class Outcome:
    """What a whole trial ends with."""

    told: Finding
    """What it tells, by the dip alone."""
    steadier: Arm | None
    """The arm that is steadier; None unless one is."""
    dip: Difference
    """points, how far the brake fell."""
    rebound: Difference
    """points, how far it came back over."""
    settle: Difference
    """s, until it was steady again."""
    counts: tuple[ArmCount, ArmCount]
    """Of A and of B."""
    recalibrated: bool
    """Whether the pedals were set up anew between blocks: then the arms may read differently."""


def outcome(trial: Trial) -> Outcome:
    """What a trial ends with: of all its pairs, or of the whole ones it has."""
    pairs = _whole_pairs(trial)
    dip = _difference("dip", pairs, lambda one: one.dip)
    counts = _count(trial, Arm.A), _count(trial, Arm.B)
    told, steadier = _told(dip, counts)
    return Outcome(
        told,
        steadier,
        dip,
        _difference("rebound", pairs, lambda one: one.rebound),
        _difference("settle", pairs, lambda one: one.settle),
        counts,
        recalibrated(trial),
    )


def detectable_difference(pairs: int, spread: float) -> float:
    """Points, about the smallest true difference of dip that is told in 8 of 10 trials.

    `spread` is that of the player's own dips in points. Never under what is noticed, as that is
    told to be no difference. Raises KeyError where a trial cannot have so many pairs.
    """
    return max(NOTICEABLE, FOUND[pairs] * spread)


def spread_of(dips: Sequence[float]) -> float:
    """Points, the spread of some dips: 1.4826 of the median distance from their median.

    That is the standard deviation where they are normal (Hampel 1974, from memory), and a slip
    does not move it. The usual one where there are too few.
    """
    if len(dips) < ENOUGH:
        return USUAL_SPREAD
    middle = median(dips)
    return 1.4826 * median(abs(dip - middle) for dip in dips)


def _whole_pairs(trial: Trial) -> list[Pair]:
    """Those of which both blocks are full."""
    arms = order(trial.seed, trial.pairs)
    blocks = [counting(trial, block) for block in range(len(arms))]
    pairs = zip(arms[::2], blocks[::2], blocks[1::2], strict=True)
    return [
        (first, second) if arm is Arm.A else (second, first)
        for arm, first, second in pairs
        if min(len(first), len(second)) >= BLOCK
    ]


def _difference(measure: str, pairs: Sequence[Pair], value_of: Value) -> Difference:
    values = [value_of(one) for pair in pairs for block in pair for one in block]
    known = [value for value in values if value is not None]
    if not known:
        return Difference(measure, None, None, None, pairs=len(pairs))
    worst = max(known)
    medians = [[_median(block, value_of, worst) for block in pair] for pair in pairs]
    a, b = (fmean(arm) for arm in zip(*medians, strict=True))
    if len(pairs) < FEWEST_PAIRS:
        return Difference(measure, a, b, None, pairs=len(pairs))
    found = SignFlip.of([b - a for a, b in medians])
    return Difference(measure, a, b, found.value, found.low, found.high, found.p, len(pairs))


def _median(block: Sequence[TrialRepetition], value_of: Value, worst: float) -> float:
    """Median of a block, where what was not done, or done by too little, is as bad as the worst."""
    values = (None if one.reason in LESS else value_of(one) for one in block)
    return median(worst if value is None else value for value in values)


def _told(dip: Difference, counts: tuple[ArmCount, ArmCount]) -> tuple[Finding, Arm | None]:
    if dip.value is None or dip.low is None or dip.high is None or dip.p is None:
        return Finding.CANNOT_TELL, None
    if not all(count.is_telling for count in counts):
        return Finding.CANNOT_TELL, None
    if dip.low > -NOTICEABLE and dip.high < NOTICEABLE:
        return Finding.NO_DIFFERENCE, None
    if dip.p > LEVEL:
        return Finding.CANNOT_TELL, None
    return Finding.STEADIER, Arm.B if dip.value < 0 else Arm.A


def _count(trial: Trial, arm: Arm) -> ArmCount:
    arms = order(trial.seed, trial.pairs)
    blocks = {block for block, one in enumerate(arms) if one is arm}
    of_arm = [one for one in trial.tried if one.block in blocks]
    counted = [one for one in of_arm if not one.void]
    left = sum(one.reason is Reason.WALKED_OUT for one in counted)
    failed = sum(one.dip is None or one.reason in LESS for one in counted) - left
    return ArmCount(len(counted), len(of_arm) - len(counted), left, failed)
