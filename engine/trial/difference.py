"""Differences of one measure between the two arms of a trial, pair by pair of blocks.

Every whole pair of blocks gives one number: the median of block B less that of block A. Their mean
is the difference that is reported and tested. It equals the mean of the medians of B less that of
A, so that the two and their difference agree.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from statistics import fmean, median

from drills.score import Reason
from engine.trial.randomisation import counting, order
from engine.trial.sign_flip import LEVEL, SignFlip
from engine.trial.trial import BLOCK, FEWEST_PAIRS, Arm, Trial, TrialRepetition

TOO_LITTLE = frozenset({Reason.LIGHT, Reason.FEW_BLIPS})
"""Reasons of repetitions that did less than was asked, and so disturbed the brake little."""

Value = Callable[[TrialRepetition], float | None]
"""Function that reads one measure of a repetition; None if it was not measured."""
Block = Sequence[TrialRepetition]
"""Repetitions of a block that count."""
Pair = tuple[Block, Block]
"""A block of A, and the block of B that it is paired with."""


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

    @property
    def smaller(self) -> Arm | None:
        """Arm with the smaller values; None if chance alone explains the difference."""
        if self.value is None or self.p is None or self.p > LEVEL:
            return None
        return Arm.B if self.value < 0 else Arm.A

    def is_within(self, noticeable: float) -> bool:
        """Whether the whole interval lies within so much to either side of 0, in its unit."""
        if self.low is None or self.high is None:
            return False
        return self.low > -noticeable and self.high < noticeable


def whole_pairs(trial: Trial) -> list[Pair]:
    """Pairs of blocks of which both were played in full, the block of A first."""
    arms = order(trial.seed, trial.pairs)
    blocks = [counting(trial, block) for block in range(len(arms))]
    pairs = zip(arms[::2], blocks[::2], blocks[1::2], strict=True)
    return [
        (first, second) if arm is Arm.A else (second, first)
        for arm, first, second in pairs
        if min(len(first), len(second)) >= BLOCK
    ]


def compare(measure: str, pairs: Sequence[Pair], value_of: Value) -> Difference:
    """Difference of a measure of which less is better.

    A repetition that counts takes the largest value of the whole trial where it has none (left
    after the cue, no blip, not settled) and where the foot did less than was asked, as a light blip
    does. To leave it out, or to take its own value, would make an arm look better by its failures
    (worst-rank scores: Lachin 1999, from memory).
    """
    values = [value_of(rep) for pair in pairs for block in pair for rep in block]
    measured = [value for value in values if value is not None]
    if not measured:
        return Difference(measure, None, None, None, pairs=len(pairs))
    worst = max(measured)
    return _of_medians(
        measure,
        [(_worst_rank(a, value_of, worst), _worst_rank(b, value_of, worst)) for a, b in pairs],
    )


def compare_measured(measure: str, pairs: Sequence[Pair], value_of: Value) -> Difference:
    """Difference of a measure of which neither more nor less is better.

    Repetitions without a value are left out, and so is a pair of which one block has none at all.
    """
    medians = [(_median(a, value_of), _median(b, value_of)) for a, b in pairs]
    return _of_medians(measure, [(a, b) for a, b in medians if a is not None and b is not None])


def _of_medians(measure: str, medians: Sequence[tuple[float, float]]) -> Difference:
    """Difference of the medians of A and B, a pair each."""
    if not medians:
        return Difference(measure, None, None, None)
    a, b = (fmean(arm) for arm in zip(*medians, strict=True))
    if len(medians) < FEWEST_PAIRS:
        return Difference(measure, a, b, None, pairs=len(medians))
    test = SignFlip.of([b - a for a, b in medians])
    return Difference(measure, a, b, test.value, test.low, test.high, test.p, len(medians))


def _worst_rank(block: Block, value_of: Value, worst: float) -> float:
    """Median of a measure in a block; failed repetitions take `worst`, the largest of the trial."""
    values = (None if rep.reason in TOO_LITTLE else value_of(rep) for rep in block)
    return median(worst if value is None else value for value in values)


def _median(block: Block, value_of: Value) -> float | None:
    """Median of a measure in a block; None where no repetition has it."""
    values = [value for rep in block if (value := value_of(rep)) is not None]
    return median(values) if values else None
