"""How far a trial has come, and what its screens share: nothing of its score is among it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from engine.kit import theme
from engine.kit.canvas import Canvas
from engine.store import History
from engine.trial.randomisation import block_now, counted_in
from engine.trial.saved import trial_under_way
from engine.trial.trial import BLOCK, Trial

UNTOLD = "Nothing of the score is shown before the end."
"""What is said while one is under way."""


@dataclass(frozen=True)
class TrialStatus:
    """How far a trial has come: nothing of its score."""

    pairs: int
    """count of pairs done."""
    of: int
    """count of pairs in all."""
    block: int
    """From 1, the block that comes now, or is under way."""
    done: int
    """count of its repetitions that are done."""

    @property
    def blocks(self) -> int:
        """count of blocks in all."""
        return 2 * self.of

    @property
    def words(self) -> str:
        """Such as "3 of 8 pairs are done"."""
        are = "is" if self.pairs == 1 else "are"
        return f"{self.pairs} of {self.of} pairs {are} done"


def status_of(trial: Trial) -> TrialStatus:
    """How far a trial has come."""
    block = block_now(trial)
    if block is None:
        return TrialStatus(trial.pairs, trial.pairs, 2 * trial.pairs, BLOCK)
    return TrialStatus(block // 2, trial.pairs, block + 1, counted_in(trial, block))


def under_way(history: History) -> str:
    """How far the trial under way has come, in a few words; empty where none is.

    Raises StoreError.
    """
    trial = trial_under_way(history)
    return "" if trial is None else status_of(trial).words


def listed(canvas: Canvas, y: float, lines: Sequence[str]) -> None:
    """Lines under each other, each with its mark."""
    width = theme.WIDTH - 2 * theme.MARGIN - 48
    for line in lines:
        canvas.disc((theme.MARGIN + 12, y + 21), 8, theme.BRAKE)
        y = canvas.text(line, (theme.MARGIN + 48, y), theme.BODY + 2, width=width) + 24
