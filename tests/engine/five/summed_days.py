"""Made-up days, summed up as the end of a session does."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta

from engine.drill.turn import Pictures
from engine.five.day import Day
from engine.five.day_summary import day_of
from engine.five.player_state import PlayerState
from engine.five.session import SessionLog
from engine.practice.focus import Focus
from engine.practice.results import Purpose, Result, Session, SessionKind, Streaks
from engine.practice.retention import Retention
from tests.engine.five.unattended import DATE, HOLDS

TODAY = DATE.date()
TOMORROW = TODAY + timedelta(days=1)
STOOD = Streaks(
    today=0, clean_today=0, clean_streak=0, days_streak=0, best_clean_streak=7, best_days_streak=3
)
KEPT = Retention(TODAY + timedelta(days=3), 1, False, TODAY, (True,) * 4)
MISSED = Retention(TOMORROW, 0, True, TODAY, (False,) * 3)


def one(
    level: str = "first",
    why: Purpose = Purpose.LEARN,
    score: float | None = 80.0,
    *,
    clean: bool = True,
    day: date = TODAY,
    took: float = 5.0,
) -> Result:
    """A repetition of a day; void where it has no score."""
    return Result(level, day, score, clean and score is not None, score is None, why=why, took=took)


def a_day(
    results: Sequence[Result] = (),
    retention: Mapping[str, Retention] | None = None,
    bests: Mapping[str, float] | None = None,
    *,
    stands: Streaks = STOOD,
    over: bool = True,
    player: PlayerState | None = None,
    passed: Sequence[str] = (),
    focus: Focus | None = None,
) -> Day:
    """The day of these."""
    now = player or PlayerState(TODAY, HOLDS)
    now = replace(now, retention=retention or {})
    session = Session(1, SessionKind.FIVE, DATE, 5.0, 1, tuple(results), over)
    ran = SessionLog(
        session, now, Pictures(), False, bests or {}, passed=frozenset(passed), focus=focus
    )
    return day_of(ran, STOOD, stands, None)
