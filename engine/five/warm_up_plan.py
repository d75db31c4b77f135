"""The warm-up before driving: holds, blips, one run; short, and without a score to chase."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from drills.level import Level
from engine.five.planner import Planned
from engine.five.player_state import PlayerState
from engine.five.usual_foot import BLIPS
from engine.practice.results import Purpose, Session

MINUTES = 3.0
"""min, what it takes at most."""
HOLDS = 4
"""count, to begin with."""
OWN = 4
"""count, blips of the player's own level before those that are measured: the first of a day are
worse, and would say so of every foot."""
STILL = 10
"""count, holds of a player who does not blip yet."""
SHORT = 10.0
"""s, the longest hold of it."""


def warming(player: PlayerState, session: Session) -> Planned | None:
    """What comes next in a warm-up; None where it is over."""
    played = Counter(one.level for one in session.results if not one.void)
    if session.left <= 0:
        return None
    for level in _levels(player):
        if not played[level.id]:
            return Planned(level, Purpose.WARM)
        played[level.id] -= 1
    return None


def _levels(player: PlayerState) -> Iterator[Level]:
    """What it is made of, in order."""
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
    """The player's own level of a kind: the hardest passed, for a hold at least the first.

    One that is due to be shown again is left to be shown cold, where there is another.
    """
    passed = [one for one in reversed(player.playable) if _is_short(one, kind)]
    first = [one for one in player.levels if _is_short(one, kind) and not one.needs]
    rested = [one for one in passed if not player.is_due(one)]
    return next(iter([*rested, *passed, *first]), None)


def _is_short(level: Level, kind: str) -> bool:
    return level.kind.name == kind and level.own.get("duration", 0.0) <= SHORT
