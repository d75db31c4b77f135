"""Made-up trials and outcomes for tests."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from drills.score import Reason
from engine.practice.blip_size import BLIP
from engine.trial.blips_compared import BlipsCompared
from engine.trial.difference import Difference
from engine.trial.outcome import ArmCount, Finding, Outcome
from engine.trial.randomisation import order
from engine.trial.trial import BLOCK, Arm, Trial, TrialRepetition
from tests.bench.simulated_trials import BEGAN, DAY, A, B

SEED = 7
NONE = Difference("dip", None, None, None)


def one(
    block: int, dip: float | None = 10.0, reason: Reason = Reason.CLEAN, peak: float = BLIP
) -> TrialRepetition:
    """A repetition whose overshoot is half its dip, and settling time in s a hundredth of it."""
    back, settle = (None, None) if dip is None else (dip / 2, dip / 100)
    of_blip = None if dip is None else peak
    return TrialRepetition(1, block, DAY, reason, dip, back, settle, 1, peak=of_blip)


def trial(tried: Sequence[TrialRepetition], pairs: int = 6, seed: int = SEED) -> Trial:
    """A trial with some repetitions."""
    return Trial(1, BEGAN, "a-blip", A, B, pairs, seed, repetitions=tuple(tried))


def played(
    dips: Callable[[Arm, int], Sequence[float | None]], pairs: int = 6, seed: int = SEED
) -> Trial:
    """A whole trial; `dips` gives those of a block by its arm and pair."""
    blocks = enumerate(order(seed, pairs))
    tried = [one(block, dip) for block, arm in blocks for dip in dips(arm, block // 2)]
    return trial(tried, pairs, seed)


def differing(differences: Sequence[float], a: float = 20.0, spread: float = 3.0) -> Trial:
    """A whole trial whose pairs have these differences B less A, in points."""

    def dips(arm: Arm, pair: int) -> list[float]:
        middle = a + pair + (differences[pair] if arm is Arm.B else 0)
        return [middle + spread * step / 2 for step in range(-2, BLOCK - 2)]

    return played(dips, len(differences))


def swapped(trial: Trial) -> Trial:
    """The same trial with the names of the arms exchanged."""
    arms = order(trial.seed, trial.pairs)
    first = {arm: [block for block, one in enumerate(arms) if one is arm] for arm in Arm}
    to = dict(zip(first[Arm.A] + first[Arm.B], first[Arm.B] + first[Arm.A], strict=True))
    tried = (replace(some, block=to[some.block]) for some in trial.repetitions)
    return replace(trial, a=trial.b, b=trial.a, repetitions=tuple(tried))


def ended(
    dip: Difference, finding: Finding, steadier: Arm | None = None, **changes: Any
) -> Outcome:
    """An outcome of blips of the one size, with a dip and a finding; `changes` are other fields."""
    rebound, settle = (replace(NONE, measure=name) for name in ("rebound", "settle"))
    count = ArmCount(30, 0, 0)
    blips = BlipsCompared(dip, Difference("peak", BLIP, BLIP, 0.0, -2.0, 2.0, 1.0, dip.pairs))
    usual = Outcome(
        finding, steadier, dip, blips, rebound, settle, (count, count), recalibrated=False
    )
    return replace(usual, **changes)
