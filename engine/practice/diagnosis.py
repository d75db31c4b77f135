"""Diagnosis: the fault that stands out among a player's newest blips of all levels."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.fault import Fault

NEWEST = 40
"""Newest blips of all levels that a diagnosis is made from, as a count."""
LEAST = 20
"""Fewest blips that a diagnosis is made from, as a count."""


@dataclass(frozen=True)
class FaultShare:
    """How many of a player's newest blips have one fault."""

    fault: Fault
    """The fault that is counted."""
    times: int
    """Blips that have the fault, as a count."""
    of: int
    """Blips that were looked at, as a count."""

    @property
    def share(self) -> float:
        """Share of the blips that have the fault, from 0 to 1."""
        return self.times / self.of if self.of else 0.0


def share_of(fault: Fault, faults: Sequence[Fault | None]) -> FaultShare:
    """How many of the newest blips have a fault; `faults` has one entry a blip, oldest first."""
    newest = faults[-NEWEST:]
    return FaultShare(fault, sum(one is fault for one in newest), len(newest))
