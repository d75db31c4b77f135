"""One-line status of a trial that is under way; it reveals no score."""

from __future__ import annotations

from dataclasses import dataclass

from engine.store import History
from engine.trial.randomisation import block_now, counted_in
from engine.trial.saved import trial_under_way
from engine.trial.trial import BLOCK, Trial

UNTOLD = "Nothing of the score is shown before the end."
"""Reminder on the screens of a trial that is under way."""


@dataclass(frozen=True)
class TrialStatus:
    """How far a trial has come."""

    pairs: int
    """Number of pairs that are done."""
    of: int
    """Number of pairs in the whole trial."""
    block: int
    """Number of the current block, from 1."""
    done: int
    """Number of repetitions of the current block that count."""

    @property
    def blocks(self) -> int:
        """Number of blocks in the whole trial."""
        return 2 * self.of

    @property
    def words(self) -> str:
        """The pairs done in words, such as "3 of 8 pairs are done"."""
        are = "is" if self.pairs == 1 else "are"
        return f"{self.pairs} of {self.of} pairs {are} done"


def status_of(trial: Trial) -> TrialStatus:
    """The status of a trial."""
    block = block_now(trial)
    if block is None:
        return TrialStatus(trial.pairs, trial.pairs, 2 * trial.pairs, BLOCK)
    return TrialStatus(block // 2, trial.pairs, block + 1, counted_in(trial, block))


def under_way(history: History) -> str:
    """The status of the current trial in words; empty without one. Raises StoreError."""
    trial = trial_under_way(history)
    return "" if trial is None else status_of(trial).words
