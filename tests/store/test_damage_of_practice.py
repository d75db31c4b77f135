"""Damaged cells that the rules of practice read: each is refused in one line with its place."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest

from drills.level import PassRule
from drills.score import Reason, Verdict
from engine.five.saved import begin_session, session_under_way, sessions_on, stored_blips
from engine.practice.results import Purpose, SessionKind
from engine.store import History, StoreError, ledger, open_history
from engine.store.history import FILE
from engine.store.repetitions import add_repetition, recent_results
from engine.store.retention import all_retention
from tests.made import record
from tests.stored import all_results, rebuild_ledger

TODAY = date(2024, 5, 17)
CLEAN = Verdict(Reason.CLEAN, 90.0, (), {"dip": 1.5, "surge": 0.5, "peak": 60.0})
REASONS = ", ".join(f"'{why.value}'" for why in Purpose)
SESSIONS = ", ".join(f"'{what.value}'" for what in SessionKind)


def under_way(history: History) -> object:
    """Today's five minutes that are not over."""
    return session_under_way(history, SessionKind.FIVE, TODAY)


def today(history: History) -> object:
    """The sessions of today."""
    return sessions_on(history, TODAY)


def newest(history: History) -> object:
    """The newest repetition."""
    return recent_results(history, 1)


def blips(history: History) -> object:
    """The blips of a level."""
    return stored_blips(history, "a-blip", Purpose.BAND, 5)


@pytest.mark.parametrize(
    ("damage", "ask", "said"),
    [
        (
            "repetition SET why = 'whim'",
            newest,
            f"repetition 1: why: expected one of {REASONS}, found 'whim'",
        ),
        (
            "repetition SET why = x'00'",
            rebuild_ledger,
            f"repetition 1: why: expected one of {REASONS}, found b'\\x00'",
        ),
        (
            "repetition SET took = 'long'",
            under_way,
            "repetition 1: took: expected a number or nothing, found 'long'",
        ),
        (
            "repetition SET kind = x'00'",
            all_results,
            "repetition 1: kind: expected text, found b'\\x00'",
        ),
        (
            "repetition SET at_utc = '9999-12-30T12:00:00.000+00:00'",
            rebuild_ledger,
            "repetition 1: at_utc: expected a date and time, found '9999-12-30T12:00:00.000+00:00'",
        ),
        (
            "repetition SET asked = 'much'",
            blips,
            "repetition 1: asked: expected a number or nothing, found 'much'",
        ),
        (
            "repetition SET at_utc = 'soon'",
            blips,
            "repetition 1: at_utc: expected a date and time, found 'soon'",
        ),
        (
            "measure SET value = 'deep' WHERE value = 1.5",
            blips,
            "repetition 1: dip: expected a number, found 'deep'",
        ),
        (
            "measure SET value = x'01' WHERE value = 0.5",
            blips,
            "repetition 1: surge: expected a number, found b'\\x01'",
        ),
        (
            "sitting SET what = 'a nap'",
            today,
            f"session 1: what: expected one of {SESSIONS}, found 'a nap'",
        ),
        (
            "sitting SET began_utc = 'soon'",
            under_way,
            "session 1: began_utc: expected a date and time, found 'soon'",
        ),
        (
            "sitting SET offset = 1440",
            under_way,
            "session 1: offset: expected a whole number from -1439 to 1439, found 1440",
        ),
        (
            "sitting SET minutes = 'five'",
            under_way,
            "session 1: minutes: expected a number over 0 and up to 60, found 'five'",
        ),
        (
            "sitting SET minutes = 9e999",
            under_way,
            "session 1: minutes: expected a number over 0 and up to 60, found inf",
        ),
        (
            "sitting SET seed = -1",
            under_way,
            "session 1: seed: expected a whole number from 0 to 9223372036854775807, found -1",
        ),
        (
            "sitting SET over = 2",
            today,
            "session 1: over: expected a whole number from 0 to 1, found 2",
        ),
        (
            "keeping SET due = '2024-02-31'",
            all_retention,
            "retention of 'a-blip': due: expected a date, found '2024-02-31'",
        ),
        (
            "keeping SET outlasted = -1",
            all_retention,
            "retention of 'a-blip': outlasted: expected a whole number from 0 to 1000000000, "
            "found -1",
        ),
        (
            "keeping SET missed = 'yes'",
            all_retention,
            "retention of 'a-blip': missed: expected a whole number from 0 to 1, found 'yes'",
        ),
        (
            "keeping SET day = 'never'",
            all_retention,
            "retention of 'a-blip': day: expected a date, found 'never'",
        ),
        (
            "keeping SET first = '01010101011'",
            lambda history: add_repetition(history, record(verdict=CLEAN)),
            "retention of 'a-blip': first: expected at most 10 of 0 and 1, found '01010101011'",
        ),
        (
            "keeping SET level = x'00'",
            all_retention,
            "keeping: level: expected text, found b'\\x00'",
        ),
        (
            "progress SET top = 'high'",
            lambda history: ledger.level_progress(history, "a-blip"),
            "progress of 'a-blip': top: expected a number, found 'high'",
        ),
        (
            "clean_row SET best = 'all'",
            lambda history: ledger.streaks(history, TODAY),
            "clean row: best: expected a whole number from 0 to 1000000000, found 'all'",
        ),
        (
            "day SET streak = 9",
            lambda history: ledger.streaks(history, TODAY),
            "days in a row: began: expected a date, found None",
        ),
        (
            "day SET streak = 'long'",
            lambda history: ledger.streaks(history, TODAY),
            "days in a row: streak: expected a whole number from 0 to 1000000000, found 'long'",
        ),
    ],
)
def test_damage_is_said_with_its_place(
    tmp_path: Path, damage: str, ask: Callable[[History], object], said: str
) -> None:
    with open_history(tmp_path, []) as history:
        session = begin_session(history, SessionKind.FIVE, record().at, 5.0, 1)
        made = {"session": session, "took": 2.5, "why": Purpose.BAND, "asked": 7.5}
        add_repetition(history, record(verdict=CLEAN, rule=PassRule(1, 1), trace=None, **made))
    with closing(sqlite3.connect(tmp_path / FILE)) as other, other:
        other.execute(f"UPDATE {damage}")

    with open_history(tmp_path, []) as history, pytest.raises(StoreError) as refused:
        ask(history)

    assert str(refused.value) == f"{tmp_path / FILE}: {said}"


def test_damaged_retention_can_be_rebuilt(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        add_repetition(history, record(verdict=CLEAN, rule=PassRule(1, 1), trace=None))
        before = (
            all_retention(history),
            ledger.level_progress(history, "a-blip"),
            ledger.streaks(history, TODAY),
        )
    with closing(sqlite3.connect(tmp_path / FILE)) as other, other:
        other.execute("UPDATE keeping SET due = 5, first = 'x'")
        other.execute("INSERT INTO keeping VALUES ('never-played', '2024-05-18', 1, 0, NULL, '')")
        other.execute("UPDATE progress SET top = 'high'")
        other.execute("UPDATE clean_row SET best = -3")

    with open_history(tmp_path, []) as history:
        rebuild_ledger(history)
        after = (
            all_retention(history),
            ledger.level_progress(history, "a-blip"),
            ledger.streaks(history, TODAY),
        )

    assert after == before
