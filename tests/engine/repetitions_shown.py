"""`Shown`: a repetition by the simulated foot, with what its reveal draws."""

from dataclasses import dataclass

from drills.deviation import Deviation
from engine.store import Record


@dataclass(frozen=True)
class Shown:
    """Repetition by the simulated foot."""

    record: Record
    """Record of the repetition in the history."""
    deviation: Deviation | None
    """Deviation that its plot shows; None if it was not measured."""
