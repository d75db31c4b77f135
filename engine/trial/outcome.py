"""Outcome of a trial: the differences between its arms, their uncertainty, and the finding.

The finding is judged by the dips, as they are and scaled to blips of one size: both have to show a
difference, or both have to be too small to notice. An arm of which more than half was left or not
done as asked has no finding.

`tests/bench/trial.py` measures how often a finding is wrong, and which differences are found.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from statistics import median

from drills.score import Reason
from engine.trial.blips_compared import BlipsCompared, compare_blips
from engine.trial.difference import TOO_LITTLE, Difference, compare, whole_pairs
from engine.trial.randomisation import order, recalibrated
from engine.trial.trial import FEWEST_PAIRS, MOST_PAIRS, Arm, Trial

NOTICEABLE = 2.0
"""Smallest difference of dip that a player would notice, in points: one step at the narrow end of
the ladder, whose limits are 10, 9, 7.5 and 6, and less than the 3 between two guesses on offer."""
USUAL_SPREAD = 5.0
"""Spread of dips assumed for a player who has played too few, in points: that of the simulated feet
in `tests/bench/trial.py`."""
FEWEST_DIPS = 20
"""Smallest number of dips from which their spread is estimated, to about a quarter: two sets."""
DETECTABLE = dict(
    zip(
        range(FEWEST_PAIRS, MOST_PAIRS + 1),
        (1.50, 1.13, 0.99, 0.90, 0.86, 0.79, 0.73, 0.69, 0.66, 0.64, 0.63),
        strict=True,
    )
)
"""True difference of dip that 8 of 10 trials find, as a multiple of the spread of the dips, keyed
by the number of pairs (`tests/bench/trial.py`). It is large for six pairs: all six must agree."""


class Finding(Enum):
    """What a trial finds about the two set-ups."""

    STEADIER = "steadier"
    """One set-up is steadier than the other by more than chance explains."""
    NO_DIFFERENCE = "no difference you would notice"
    """The whole interval of the difference lies below what a player would notice."""
    CANNOT_TELL = "cannot tell them apart"
    """There are too few pairs, too many failed repetitions, or too wide an interval."""


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
    """What the trial finds about the two set-ups; judged by the dips alone."""
    steadier: Arm | None
    """Set-up that was found steadier; None unless the finding says that one is."""
    dip: Difference
    """Comparison of how far the brake fell, in points."""
    blips: BlipsCompared
    """Comparison of the blips, and of the dips scaled to blips of one size."""
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
    pairs = whole_pairs(trial)
    dip = compare("dip", pairs, lambda rep: rep.dip)
    blips = compare_blips(pairs)
    counts = _count(trial, Arm.A), _count(trial, Arm.B)
    finding, steadier = finding_of(dip, blips, counts)
    return Outcome(
        finding,
        steadier,
        dip,
        blips,
        compare("rebound", pairs, lambda rep: rep.rebound),
        compare("settle", pairs, lambda rep: rep.settle),
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


def finding_of(
    dip: Difference, blips: BlipsCompared, counts: tuple[ArmCount, ArmCount]
) -> tuple[Finding, Arm | None]:
    """What a trial finds, and the steadier set-up, from the dips, the blips and the counts.

    No difference to notice: the intervals of the dips as they are and of the scaled ones both lie
    within it. Steadier: both are sure of the same arm. In all other cases it cannot be told.
    """
    if dip.p is None or not all(count.is_telling for count in counts):
        return Finding.CANNOT_TELL, None
    if dip.is_within(NOTICEABLE) and blips.scaled.is_within(NOTICEABLE):
        return Finding.NO_DIFFERENCE, None
    if dip.smaller is None or not blips.agree(dip):
        return Finding.CANNOT_TELL, None
    return Finding.STEADIER, dip.smaller


def _count(trial: Trial, arm: Arm) -> ArmCount:
    arms = order(trial.seed, trial.pairs)
    blocks = {block for block, arm_of_block in enumerate(arms) if arm_of_block is arm}
    of_arm = [rep for rep in trial.repetitions if rep.block in blocks]
    counted = [rep for rep in of_arm if not rep.void]
    left = sum(rep.reason is Reason.WALKED_OUT for rep in counted)
    failed = sum(rep.dip is None or rep.reason in TOO_LITTLE for rep in counted) - left
    return ArmCount(len(counted), len(of_arm) - len(counted), left, failed)
