"""Weeks of practice by a simulated foot that gets better, and the screens it ends up with."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np

from drills.foot import SimulatedFoot
from drills.trace import SECOND
from engine.drill.attempt import Setting
from engine.drill.demonstration import Demonstration
from engine.five.day_end import DayEnd
from engine.five.flow import five_minutes
from engine.game.entries import HOME
from engine.game.entry import choices_of
from engine.game.facts import facts_of
from engine.game.home import Home
from engine.game.offer import Offer
from engine.kit.flow import watched
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL
from engine.progress.history_screens import HistoryPage
from engine.progress.progress import progress_of
from engine.stage.headless import run_headless
from engine.stage.scene import Attended, Scene
from engine.store import History, open_history
from tests.coarse_clock import CoarseClock
from tests.engine.five.learning_foot import Feet
from tests.fakes import a_stage

FIRST = datetime(2026, 4, 6, 19, tzinfo=UTC)
"""First day of practice."""
DAYS = 30
"""Days of practice, one after another, each with a session of five minutes."""
SKILL = (0.3, 0.8)
"""Skill of the foot on the first day and on the last, from 0 (beginner) to 1 (expert)."""
MINUTES = 5.0
"""Length of a session, in min."""
LEVELS, BAND = load_levels([SHIPPED]), load_band()


def screens_after_practice() -> Mapping[str, Attended]:
    """Screens after DAYS of practice: the end of the last day, and home and history on the next."""
    with tempfile.TemporaryDirectory() as folder, open_history(Path(folder), LEVELS) as history:
        for number in range(DAYS):
            day_end = _day_end(history, number)
        setting = _setting(history, DAYS, CoarseClock())
        offer = Offer(LEVELS, BAND, Demonstration(LEVELS[0], 1, 0, 0.5, levels=LEVELS))
        facts = facts_of(setting, history, offer)
        progress = progress_of(history, LEVELS, BAND, setting.now().date())
        return {
            "home": Home(facts, choices_of(HOME, facts)),
            "day-end": day_end,
            "steadiness": HistoryPage(progress, "steadiness"),
        }


def _setting(history: History, number: int, clock: CoarseClock) -> Setting:
    """Setting of day `number` from 0, with a foot of that day's skill and luck."""
    share = min(number / (DAYS - 1), 1.0)
    foot = Feet(SimulatedFoot(SKILL[0] + (SKILL[1] - SKILL[0]) * share, number), clock, "")
    rig = Rig(clock, pedals=CalibratedPedals(foot, SIMULATED_TRAVEL))
    day = FIRST + timedelta(days=number)

    def now() -> datetime:
        return day + timedelta(seconds=clock() / SECOND)

    return Setting(rig, a_stage(foot), history, np.random.default_rng(number), now, levels=LEVELS)


def _day_end(history: History, number: int) -> Attended:
    """Play the session of day `number`; return the end of the day."""
    shown: list[Attended] = []

    def opened(scene: Scene) -> None:
        if scene.screen.name == DayEnd.name:
            shown.append(scene.screen)

    clock = CoarseClock()
    session = five_minutes(_setting(history, number, clock), history, BAND, MINUTES)
    run_headless(watched(session, opened, lambda _: None), clock)
    return shown[-1]
