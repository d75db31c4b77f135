"""What home and a session read of the history: no more where there are more repetitions in it.

Counted in the steps of SQLite's own machine, of which every row that is looked at takes some. The
days are as many in both: home looks at a row for each day of practice.
"""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import timedelta

import numpy as np
import pytest

from drills.foot import SimulatedFoot
from drills.score import Reason, Verdict
from engine.drill.attempt import Setting
from engine.drill.demonstration import Demonstration
from engine.five.planner import Planned
from engine.five.player_state import PlayerState
from engine.five.session import SessionRules, run_session
from engine.game.facts import facts_of
from engine.game.offer import Offer
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL
from engine.practice.results import Purpose, Session, SessionKind
from engine.stage.headless import ManualClock, run_headless
from engine.store import History, Record
from engine.store.repetitions import insert_repetition
from tests.engine.five.learning_foot import DATE, Feet
from tests.fakes import a_stage
from tests.made import record
from tests.stored import in_memory, rebuild_ledger

LEVELS, BAND = load_levels([SHIPPED]), load_band()
SHORT, LONG = 66, 264
"""Repetitions on each day of the short history, and of the long one."""
DAYS = 20
"""Days of practice in both."""
STEADY = 3
"""Of the repetitions every third is a steadiness blip: more than are read in both histories."""
MORE = 1.1
"""Most that the long history may take, as a multiple of the short one: its indexes are deeper."""
EACH = 10
"""Steps of SQLite's machine from one count to the next."""


def practised(day: int, place: int) -> Record:
    """A repetition some days ago: all levels in turn, each with measures.

    One in seven is outside its limits, so that nothing is a row of clean ones.
    """
    is_band, number = place % STEADY == 0, 29 * day + place
    level = BAND if is_band else LEVELS[number % len(LEVELS)]
    clean = number % 7 != 0
    measures = {"dip": 6.0, "surge": 2.0, "peak": 60.0, "lead": 0.0, "offset": -3.0}
    reason, score = (Reason.CLEAN, 70.0) if clean else (Reason.OVER_LIMIT, 40.0)
    return record(
        level=level.id,
        kind=level.kind.name,
        at=DATE - timedelta(days=1 + day, seconds=-5 * place),
        target=40.0 + number % 5 * 10,
        verdict=Verdict(reason, score, () if clean else ("dip",), measures),
        rule=level.rule,
        why=Purpose.BAND if is_band else Purpose.LEARN,
        asked=8.0 if is_band else None,
        took=9.0,
        trace=None,
        sampling=None,
    )


@contextmanager
def with_each_day(repetitions: int) -> Iterator[History]:
    """A history of days in a row up to yesterday, with this many repetitions on each."""
    with in_memory() as history:

        def fill(db: sqlite3.Connection) -> None:
            for day in reversed(range(DAYS)):
                for place in range(repetitions):
                    insert_repetition(db, practised(day, place))

        history.write(fill)
        rebuild_ledger(history)
        yield history


def steps(history: History, work: Callable[[History], None]) -> int:
    """Steps that SQLite takes for some work on a history, in units of EACH."""
    counted = 0

    def count() -> int:
        nonlocal counted
        counted += 1
        return 0

    with history.reading() as db:
        db.set_progress_handler(count, EACH)
        work(history)
        db.set_progress_handler(None, EACH)
    return counted


def setting_of(history: History) -> Setting:
    """A player with feet on pedals."""
    clock = ManualClock()
    foot = Feet(SimulatedFoot(0.8, 3), clock, "")
    rig = Rig(clock, pedals=CalibratedPedals(foot, SIMULATED_TRAVEL))
    return Setting(
        rig, a_stage(foot), history, np.random.default_rng(1), lambda: DATE, levels=LEVELS
    )


def home(history: History) -> None:
    """Read what home says."""
    facts_of(setting_of(history), history, Offer(LEVELS, BAND, Demonstration(LEVELS[0], 1, 1, 1)))


def session(history: History) -> None:
    """Play three repetitions of the five minutes, which are the same in every history."""

    def three(_: PlayerState, so_far: Session) -> Planned | None:
        rest = [Planned(BAND, Purpose.BAND), Planned(LEVELS[0], Purpose.LEARN)]
        return [*rest, Planned(LEVELS[-4], Purpose.MIX), None][len(so_far.results)]

    setting = setting_of(history)
    assert isinstance(setting.rig.clock, ManualClock)
    rules = SessionRules(SessionKind.FIVE, 5.0, three)
    run_headless(run_session(rules, setting, history, BAND), setting.rig.clock)


@pytest.mark.parametrize("work", [home, session])
def test_a_long_history_is_read_no_more_than_a_short_one(work: Callable[[History], None]) -> None:
    taken = []
    for each in (SHORT, LONG):
        with with_each_day(each) as history:
            taken.append(steps(history, work))
    assert taken[0] > 0
    assert taken[1] <= MORE * taken[0], taken


def test_a_read_of_every_repetition_would_be_noticed() -> None:
    def read_all(history: History) -> None:
        home(history)
        with history.reading() as db:
            db.execute("SELECT sum(score) FROM repetition").fetchone()

    taken = []
    for each in (SHORT, LONG):
        with with_each_day(each) as history:
            taken.append(steps(history, read_all))
    assert taken[1] > MORE * taken[0], taken
