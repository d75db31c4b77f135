"""Trial that is under way, and its one-line status, which reveals no score."""

from __future__ import annotations

from dataclasses import dataclass

from engine.store import History
from engine.trial.randomisation import block_now, counted_in
from engine.trial.saved import trial_under_way
from engine.trial.trial import Trial


@dataclass(frozen=True)
class TrialStatus:
    """How far a trial has come, in pairs, blocks and repetitions."""

    pairs: int
    """Number of pairs of blocks that are done."""
    of: int
    """Number of pairs of blocks in the whole trial."""
    block: int
    """Number of the current block, from 1."""
    done: int
    """Number of repetitions of the current block that count."""
    by_days: bool = False
    """Whether a block is a day beside practice."""

    @property
    def blocks(self) -> int:
        """Number of blocks in the whole trial."""
        return 2 * self.of

    @property
    def words(self) -> str:
        """Text such as "3 of 8 pairs are done"."""
        pairs = "pairs of days" if self.by_days else "pairs"
        are = "is" if self.pairs == 1 else "are"
        return f"{self.pairs} of {self.of} {pairs} {are} done"


def status_of(trial: Trial) -> TrialStatus:
    """How far a trial has come."""
    block = block_now(trial)
    if block is None:
        return TrialStatus(
            trial.pairs, trial.pairs, 2 * trial.pairs, trial.fills, by_days=trial.by_days
        )
    done = counted_in(trial, block)
    return TrialStatus(block // 2, trial.pairs, block + 1, done, by_days=trial.by_days)


def under_way(history: History) -> str:
    """Status of the current trial in words; empty if no trial is under way. Raises StoreError."""
    trial = trial_under_way(history)
    return "" if trial is None else status_of(trial).words


def days_under_way(history: History) -> Trial | None:
    """Trial by days that is under way; None if there is none. Raises StoreError."""
    trial = trial_under_way(history)
    return trial if trial is not None and trial.by_days else None
