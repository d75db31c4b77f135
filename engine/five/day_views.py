"""What the pictures of a day are drawn from, read from the history before and after a session."""

from __future__ import annotations

from drills.level import Level
from engine.drill.attempt import Setting
from engine.five.day import DayViews
from engine.five.planner import works_on
from engine.five.player_history import player_state_of, steadiness_blips
from engine.five.session import SessionLog
from engine.ladder.rise import Climb, rise_between
from engine.ladder.saved import stages_of
from engine.practice.results import Purpose
from engine.practice.steadiness import SteadinessStep, step_of
from engine.store import History
from engine.store.cells import LARGEST
from engine.store.days import practice_days
from engine.store.remeasure import remeasuring


def climbed(setting: Setting, history: History, band: Level) -> Climb:
    """Where the player stands on the climb now. Raises StoreError."""
    there, day = setting.there, setting.now().date()
    player = player_state_of(history, setting.levels, band, there, day)
    return Climb(stages_of(setting, history), works_on(player))


def views_of(
    ran: SessionLog, before: Climb, setting: Setting, history: History, band: Level
) -> DayViews:
    """What the pictures of a day are drawn from, after its session. Raises StoreError.

    `before` is where the player stood before the session.
    """
    after = climbed(setting, history, band)
    levels = {level.id: level for level in setting.levels}
    played = {result.level for result in ran.session.results if result.level in levels}
    return DayViews(
        today=setting.now().date(),
        days=tuple(practice_days(history)),
        stages=after.stages,
        following=works_on(ran.now),
        rise=rise_between(before, after),
        step=new_step(history, band, ran.session.number),
        curves={level: tuple(ran.pictures.of(levels[level])) for level in played},
    )


def new_step(history: History, band: Level, session: int) -> SteadinessStep | None:
    """Step to a narrower steadiness that is told since a session, and was not told before it.

    None while the history is remeasured. Raises StoreError.
    """
    if remeasuring(history) is not None:
        return None
    of_session = steadiness_blips(history, band, Purpose.BAND, session, count=LARGEST)
    if not of_session:
        return None
    blips = steadiness_blips(history, band, Purpose.BAND, count=LARGEST)
    step = step_of(blips)
    if step is None or step.now.value >= step.first.value:
        return None
    return step if step_of(blips[: -len(of_session)]) is None else None
