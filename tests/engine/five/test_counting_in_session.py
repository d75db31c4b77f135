"""The second task in a session: its pairs are balanced there too, and closed without sound."""

from dataclasses import replace

import numpy as np

from drills.foot import SimulatedFoot
from drills.level import Feedback
from engine.drill.attempt import Setting
from engine.five.planner import Planned
from engine.five.player_history import player_state_of
from engine.five.player_state import PlayerState
from engine.five.session import SessionRules, run_session
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL
from engine.practice.passes import ALL_PEDALS, SOUND, is_open
from engine.practice.results import Purpose, Session, SessionKind
from engine.stage.headless import ManualClock, run_headless
from engine.store import History
from engine.store.repetitions import measures_of
from tests.engine.five.learning_foot import BY_ID, DATE, LEVELS, Feet
from tests.engine.five.unattended import BAND
from tests.fakes import a_stage

EASY = replace(BY_ID["count-1-easy"], feedback=Feedback.NONE)
PLAYED = 8
WHYS = (*(Purpose.DUE,) * 5, Purpose.FAULT, Purpose.MIX, Purpose.DARK)
"""A check of five, then whatever else a session may ask a passed level for."""


def eight(_player: PlayerState, session: Session) -> Planned | None:
    """One more repetition of the level until eight counted, for one purpose after another."""
    counted = sum(not result.void for result in session.results)
    return Planned(EASY, WHYS[counted]) if counted < PLAYED else None


def test_a_session_asks_the_second_task_in_one_half_of_each_pair_whatever_it_is_for(
    history: History,
) -> None:
    clock = ManualClock()
    foot = Feet(SimulatedFoot(1.0, 4), clock, "")
    rig = Rig(clock, pedals=CalibratedPedals(foot, SIMULATED_TRAVEL))
    rng = np.random.default_rng(1)
    setting = Setting(rig, a_stage(foot), history, rng, lambda: DATE, levels=LEVELS)

    flow = run_session(SessionRules(SessionKind.FIVE, 5.0, eight), setting, history, BAND)
    results = run_headless(flow, clock).session.results

    numbers = [number for number, result in enumerate(results, start=1) if not result.void]
    counted = ["counted" in measures_of(history, number) for number in numbers]
    assert len(counted) == PLAYED
    assert all(
        first is not second for first, second in zip(counted[::2], counted[1::2], strict=True)
    )


def test_the_planner_leaves_out_levels_that_cannot_be_heard(history: History) -> None:
    done = frozenset(level.id for level in LEVELS)
    silent = player_state_of(history, LEVELS, BAND, ALL_PEDALS - {SOUND}, DATE.date())
    loud = player_state_of(history, LEVELS, BAND, ALL_PEDALS, DATE.date())

    assert EASY.id not in {level.id for level in replace(silent, done=done).playable}
    assert EASY.id in {level.id for level in replace(loud, done=done).playable}
    assert not is_open(EASY, done, ALL_PEDALS - {SOUND})
