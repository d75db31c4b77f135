"""Fault practice: a third of the learning time for levels that answer the fault worked on."""

from __future__ import annotations

import numpy as np

from drills.level import Level
from engine.five.player_state import PlayerState
from engine.five.rotation import worn
from engine.five.time_spent import PRACTICE, spent
from engine.practice.results import Purpose, Session

FAULT_SHARE = 1 / 3
"""Most of a session's learning time that levels answering the fault may take, from 0 to 1."""
STREAM = 2
"""Number of the random stream of fault practice, apart from those of reviews and turns."""


def answering(player: PlayerState) -> list[Level]:
    """Levels in hand that answer the fault worked on, easiest first; none is due for a check."""
    if player.focus is None:
        return []
    fault = player.focus.fault
    return [
        level for level in player.playable if fault in level.answers and not player.is_due(level)
    ]


def for_the_fault(player: PlayerState, session: Session) -> Level | None:
    """The level to practise now against the fault; None where it is not its turn, or none answers.

    Its turns are spread: one comes when with it the share of the learning time is not exceeded,
    never straight after another. It is not the level played last where there is another.
    """
    if session.results and session.results[-1].why is Purpose.FAULT:
        return None
    last = session.results[-1].level if session.results else ""
    pool = answering(player)
    for left_out in (worn(player), {last}):
        pool = [level for level in pool if level.id not in left_out] or pool
    if not pool:
        return None
    number = sum(result.why is Purpose.FAULT for result in session.results)
    rng = np.random.default_rng((session.seed, number, STREAM))
    level = pool[int(rng.integers(len(pool)))]
    takes = player.pace.of(level)
    practised = spent(session, *PRACTICE) + takes
    return level if spent(session, Purpose.FAULT) + takes <= FAULT_SHARE * practised else None
