"""The next five minutes, planned and in words: the rest of today's, today's or tomorrow's."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from drills.level import Level
from drills.trace import Pedal
from engine.drill.attempt import Setting
from engine.five.planner import Planned, following, plan, seed_of, shown_again
from engine.five.player_history import known_of
from engine.five.player_state import Known
from engine.practice.results import MINUTES, Sitting, What, Why
from engine.store import History


@dataclass(frozen=True)
class Ahead:
    """The five minutes that come next."""

    known: Known
    """What is known of the player on the day they are on."""
    sitting: Sitting
    """As far as they were played."""
    done: bool = False
    """Whether those of today are over, and these are tomorrow's."""


def ahead(
    history: History,
    levels: Sequence[Level],
    band: Level,
    pedals: frozenset[Pedal],
    now: datetime,
    minutes: float,
) -> Ahead:
    """The five minutes that come next. Raises StoreError."""
    today = now.date()
    known = known_of(history, levels, band, pedals, today)
    under_way = history.sitting_under_way(What.FIVE, today)
    if under_way is not None and under_way.results and following(known, under_way) is not None:
        return Ahead(known, under_way)
    played = [one for one in history.sittings(today) if one.what is What.FIVE and one.results]
    if not any(one.over or one == under_way for one in played):
        return Ahead(known, Sitting(0, What.FIVE, now, minutes, seed_of(today)))
    tomorrow = today + timedelta(days=1)
    known = known_of(history, levels, band, pedals, tomorrow)
    return Ahead(known, Sitting(0, What.FIVE, now, minutes, seed_of(tomorrow)), done=True)


def foretold(setting: Setting, history: History, band: Level, minutes: float = MINUTES) -> str:
    """What the five minutes will be, in a few words. Raises StoreError."""
    there, now = setting.rig.there, setting.now()
    coming = ahead(history, setting.levels, band, there, now, minutes)
    if coming.done:
        return "done for today: sleep does the rest"
    if coming.sitting.results:
        return f"{_left(coming.sitting.left)} left of today's"
    return in_words(plan(coming.known, coming.sitting)) or "no time for any at your pace"


def in_words(planned: Sequence[Planned]) -> str:
    """What a plan begins with, in the order it comes."""
    words = {Why.DUE: f"{shown_again(planned)} to show again", Why.BAND: "steadiness"}
    learned = next((one.level.title for one in planned if one.why is Why.LEARN), "")
    parts: list[str] = []
    for why in dict.fromkeys(one.why for one in planned):
        if why is Why.LEARN:
            return ", then ".join([", ".join(parts), learned] if parts else [learned])
        parts.append(words.get(why, why.value))
    return ", ".join(parts)


def _left(seconds: float) -> str:
    """Such as "3 minutes", or "40 seconds"."""
    if seconds < 55:
        return f"{max(round(seconds / 10), 1) * 10} seconds"
    minutes = round(seconds / 60)
    return "1 minute" if minutes == 1 else f"{minutes} minutes"
