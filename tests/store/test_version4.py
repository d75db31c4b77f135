"""A history of version 4, which had neither sessions nor retention, opened as the newest."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest

from drills.level import PassRule
from engine.five.saved import begin_session, sessions_on
from engine.practice.results import Purpose, Result, SessionKind
from engine.practice.retention import Retention
from engine.store import History, ledger, open_history
from engine.store.history import FILE
from engine.store.migrate import migrate
from engine.store.repetitions import add_repetition, recent_results
from engine.store.retention import all_retention
from engine.store.schema import MIGRATIONS
from tests.engine.practice import plain
from tests.made import record
from tests.stored import all_results

FIRST = datetime(2024, 5, 17, 18, 15)
PLAYED = [
    *[(0, "a", 1, 40.5), (0, "a", 1, 88.25), (0, "b", 1, 71.0)],
    *[(1, "a", 1, 50.0)] * 4,
    *[(2, "b", 0, 12.0), (4, "a", 1, 61.0), (4, "a", 0, 20.0)],
]
"""Days after the first, level, whether clean, and score of each repetition."""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A data folder of version 4, with a ledger as it was then."""
    with closing(sqlite3.connect(tmp_path / FILE, isolation_level=None)) as connection:
        migrate(connection, MIGRATIONS[:4])
        connection.executemany(
            "INSERT INTO repetition (level, kind, source, at_utc, offset, target, tolerance, score,"
            " clean, void, reason, over, cues_ns, pass_clean, pass_of, feet)"
            " VALUES (?, 'blip', 'pedals', ?, 120, 60, 15, ?, ?, 0, 'any', '[]', '[]', 2, 2, 1)",
            [
                (level, f"{(FIRST + timedelta(days=days)).isoformat()}.000+00:00", score, clean)
                for days, level, clean, score in PLAYED
            ],
        )
        connection.execute("INSERT INTO progress VALUES ('a', '1111110', 1, 2)")
        connection.execute("INSERT INTO progress VALUES ('b', '10', 0, 1)")
        connection.execute("INSERT INTO clean_row VALUES (1, 0)")
    return tmp_path


@pytest.fixture
def history(folder: Path) -> Iterator[History]:
    """It opened by this program."""
    with open_history(folder, []) as opened:
        yield opened


def test_its_repetitions_were_chosen_by_the_player(history: History) -> None:
    results = all_results(history)

    day, rule = date(2024, 5, 17), PassRule(2, 2)
    assert results[0] == Result("a", day, 40.5, True, False, rule, kind="blip", why=Purpose.CHOSEN)
    assert {(one.why, one.took) for one in results} == {(Purpose.CHOSEN, None)}
    assert sessions_on(history, day) == []


def test_what_was_passed_then_is_kept_or_due_now(history: History) -> None:
    assert all_retention(history) == plain.retentions(all_results(history))
    assert all_retention(history) == {
        "a": Retention(date(2024, 5, 21), 1, False, date(2024, 5, 21), (True, False))
    }


def test_its_bests_are_found_again(history: History) -> None:
    assert ledger.level_progress(history, "a").top == 88.25
    assert ledger.level_progress(history, "b").top == 71.0
    assert ledger.streaks(history, date(2024, 5, 21)).best_clean_streak == 7


def test_it_goes_on(history: History) -> None:
    session = begin_session(history, SessionKind.FIVE, record().at, 5.0, 1)

    add_repetition(history, record(session=session, took=3.5, why=Purpose.BAND, asked=7.5))

    assert recent_results(history, 1)[0].why is Purpose.BAND
    assert sessions_on(history, date(2024, 5, 17))[0].results == tuple(recent_results(history, 1))
