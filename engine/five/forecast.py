"""The next five minutes, planned and in words: the rest of today's, today's or tomorrow's."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from drills.level import Level
from drills.trace import Pedal
from engine.drill.attempt import Setting
from engine.five.planner import Planned, checks_in, following, plan, seed_of
from engine.five.player_history import player_state_of
from engine.five.player_state import PlayerState
from engine.five.saved import session_under_way, sessions_on
from engine.practice.results import MINUTES, Purpose, Session, SessionKind
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


def forecast_words(
    setting: Setting, history: History, band: Level, minutes: float = MINUTES
) -> str:
    """What the five minutes will be, in a few words. Raises StoreError."""
    there, now = setting.rig.there, setting.now()
    coming = forecast(history, setting.levels, band, there, now, minutes)
    if coming.done:
        return "done for today: sleep does the rest"
    if coming.session.results:
        return f"{_left(coming.session.left)} left of today's"
    return plan_words(plan(coming.player, coming.session)) or "no time for any at your pace"


def plan_words(planned: Sequence[Planned]) -> str:
    """What a plan begins with, in the order it comes."""
    words = {Purpose.DUE: f"{checks_in(planned)} to show again", Purpose.BAND: "steadiness"}
    learned = next((one.level.title for one in planned if one.why is Purpose.LEARN), "")
    parts: list[str] = []
    for why in dict.fromkeys(one.why for one in planned):
        if why is Purpose.LEARN:
            return ", then ".join([", ".join(parts), learned] if parts else [learned])
        parts.append(words.get(why, why.value))
    return ", ".join(parts)


def _left(seconds: float) -> str:
    """Such as "3 minutes", or "40 seconds"."""
    if seconds < 55:
        return f"{max(round(seconds / 10), 1) * 10} seconds"
    minutes = round(seconds / 60)
    return "1 minute" if minutes == 1 else f"{minutes} minutes"
