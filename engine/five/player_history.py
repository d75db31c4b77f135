"""Player state, steadiness blips and steadiness, read from an open history."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from drills.kinds.asked_size import peaks_asked
from drills.level import Level
from engine.five.pace import pace_of
from engine.five.player_state import PlayerState
from engine.five.saved import stored_blips
from engine.five.saved_focus import focus_now
from engine.kit.steadiness_view import DAYS, SteadinessView
from engine.practice.results import Purpose, Result
from engine.practice.steadiness import (
    WINDOW,
    SteadinessBlip,
    by_day,
    counted,
    next_tolerance,
    steadiness,
)
from engine.store import History, ledger
from engine.store.changes import scale_start
from engine.store.personal import personal_limits
from engine.store.remeasure import remeasuring
from engine.store.repetitions import recent_results
from engine.store.retention import all_retention

RECENT = 300
"""Newest repetitions in the history that the planner reads, as a count: ten sessions' worth."""
BLIPS = 400
"""Newest blips read for steadiness and its last 30 days, as a count: two months' worth."""


def player_state_of(
    history: History,
    levels: Sequence[Level],
    band: Level,
    pedals: frozenset[str],
    day: date,
    known: Sequence[Result] = (),
) -> PlayerState:
    """State of the player on a local day; `band` is the steadiness drill.

    `known` are the newest repetitions, oldest first, where they were read before; they are read
    from the history where there are none. Raises StoreError.
    """
    recent = known[-RECENT:] or recent_results(history, RECENT)
    return PlayerState(
        day=day,
        levels=levels,
        done=ledger.passed(history) | ledger.placed(history),
        retention=all_retention(history),
        recent=recent,
        pace=pace_of(recent),
        band=band,
        pedals=pedals,
        personal=personal_limits(history),
        focus=focus_now(history),
    )


def steadiness_blips(
    history: History,
    band: Level,
    why: Purpose,
    session: int | None = None,
    count: int = BLIPS,
    after: int | None = None,
    *,
    earlier: bool = False,
) -> list[SteadinessBlip]:
    """Those to compare of the newest `count` steadiness blips for a purpose, oldest first.

    Where the number of a `session` is given, only its own. Only those numbered above `after` are
    among them; None leaves out what was played on another scale of the brake.

    What is compared over days is of one size: blips outside the size that `band` asks for, 40 to
    80 %, are left out. They were played before a size was asked; those inside are scaled like any
    other. With `earlier` they are among them, and so are those that were measured by another
    definition than today's: the staircase goes on from all of them. Raises StoreError.
    """
    after = scale_start(history) if after is None else after
    least, most = peaks_asked(band)
    return [
        SteadinessBlip(day, band.limits["dip"] if asked is None else asked, deviation, peak)
        for day, asked, deviation, peak in stored_blips(
            history, band.id, why, count, session, after, earlier=earlier
        )
        if earlier or least <= peak <= most
    ]


def tolerance_now(history: History, band: Level) -> float:
    """Tolerance to ask of the next steadiness blip, in points. Raises StoreError.

    On a new scale of the brake the staircase goes on from the newest tolerance of the old one.
    """
    # The staircase goes on from where it stood, whatever its blips were measured by, of any size.
    blips = steadiness_blips(history, band, Purpose.BAND, earlier=True)
    if not blips:
        blips = steadiness_blips(history, band, Purpose.BAND, count=1, after=0, earlier=True)
    return round(next_tolerance(blips), 1)


def with_tolerance(band: Level, tolerance: float) -> Level:
    """The steadiness drill with all its limits set to one tolerance, in points either way."""
    return replace(band, limits=dict.fromkeys(band.limits, tolerance))


def steadiness_view(history: History, band: Level, today: date) -> SteadinessView | None:
    """Steadiness, now and day by day; None if there are too few blips.

    None too while the history is remeasured. Raises StoreError.
    """
    if remeasuring(history) is not None:
        return None
    blips = steadiness_blips(history, band, Purpose.BAND)
    now = steadiness(blips)
    if now is None:
        return None
    days = tuple(((today - day.day).days, day.value) for day in by_day(blips, today, DAYS))
    return SteadinessView(now.value, now.low, now.high, now.days, days)


def blips_so_far(history: History, band: Level) -> int | None:
    """How many blips count for steadiness, up to those it needs. Raises StoreError.

    None while the history is remeasured.
    """
    if remeasuring(history) is not None:
        return None
    return min(len(counted(steadiness_blips(history, band, Purpose.BAND))), WINDOW)
