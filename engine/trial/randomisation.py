"""The blocks of a trial: which arm each is of, which is played next, and how the pedals were read.

The order within each pair is by a lot of its own, so the sign of what a pair shows is as likely
either way where the arms are alike, whatever time, learning or a day does to the foot. A fixed
order leans under some drift or other: ABBABAAB by 12 under a cubic one.
"""

from __future__ import annotations

from random import Random

from engine.trial.trial import BLOCK, Arm, Trial, TrialRepetition


def order(seed: int, pairs: int) -> tuple[Arm, ...]:
    """The arm of each block, two a pair. More pairs leave the first ones as they are.

    The lots are those of `Random.random`, which Python promises to keep from version to version:
    a trial may last for days.
    """
    chance = Random(seed)
    lots = ((Arm.A, Arm.B) if chance.random() < 0.5 else (Arm.B, Arm.A) for _ in range(pairs))
    return tuple(arm for pair in lots for arm in pair)


def block_now(trial: Trial) -> int | None:
    """From 0, the block to play next; None where all are played."""
    blocks = range(2 * trial.pairs)
    return next((block for block in blocks if counted_in(trial, block) < BLOCK), None)


def counted_in(trial: Trial, block: int) -> int:
    """How many repetitions of a block count: those that were left after the cue too."""
    return len(counting(trial, block))


def counting(trial: Trial, block: int) -> tuple[TrialRepetition, ...]:
    """The repetitions of a block that count, oldest first."""
    return tuple(one for one in trial.tried if one.block == block and not one.void)


def recalibrated(trial: Trial) -> bool:
    """Whether repetitions that count were read through more than one known calibration."""
    known = {one.calibration for one in trial.tried if not one.void}
    return len(known - {None}) > 1
