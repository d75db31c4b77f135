"""What a player changed: from then on the foot learns anew, and a dip at first is expected."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum


class Changed(StrEnum):
    """What was changed."""

    POSITION = "foot position"
    PEDALS = "pedals"
    SHOES = "shoes"


@dataclass(frozen=True)
class Change:
    """One change that the player marked."""

    at: datetime
    """When it was marked, with the local offset from UTC."""
    what: Changed
    """What was changed."""
    after: int
    """Number of the newest repetition before it; 0 where there was none."""
    note: str = ""
    """A few words of the player's."""
