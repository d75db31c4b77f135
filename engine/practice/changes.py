"""Changes that a player marks in the history, such as new shoes; a worse start is then expected."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum


class Changed(StrEnum):
    """What a player can change about the foot or the rig."""

    POSITION = "foot position"
    PEDALS = "pedals"
    SHOES = "shoes"


@dataclass(frozen=True)
class Change:
    """One change to the foot or the rig that the player marked."""

    at: datetime
    """When the change was marked, with the local offset from UTC."""
    what: Changed
    """What the player changed."""
    after: int
    """Number of the newest repetition before the change; 0 if there was none."""
    note: str = ""
    """Note of the player on the change, in a few words; may be empty."""
