"""What the rules of practice need to know of past repetitions, and where they leave the player."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date

from drills.level import PassRule


@dataclass(frozen=True)
class Result:
    """One past repetition."""

    level: str
    """Id of the level."""
    day: date
    """Local day it ended on."""
    score: float | None
    """0 to 100; None where void."""
    clean: bool
    """Whether every limit was kept."""
    void: bool
    """Whether it counts for nothing."""
    rule: PassRule = field(default_factory=PassRule)
    """What passed the level at the time."""
    feet: bool = True
    """Whether feet on pedals did it: the mouse and a simulated foot are a try-out."""

    @property
    def counts(self) -> bool:
        """Whether it enters passes, streaks, bests and today."""
        return self.feet and not self.void


@dataclass(frozen=True)
class Standing:
    """Where the player stands on a day; void repetitions count for nothing."""

    today: int
    """count, repetitions on the day."""
    clean_today: int
    """count, clean ones of them."""
    clean_row: int
    """count, clean ones in a row up to now."""
    days_row: int
    """days, practised in a row up to the day, which is not missed before it is over."""
