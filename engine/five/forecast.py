"""Forecast of the next session: the rest of today's, all of today's, or tomorrow's."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from drills.level import Level
from engine.drill.attempt import Setting
from engine.five.check_time import is_back
from engine.five.plan_words import plan_words, still_there_words, time_left_words
from engine.five.planner import checks_in, following, plan, seed_of
from engine.five.player_history import player_state_of
from engine.five.player_state import PlayerState
from engine.five.saved import session_under_way, sessions_on
from engine.practice.results import MINUTES, Session, SessionKind
from engine.store import History


@dataclass(frozen=True)
class Forecast:
    """The session of five minutes that comes next, and the player who will play it."""

    player: PlayerState
    """State of the player on the day of the forecast session."""
    session: Session
    """Session that comes next, with the repetitions already played in it."""
    done: bool = False
    """Whether today's session is over, so that the forecast one is tomorrow's."""


def forecast(
    history: History,
    levels: Sequence[Level],
    band: Level,
    pedals: frozenset[str],
    now: datetime,
    minutes: float,
    player: PlayerState | None = None,
) -> Forecast:
    """The next session of a player; a new one is `minutes` long.

    `player` is the state of the player today, where it was read before. Raises StoreError.
    """
    today = now.date()
    player = player or player_state_of(history, levels, band, pedals, today)
    under_way = session_under_way(history, SessionKind.FIVE, today)
    if under_way is not None and under_way.results and following(player, under_way) is not None:
        return Forecast(player, under_way)
    played = [
        session
        for session in sessions_on(history, today)
        if session.what is SessionKind.FIVE and session.results
    ]
    if not any(session.over or session == under_way for session in played):
        return Forecast(player, Session(0, SessionKind.FIVE, now, minutes, seed_of(today)))
    tomorrow = today + timedelta(days=1)
    session = Session(0, SessionKind.FIVE, now, minutes, seed_of(tomorrow))
    return Forecast(replace(player, day=tomorrow), session, done=True)


def forecast_words(
    setting: Setting,
    history: History,
    band: Level,
    minutes: float = MINUTES,
    player: PlayerState | None = None,
) -> str:
    """The next session in a few words, for the home screen; `player` is as in `forecast`.

    Raises StoreError.
    """
    there, now = setting.there, setting.now()
    coming = forecast(history, setting.levels, band, there, now, minutes, player)
    if coming.done:
        return "done for today: it goes on tomorrow"
    if coming.session.results:
        return f"{time_left_words(coming.session.left)} left today"
    planned, player = plan(coming.player, coming.session), coming.player
    checked, due = checks_in(planned), len(player.due)
    if checked and is_back(player):
        return still_there_words(checked, due)
    words = plan_words(planned, due)
    return f"next: {words}" if words else "no time for a repetition at your pace"
