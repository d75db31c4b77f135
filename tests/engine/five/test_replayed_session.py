"""A session whose repetitions are all replayed: practice ends on time, only the clock goes on."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import numpy as np
import pytest

from drills.calibration import UNIT
from drills.level import Feedback, PassRule
from drills.trace import SECOND
from engine.drill.attempt import Setting
from engine.drill.lesson import Lesson
from engine.drill.lesson_saved import Lessons
from engine.drill.moment import Moment
from engine.drill.reveal import Reveal
from engine.five.flow import five_minutes
from engine.five.saved import sessions_on
from engine.kit.looks import Look
from engine.ladder.level_files import load_band
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.stage.actions import Action
from engine.stage.headless import ManualClock
from engine.stage.scene import Attended
from engine.store import History
from tests.coarse_clock import READ_EACH
from tests.engine.drill.quiet import QuickFoot, at_once, attend
from tests.engine.five.unattended import FIRST, SECOND_ONE, THIRD
from tests.fakes import a_stage

AT = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
MINUTES = 2.0
FROM, TO = 2 * SECOND // 5, 5 * SECOND
"""When a reveal is asked for its replay and when it is left, in ns after it opens."""
LATE = 15.0
"""Seconds by which a session may be off its length."""


class Replaying:
    """Player who replays each repetition, reads each lesson, and sits through each moment."""

    def __init__(self) -> None:
        self.aside = 0
        """Time spent on lessons and replays so far, in ns."""
        self.replays = self.lessons = self.moments = 0

    def act(self, screen: Attended, since: int) -> Action | None:
        """What the player does on a screen, `since` ns after it opened."""
        if isinstance(screen, Lesson):
            self.lessons += since == READ_EACH
            self.aside += READ_EACH
            return None
        if isinstance(screen, Moment):
            self.moments += since == READ_EACH
            return None
        if not isinstance(screen, Reveal):
            return at_once(screen)
        if screen.looks.now is not Look.MAIN:
            self.aside += READ_EACH
        self.replays += since == FROM
        return {FROM: Action.NEXT, TO: Action.GO}.get(since)


@pytest.mark.parametrize("began", [0, 90 * SECOND])
def test_practice_ends_on_time_however_long_repetitions_are_replayed(
    began: int, history: History
) -> None:
    clock, player = ManualClock(), Replaying()
    clock.advance(began)
    foot = QuickFoot(clock)
    rule = PassRule(2, 2)
    levels = [
        replace(one, feedback=Feedback.EVERY, rule=rule) for one in (FIRST, SECOND_ONE, THIRD)
    ]
    setting = Setting(
        Rig(clock, pedals=CalibratedPedals(foot, UNIT)),
        a_stage(foot),
        history,
        np.random.default_rng(1),
        lambda: AT + timedelta(seconds=clock() / SECOND),
        levels=levels,
        lessons=Lessons(history),
    )

    attend(five_minutes(setting, history, load_band(), MINUTES), clock, player.act, [])

    [session] = sessions_on(history, AT.date())
    practised = sum(result.took or 0.0 for result in session.results)
    assert practised == pytest.approx(60 * MINUTES, abs=LATE)
    assert min(player.replays, player.lessons, player.moments) >= 1
    assert player.aside > 60 * SECOND
    lasted = (clock() - began - player.aside) / SECOND
    assert lasted == pytest.approx(practised, abs=3.0)
