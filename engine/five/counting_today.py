"""Whether today's warm-up is a session of counting, as the history says."""

from __future__ import annotations

from drills.level import Level
from engine.five.counting_plan import comes_today, counting_level
from engine.five.player_state import PlayerState
from engine.five.saved import session_under_way
from engine.practice.passes import required
from engine.practice.results import SessionKind
from engine.store import History
from engine.store.counting import last_counting_day


def counting_today(history: History, player: PlayerState) -> Level | None:
    """Level of the session of counting that takes the place of today's warm-up; None for none.

    One that was left before its end goes on with its own level, if that can be played now; a
    warm-up that was left goes on as such. Raises StoreError.
    """
    begun = session_under_way(history, SessionKind.COUNTING, player.day)
    if begun is not None and begun.results:
        last = begun.results[-1].level
        levels = [level for level in player.levels if player.pedals.issuperset(required(level))]
        return next((level for level in levels if level.id == last), None)
    warming = session_under_way(history, SessionKind.WARM_UP, player.day)
    if warming is not None and warming.results:
        return None
    if not comes_today(player, last_counting_day(history, player.day)):
        return None
    return counting_level(player)
