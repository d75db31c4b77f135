"""Plan of the warm-up before driving: holds, blips and one run, without a score."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from drills.level import Level
from engine.five.planner import Planned
from engine.five.player_state import PlayerState
from engine.five.usual_foot import BLIPS
from engine.practice.results import Purpose, Session

MINUTES = 3.0
"""Longest time a warm-up takes, in minutes."""
HOLDS = 4
"""Number of holds that begin a warm-up."""
OWN = 4
"""Number of blips of the player's own level before the measured ones.

The first blips of a day are worse and would make every foot look unsteady."""
STILL = 10
"""Number of holds in the warm-up of a player who has not learned to blip yet."""
SHORT = 10.0
"""Longest duration of a repetition that belongs in a warm-up, in seconds."""


def warming(player: PlayerState, session: Session) -> Planned | None:
    """The next repetition of a warm-up; None if the warm-up is over."""
    played = Counter(result.level for result in session.results if not result.void)
    if session.left <= 0:
        return None
    for level in _levels(player):
        if not played[level.id]:
            return Planned(level, Purpose.WARM)
        played[level.id] -= 1
    return None


def _levels(player: PlayerState) -> Iterator[Level]:
    """Level of each repetition of a whole warm-up, in order."""
    hold = _hardest(player, "hold")
    blips = player.band if player.can_blip else None
    if hold is not None:
        yield from [hold] * (STILL if blips is None else HOLDS)
    if blips is not None:
        own = _hardest(player, blips.kind.name)
        yield from [] if own is None else [own] * OWN
        yield from [blips] * BLIPS
    run = _hardest(player, "run")
    if run is not None:
        yield run


def _hardest(player: PlayerState, kind: str) -> Level | None:
    """The hardest passed level of a kind, else the kind's first level; None if there is none.

    A level that is due for a retention check stays cold for it, where there is another.
    """
    passed = [level for level in reversed(player.playable) if _is_short(level, kind)]
    first = [level for level in player.levels if _is_short(level, kind) and not level.needs]
    rested = [level for level in passed if not player.is_due(level)]
    return next(iter([*rested, *passed, *first]), None)


def _is_short(level: Level, kind: str) -> bool:
    """Whether a level is of this kind and short enough for a warm-up."""
    return level.kind.name == kind and level.own.get("duration", 0.0) <= SHORT
