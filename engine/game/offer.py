"""`Offer`: levels, demo and session length, given to the game when it starts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.level import Level
from engine.drill.demonstration import Demonstration
from engine.practice.results import MINUTES


@dataclass(frozen=True)
class Offer:
    """Everything there is to play."""

    levels: Sequence[Level]
    """All levels, each after those it needs."""
    band: Level
    """Level of the steadiness blips."""
    demo: Demonstration
    """Demo that the player can watch."""
    minutes: float = MINUTES
    """Length of a session, in min."""
