"""Outcome of a trial: the differences between its arms, their uncertainty, and the finding.

Every whole pair of blocks gives one number: the median of block B less that of block A. Their mean
is the difference that is reported and tested. It equals the mean of the medians of B less that of
A, so that the two and their difference agree.

A repetition that counts takes the largest value of the whole trial where it has none (left after
the cue, no blip, not settled) and where the foot did less than was asked, as a light blip does. To
leave it out, or to take its own value, would make an arm look better by its failures (worst-rank
scores: Lachin 1999, from memory). An arm of which more than half failed so has no finding.

`tests/bench/trial.py` measures how often a finding is wrong, and which differences are found.
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
"""Smallest difference of dip that a player would notice, in points: one step at the narrow end of
the ladder, whose limits are 10, 9, 7.5 and 6, and less than the 3 that dips are guessed in."""
TOO_LITTLE = frozenset({Reason.LIGHT, Reason.FEW_BLIPS})
"""Ends of a repetition that disturbs the brake little because the foot did too little."""
USUAL_SPREAD = 5.0
"""Spread taken for the dips of a player who has too few, in points: `tests/bench/trial.py` has
that of simulated feet."""
FEWEST_DIPS = 20
"""Smallest number of dips that gives their spread, to about a quarter: two sets."""
DETECTABLE = dict(
    zip(
        range(FEWEST_PAIRS, MOST_PAIRS + 1),
        (1.40, 1.06, 0.94, 0.86, 0.80, 0.74, 0.70, 0.68, 0.65, 0.61, 0.60),
        strict=True,
    )
)
"""Difference that is found in 8 of 10 trials, in spreads of the dips, by the number of pairs:
simulated by `tests/bench/trial.py`. With six pairs it is large, as all six must agree."""

Value = Callable[[TrialRepetition], float | None]
"""Reads one measure of a repetition; None where it was not measured."""
Pair = tuple[tuple[TrialRepetition, ...], tuple[TrialRepetition, ...]]
"""Counting repetitions of a block of A and of the block of B beside it."""


class Finding(Enum):
    """What a trial finds about the two set-ups."""

    STEADIER = "steadier"
    """One arm is steadier than the other by more than chance explains."""
    NO_DIFFERENCE = "no difference you would notice"
    """The whole interval lies below what a player would notice."""
    CANNOT_TELL = "cannot tell"
    """There are too few pairs, too many failures, or too wide an interval."""


@dataclass(frozen=True)
class Difference:
    """One measure in both arms: their medians, and the difference B less A with its uncertainty."""

    measure: str
    """Name of the measure."""
    a: float | None
    """Mean of the medians of A's blocks, in the unit of the measure; None without any value."""
    b: float | None
    """Mean of the medians of B's blocks, likewise."""
    value: float | None
    """B less A, in the unit of the measure; None where there are too few pairs."""
    low: float | None = None
    """Low end of the 95 % interval, in the unit of the measure; None with too few pairs."""
    high: float | None = None
    """High end of the 95 % interval, likewise."""
    p: float | None = None
    """Two-sided p of the sign-flip test over pairs; None with too few pairs."""
    pairs: int = 0
    """Number of whole pairs that were played."""


@dataclass(frozen=True)
class ArmCount:
    """Numbers of repetitions of one arm, by how they ended."""

    counted: int
    """Number that counted, those left after the cue and the failed ones among them."""
    void: int
    """Number that did not count."""
    left: int
    """Number that were left after the cue."""
    failed: int = 0
    """Number of the others that counted but have no dip, or did less than was asked."""

    @property
    def is_telling(self) -> bool:
        """Whether at least half of the repetitions that counted were done as asked."""
        return 2 * (self.left + self.failed) <= self.counted


@dataclass(frozen=True)
class Outcome:
    """Outcome of a trial."""

    finding: Finding
    """What the trial finds, by the dip alone."""
    steadier: Arm | None
    """Arm that is steadier; None unless the finding says that one is."""
    dip: Difference
    """How far the brake fell, in points."""
    rebound: Difference
    """How far the brake rose above what was held, in points."""
    settle: Difference
    """Settling time, in s."""
    counts: tuple[ArmCount, ArmCount]
    """Repetitions of A and of B."""
    recalibrated: bool
    """Whether the pedals were calibrated between blocks: the arms may then read differently."""


def outcome(trial: Trial) -> Outcome:
    """The outcome of a trial, from its whole pairs of blocks."""
    pairs = _whole_pairs(trial)
    dip = _difference("dip", pairs, lambda rep: rep.dip)
    counts = _count(trial, Arm.A), _count(trial, Arm.B)
    finding, steadier = finding_of(dip, counts)
    return Outcome(
        finding,
        steadier,
        dip,
        _difference("rebound", pairs, lambda rep: rep.rebound),
        _difference("settle", pairs, lambda rep: rep.settle),
        counts,
        recalibrated(trial),
    )


def detectable_difference(pairs: int, spread: float) -> float:
    """About the smallest true difference of dip, in points, that 8 of 10 trials find.

    `spread` is that of the player's own dips, in points. A difference that nobody would notice is
    never found. Raises KeyError for a number of pairs that a trial cannot have.
    """
    return max(NOTICEABLE, DETECTABLE[pairs] * spread)


def spread_of(dips: Sequence[float]) -> float:
    """Spread of some dips, in points: 1.4826 times the median distance from their median.

    For normal dips that is the standard deviation (Hampel 1974, from memory), and outliers do not
    move it. With too few dips it is the usual spread.
    """
    if len(dips) < FEWEST_DIPS:
        return USUAL_SPREAD
    middle = median(dips)
    return 1.4826 * median(abs(dip - middle) for dip in dips)


def _whole_pairs(trial: Trial) -> list[Pair]:
    """Pairs of which both blocks are full, A before B."""
    arms = order(trial.seed, trial.pairs)
    blocks = [counting(trial, block) for block in range(len(arms))]
    pairs = zip(arms[::2], blocks[::2], blocks[1::2], strict=True)
    return [
        (first, second) if arm is Arm.A else (second, first)
        for arm, first, second in pairs
        if min(len(first), len(second)) >= BLOCK
    ]


def _difference(measure: str, pairs: Sequence[Pair], value_of: Value) -> Difference:
    values = [value_of(rep) for pair in pairs for block in pair for rep in block]
    measured = [value for value in values if value is not None]
    if not measured:
        return Difference(measure, None, None, None, pairs=len(pairs))
    worst = max(measured)
    medians = [[_median(block, value_of, worst) for block in pair] for pair in pairs]
    a, b = (fmean(arm) for arm in zip(*medians, strict=True))
    if len(pairs) < FEWEST_PAIRS:
        return Difference(measure, a, b, None, pairs=len(pairs))
    test = SignFlip.of([b - a for a, b in medians])
    return Difference(measure, a, b, test.value, test.low, test.high, test.p, len(pairs))


def _median(block: Sequence[TrialRepetition], value_of: Value, worst: float) -> float:
    """Median of a block, in which a repetition that failed has the worst value of the trial."""
    values = (None if rep.reason in TOO_LITTLE else value_of(rep) for rep in block)
    return median(worst if value is None else value for value in values)


def finding_of(dip: Difference, counts: tuple[ArmCount, ArmCount]) -> tuple[Finding, Arm | None]:
    """The finding of a trial and the steadier arm, from its dip and the counts of both arms."""
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
    blocks = {block for block, arm_of_block in enumerate(arms) if arm_of_block is arm}
    of_arm = [rep for rep in trial.repetitions if rep.block in blocks]
    counted = [rep for rep in of_arm if not rep.void]
    left = sum(rep.reason is Reason.WALKED_OUT for rep in counted)
    failed = sum(rep.dip is None or rep.reason in TOO_LITTLE for rep in counted) - left
    return ArmCount(len(counted), len(of_arm) - len(counted), left, failed)
