"""What a trial of two set-ups ends with: differences, how sure they are, and what that means.

Every whole pair of blocks gives one number: the median of block B less that of block A. Their mean
is what is told. It is the mean of the medians of B less that of A, so the two and their difference
agree, and it is what the sign-flip test and its interval are of.

A repetition that counts and has no value (left after the cue, no blip, not settled) stands for the
largest value of the whole trial: it did not do what was asked, and leaving it out would make an
arm look better the more of its bad ones are left (worst-rank scores: Lachin 1999, from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import Enum
from math import sqrt
from statistics import fmean, median

from drills.score import Reason
from engine.practice.flips import LEVEL, SignFlip
from engine.practice.lots import counted_in, counting, order, recalibrated
from engine.practice.trial import BLOCK, FEWEST_PAIRS, Arm, Trial, Tried

NOTICEABLE = 2.0
"""points, a dip under which nobody would notice: one rung at the narrow end of the ladder, whose
limits are 10, 9, 7.5 and 6 points, and finer than the 3 points in which a dip is guessed."""
USUAL_SPREAD = 4.0
"""points, spread of the dips of a foot of which nothing is known."""


class Told(Enum):
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


@dataclass(frozen=True)
class Outcome:
    """What a whole trial ends with."""

    told: Told
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
    dip = _difference(trial, "dip", lambda one: one.dip)
    told = _told(dip)
    steadier = None
    if told is Told.STEADIER and dip.value is not None:
        steadier = Arm.B if dip.value < 0 else Arm.A
    return Outcome(
        told,
        steadier,
        dip,
        _difference(trial, "rebound", lambda one: one.rebound),
        _difference(trial, "settle", lambda one: one.settle),
        (_count(trial, Arm.A), _count(trial, Arm.B)),
        recalibrated(trial),
    )


def finds(pairs: int, spread: float) -> float:
    """Points, the smallest true difference of dip that is told in 8 of 10 trials.

    `spread` is the standard deviation of the player's dips in points.
    """
    return max(NOTICEABLE, 3.0 * spread / sqrt(pairs))


def _told(dip: Difference) -> Told:
    if dip.low is None or dip.high is None or dip.p is None:
        return Told.CANNOT_TELL
    if -NOTICEABLE < dip.low and dip.high < NOTICEABLE:
        return Told.NO_DIFFERENCE
    return Told.STEADIER if dip.p <= LEVEL else Told.CANNOT_TELL


def _difference(
    trial: Trial, measure: str, value_of: Callable[[Tried], float | None]
) -> Difference:
    """One measure over the whole pairs of a trial."""
    pairs = [pair for pair in range(trial.pairs) if _whole(trial, pair)]
    blocks = [counting(trial, block) for pair in pairs for block in (2 * pair, 2 * pair + 1)]
    known = [value for block in blocks for one in block if (value := value_of(one)) is not None]
    if not known:
        return Difference(measure, None, None, None, pairs=len(pairs))
    worst = max(known)

    def typical(block: Sequence[Tried]) -> float:
        values = (value_of(one) for one in block)
        return median(worst if value is None else value for value in values)

    arms = order(trial.seed, trial.pairs)
    of = {
        arm: [
            typical(counting(trial, block))
            for pair in pairs
            for block in (2 * pair, 2 * pair + 1)
            if arms[block] is arm
        ]
        for arm in Arm
    }
    a, b = of[Arm.A], of[Arm.B]
    if len(pairs) < FEWEST_PAIRS:
        return Difference(measure, fmean(a), fmean(b), None, pairs=len(pairs))
    found = SignFlip.of([one - other for one, other in zip(b, a, strict=True)])
    return Difference(
        measure, fmean(a), fmean(b), found.value, found.low, found.high, found.p, len(pairs)
    )


def _whole(trial: Trial, pair: int) -> bool:
    return all(counted_in(trial, block) >= BLOCK for block in (2 * pair, 2 * pair + 1))


def _count(trial: Trial, arm: Arm) -> ArmCount:
    arms = order(trial.seed, trial.pairs)
    mine = [one for one in trial.tried if arms[one.block] is arm]
    void = sum(one.void for one in mine)
    left = sum(one.reason is Reason.WALKED_OUT for one in mine)
    return ArmCount(len(mine) - void, void, left)
