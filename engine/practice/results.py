"""What the rules of practice need to know of past repetitions."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


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
