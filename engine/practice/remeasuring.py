"""`Remeasuring`: how far a history has come that is measured by new definitions, in words."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Remeasuring:
    """Progress of remeasuring a history; until it is done nothing is told over days."""

    done: int
    """Number of earlier repetitions that were remeasured, or found not to be measurable."""
    of: int
    """Number of repetitions that were of another definition when the work began."""

    @property
    def words(self) -> str:
        """Line that says how far the work is, and what waits for it."""
        return (
            f"Measured again: {self.done:,} of {self.of:,} earlier repetitions. "
            "Figures over days come back after the last."
        )

    @property
    def comes(self) -> str:
        """Words for when a picture comes that waits for the work."""
        return (
            "comes when earlier repetitions are measured again: "
            f"{self.done:,} of {self.of:,} so far"
        )
