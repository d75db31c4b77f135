"""What the history says of a player, as the rules of practice want to know it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from drills.level import Level
from drills.trace import Pedal
from engine.five.pace import pace_of
from engine.five.player_state import PlayerState
from engine.five.saved import stored_blips
from engine.kit.steadiness_chart import DAYS, SteadinessView
from engine.practice.results import Purpose
from engine.practice.steadiness import SteadinessBlip, by_day, next_tolerance, steadiness
from engine.store import History, ledger
from engine.store.repetitions import recent_results
from engine.store.retention import all_retention

RECENT = 300
"""count, newest repetitions that the planner looks at: ten times five minutes."""
BLIPS = 400
"""count, newest blips of the steadiness band that say what it is: two months of them."""


def player_state_of(
    history: History, levels: Sequence[Level], band: Level, pedals: frozenset[Pedal], day: date
) -> PlayerState:
    """What there is to know of a player on a local day; `band` is the drill of the steadiness band.

    Raises StoreError.
    """
    recent = recent_results(history, RECENT)
    return PlayerState(
        day=day,
        levels=levels,
        done=ledger.passed(history) | ledger.placed(history),
        retention=all_retention(history),
        recent=recent,
        pace=pace_of(recent),
        band=band,
        pedals=pedals,
    )


def steadiness_blips(
    history: History, band: Level, why: Purpose, session: int | None = None, count: int = BLIPS
) -> list[SteadinessBlip]:
    """The newest so many blips of the drill of the steadiness band, oldest first.

    Those of one sitting where its number is given. Raises StoreError.
    """
    return [
        SteadinessBlip(day, band.limits["dip"] if asked is None else asked, deviation)
        for day, asked, deviation in stored_blips(history, band.id, why, count, session)
    ]


def tolerance_now(history: History, band: Level) -> float:
    """points, what the next blip of the steadiness band is asked. Raises StoreError."""
    return round(next_tolerance(steadiness_blips(history, band, Purpose.BAND)), 1)


def with_tolerance(band: Level, tolerance: float) -> Level:
    """The drill of the steadiness band, asking a tolerance in points either way."""
    return replace(band, limits=dict.fromkeys(band.limits, tolerance))


def steadiness_view(history: History, band: Level, today: date) -> SteadinessView | None:
    """The steadiness band as it stands; None where there are too few blips. Raises StoreError."""
    blips = steadiness_blips(history, band, Purpose.BAND)
    now = steadiness(blips)
    if now is None:
        return None
    days = tuple(((today - one.day).days, one.value) for one in by_day(blips, today, DAYS))
    return SteadinessView(now.value, now.low, now.high, days)
