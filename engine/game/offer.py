"""`Offer`: what the program gives to the game at its start: levels, demo, whose game it is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.level import Level
from engine.drill.demonstration import Demonstration
from engine.practice.results import MINUTES


@dataclass(frozen=True)
class Offer:
    """Offer of the program to the game: levels, demo, session length and player."""

    levels: Sequence[Level]
    """All levels that can be played, each after those it needs."""
    band: Level
    """Level whose blips the player's steadiness is estimated from."""
    demo: Demonstration
    """Demo that the player can watch."""
    minutes: float = MINUTES
    """Length of a daily session, in min."""
    player: str = ""
    """Whose game it is, in a few words for home; empty where there is only one player."""
    is_sized: bool = False
    """Whether the command line gives the size of the window, so that nobody is asked about it."""
