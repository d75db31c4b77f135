"""The five minutes that come next: what is left of today's, today's, or tomorrow's."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from drills.level import Level
from drills.trace import Pedal
from engine.five.planner import following
from engine.five.player_history import player_state_of
from engine.five.player_state import PlayerState
from engine.five.saved import session_under_way, sessions_on
from engine.five.session import seed_of
from engine.practice.results import Session, SessionKind
from engine.store import History


@dataclass(frozen=True)
class Forecast:
    """The five minutes that come next."""

    player: PlayerState
    """What is known of the player on the day they are on."""
    session: Session
    """As far as they were played."""
    done: bool = False
    """Whether those of today are over, and these are tomorrow's."""


def forecast(
    history: History,
    levels: Sequence[Level],
    band: Level,
    pedals: frozenset[Pedal],
    now: datetime,
    minutes: float,
) -> Forecast:
    """The five minutes that come next. Raises StoreError."""
    today = now.date()
    player = player_state_of(history, levels, band, pedals, today)
    under_way = session_under_way(history, SessionKind.FIVE, today)
    if under_way is not None and under_way.results and following(player, under_way) is not None:
        return Forecast(player, under_way)
    played = [
        one for one in sessions_on(history, today) if one.what is SessionKind.FIVE and one.results
    ]
    if not any(one.over or one == under_way for one in played):
        return Forecast(player, Session(0, SessionKind.FIVE, now, minutes, seed_of(today)))
    tomorrow = today + timedelta(days=1)
    player = player_state_of(history, levels, band, pedals, tomorrow)
    return Forecast(
        player, Session(0, SessionKind.FIVE, now, minutes, seed_of(tomorrow)), done=True
    )
