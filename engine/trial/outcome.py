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
the ladder, whose limits are 10, 9, 7.5 and 6, and less than the 3 between two guesses on offer."""
TOO_LITTLE = frozenset({Reason.LIGHT, Reason.FEW_BLIPS})
"""Reasons of repetitions that did less than was asked, and so disturbed the brake little."""
USUAL_SPREAD = 5.0
"""Spread of dips assumed for a player who has played too few, in points: that of the simulated feet
in `tests/bench/trial.py`."""
FEWEST_DIPS = 20
"""Smallest number of dips from which their spread is estimated, to about a quarter: two sets."""
DETECTABLE = dict(
    zip(
        range(FEWEST_PAIRS, MOST_PAIRS + 1),
        (1.40, 1.06, 0.94, 0.86, 0.80, 0.74, 0.70, 0.68, 0.65, 0.61, 0.60),
        strict=True,
    )
)
"""True difference of dip that 8 of 10 trials find, as a multiple of the spread of the dips, keyed
by the number of pairs (`tests/bench/trial.py`). It is large for six pairs: all six must agree."""

Value = Callable[[TrialRepetition], float | None]
"""Function that reads one measure of a repetition; None if it was not measured."""
Pair = tuple[tuple[TrialRepetition, ...], tuple[TrialRepetition, ...]]
"""Repetitions that count of one block of A, and of the block of B that it is paired with."""


class Finding(Enum):
    """What a trial finds about the two set-ups."""

    STEADIER = "steadier"
    """One set-up is steadier than the other by more than chance explains."""
    NO_DIFFERENCE = "no difference you would notice"
    """The whole interval of the difference lies below what a player would notice."""
    CANNOT_TELL = "cannot tell"
    """There are too few pairs, too many failed repetitions, or too wide an interval."""


@dataclass(frozen=True)
class Difference:
    """One measure compared between A and B: both medians, their difference, its uncertainty."""

    measure: str
    """Name of the measure that is compared."""
    a: float | None
    """Mean of the medians of A's blocks, in the unit of the measure; None if never measured."""
    b: float | None
    """Mean of the medians of B's blocks, in the unit of the measure; None if never measured."""
    value: float | None
    """Mean of B less A over the pairs, in the unit of the measure; None with too few pairs."""
    low: float | None = None
    """Low end of the 95 % interval of B less A, in its unit; None with too few pairs."""
    high: float | None = None
    """High end of the 95 % interval of B less A, in its unit; None with too few pairs."""
    p: float | None = None
    """Two-sided p-value of the sign-flip test over pairs; None with too few pairs."""
    pairs: int = 0
    """Number of pairs of blocks that were played in full."""


@dataclass(frozen=True)
class ArmCount:
    """Numbers of repetitions played with one set-up of a trial, by how they ended."""

    counted: int
    """Number that counted, including those left after the cue and those that failed."""
    void: int
    """Number that were void, so that they did not count."""
    left: int
    """Number that the player left after the cue."""
    failed: int = 0
    """Number that counted and were not left, but have no dip or did less than was asked."""

    @property
    def is_telling(self) -> bool:
        """Whether enough of those that counted were done as asked for a finding: at least half."""
        return 2 * (self.left + self.failed) <= self.counted


@dataclass(frozen=True)
class Outcome:
    """Outcome of a trial of two set-ups: what was found, and the measures behind it."""

    finding: Finding
    """What the trial finds about the two set-ups; judged by the dip alone."""
    steadier: Arm | None
    """Set-up that was found steadier; None unless the finding says that one is."""
    dip: Difference
    """Comparison of how far the brake fell, in points."""
    rebound: Difference
    """Comparison of how far the brake rose above what was held, in points."""
    settle: Difference
    """Comparison of settling times, in s."""
    counts: tuple[ArmCount, ArmCount]
    """Numbers of repetitions played with A and with B, by how they ended."""
    recalibrated: bool
    """Whether the pedals were calibrated between blocks, so that A and B may read differently."""


def outcome(trial: Trial) -> Outcome:
    """Outcome of a trial, from the pairs of blocks that were played in full."""
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


def is_comparable(trial: Trial) -> bool:
    """Whether all dips of a trial are of one definition, so that its arms may be compared."""
    return len({rep.definition for rep in trial.repetitions if rep.dip is not None}) <= 1


def detectable_difference(pairs: int, spread: float) -> float:
    """About the smallest true difference of dip, in points, that 8 of 10 trials find.

    `spread` is that of the player's own dips, in points. The result is never below what a player
    would notice. Raises KeyError for a number of pairs that a trial cannot have.
    """
    return max(NOTICEABLE, DETECTABLE[pairs] * spread)


def spread_of(dips: Sequence[float]) -> float:
    """Robust spread of dips, in points: 1.4826 times the median distance from their median.

    For normal dips that is the standard deviation (Hampel 1974, from memory), and outliers do not
    move it. With fewer than FEWEST_DIPS it is USUAL_SPREAD.
    """
    if len(dips) < FEWEST_DIPS:
        return USUAL_SPREAD
    middle = median(dips)
    return 1.4826 * median(abs(dip - middle) for dip in dips)


def _whole_pairs(trial: Trial) -> list[Pair]:
    """Pairs of blocks of which both were played in full, the block of A first."""
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
    """Median of a measure in a block; failed repetitions take `worst`, the largest of the trial."""
    values = (None if rep.reason in TOO_LITTLE else value_of(rep) for rep in block)
    return median(worst if value is None else value for value in values)


def finding_of(dip: Difference, counts: tuple[ArmCount, ArmCount]) -> tuple[Finding, Arm | None]:
    """What a trial finds, and the steadier set-up, from the dip and the counts of both set-ups."""
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
