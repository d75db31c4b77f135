"""What there is to play, given to the game from outside."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.level import Level
from engine.drill.demonstration import Demonstration
from engine.practice.results import MINUTES


@dataclass(frozen=True)
class Offer:
    """Levels, the drill of the steadiness band, the demo, and the length of a session."""

    levels: Sequence[Level]
    """The levels, each after those it needs."""
    band: Level
    """The drill of the steadiness band."""
    demo: Demonstration
    """What can be watched."""
    minutes: float = MINUTES
    """Length of a five-minute session, min."""
