"""Order of the blocks of a trial, drawn by chance, and how many repetitions of each count.

The order within each pair is drawn by itself, so where the arms are alike the sign of a pair's
difference is as likely either way, whatever time, learning or a day does to the foot. A fixed order
favours one arm under some drift: ABBABAAB by 12 under a cubic one.
"""

from __future__ import annotations

from random import Random

from engine.trial.trial import Arm, Trial, TrialRepetition


def order(seed: int, pairs: int) -> tuple[Arm, ...]:
    """Order in which A and B are played, block by block, two blocks a pair, drawn from `seed`.

    More pairs leave the first ones as they are. It is drawn with `Random.random`, which Python
    promises to keep from version to version: a trial may last for days.
    """
    chance = Random(seed)
    drawn = ((Arm.A, Arm.B) if chance.random() < 0.5 else (Arm.B, Arm.A) for _ in range(pairs))
    return tuple(arm for pair in drawn for arm in pair)


def block_now(trial: Trial) -> int | None:
    """Index of the block of a trial to play next, from 0; None if all blocks are full."""
    blocks = range(2 * trial.pairs)
    return next((block for block in blocks if counted_in(trial, block) < trial.fills), None)


def counted_in(trial: Trial, block: int) -> int:
    """Number of repetitions in a block of a trial that count, those left after the cue included."""
    return len(counting(trial, block))


def counting(trial: Trial, block: int) -> tuple[TrialRepetition, ...]:
    """Repetitions in a block of a trial that count, oldest first."""
    return tuple(rep for rep in trial.repetitions if rep.block == block and not rep.void)


def recalibrated(trial: Trial) -> bool:
    """Whether the counting repetitions of a trial were read with two or more known calibrations."""
    calibrations = {rep.calibration for rep in trial.repetitions if not rep.void}
    return len(calibrations - {None}) > 1
