"""`Focus`: the fault that the player works on, from its diagnosis until its share has halved."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from drills.fault import Fault
from engine.practice.diagnosis import FaultShare


@dataclass(frozen=True)
class Focus:
    """Fault that the player works on, with its share now and when it was told."""

    was: FaultShare
    """Share of the newest blips that had the fault when it was told."""
    now: FaultShare
    """Share of the newest blips that have it now."""
    since: date
    """Local day on which the fault was told."""

    @property
    def fault(self) -> Fault:
        """The fault that is worked on."""
        return self.was.fault
