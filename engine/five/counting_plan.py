"""When a session of counting comes in the warm-up's stead, and what it is made of."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from drills.level import Level
from engine.five.planner import Planned
from engine.five.player_state import PlayerState
from engine.practice.passes import is_open
from engine.practice.results import Purpose, Session

PAIRS = 6
"""Pairs of repetitions of a session, with and without counting, as a count."""
MINUTES = 5.0
"""Longest time that a session takes, in minutes: its pairs are cut only where the foot is slow."""
APART = 7
"""Fewest days from one session to the next: once a week."""


def counting_level(player: PlayerState) -> Level | None:
    """The level that a session plays: the hardest passed, else the first open one; None if closed.

    A level that is due for a retention check stays cold for it, where there is another.
    """
    levels = [level for level in player.levels if level.kind.in_pairs]
    passed = [level for level in reversed(player.playable) if level.kind.in_pairs]
    rested = [level for level in passed if not player.is_due(level)]
    opened = [level for level in levels if is_open(level, player.done, player.pedals)]
    return next(iter([*rested, *passed, *opened]), None)


def comes_today(player: PlayerState, last: date | None) -> bool:
    """Whether today's warm-up is a session of counting; `last` is the day of the newest one."""
    has_rested = last is None or (player.day - last).days >= APART
    return has_rested and counting_level(player) is not None


def counting_rule(level: Level) -> Callable[[PlayerState, Session], Planned | None]:
    """Rule of a session of `level`: its next repetition; None once all its pairs are played."""

    def following(_: PlayerState, session: Session) -> Planned | None:
        played = sum(not result.void for result in session.results)
        if session.left <= 0 or played >= 2 * PAIRS:
            return None
        return Planned(level, Purpose.WARM)

    return following
