"""One blip that went wrong in a warm-up: it is said that it was one."""

from datetime import UTC, datetime, timedelta

import numpy as np

from drills.score import Reason, Verdict
from engine.drill.turn import Pictures
from engine.five.flow import warm_up_words
from engine.five.player_state import PlayerState
from engine.five.saved import begin_session
from engine.five.session import SessionLog
from engine.five.warm_up_words import WarmUpWords
from engine.ladder.level_files import load_band
from engine.practice.results import Purpose, Session, SessionKind
from engine.store import History
from engine.store.repetitions import add_repetition
from tests.made import record

BAND = load_band()
FIRST = datetime(2024, 5, 1, 20, tzinfo=UTC)
USUAL_DAYS = [[5.0 + 0.4 * day % 1.5] * 8 for day in range(12)]


def warmed(history: History, days: list[list[float]]) -> WarmUpWords:
    """What the last of some days of warm-ups, each of eight deviations, says of the foot."""
    for number, deviations in enumerate(days):
        at = FIRST + timedelta(days=number)
        session = begin_session(history, SessionKind.WARM_UP, at, 3.0, number)
        for deviation in deviations:
            verdict = Verdict(
                Reason.CLEAN, 70.0, (), {"dip": deviation, "surge": 0.0, "peak": 60.0}
            )
            one = {"at": at, "why": Purpose.WARM, "session": session, "level": BAND.id}
            add_repetition(history, record(verdict=verdict, trace=None, **one))
    last = Session(session, SessionKind.WARM_UP, at, 3.0, number)
    player = PlayerState(at.date(), [], band=BAND)
    return warm_up_words(SessionLog(last, player, Pictures(), home=False, bests={}), history, BAND)


def test_a_single_outlier_is_named_as_one_blip(history: History) -> None:
    today = [*np.full(7, 5.5).tolist(), 44.0]

    word = warmed(history, [*USUAL_DAYS, today])

    assert word.heading == "Warmed up: not as steady as usual"
    assert word.lines[-1] == "One blip of 44 points: the other seven were as usual."


def test_a_day_of_bad_blips_is_not_blamed_on_one(history: History) -> None:
    word = warmed(history, [*USUAL_DAYS, [20.0] * 8])

    assert word.heading == "Warmed up: not as steady as usual"
    assert not [line for line in word.lines if "one blip" in line]


def test_a_usual_day_says_nothing_of_single_blips(history: History) -> None:
    word = warmed(history, [*USUAL_DAYS, [5.5] * 8])

    assert word.heading == "Warmed up: the usual foot"
    assert not [line for line in word.lines if "one blip" in line]
