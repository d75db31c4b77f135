"""A history of version 5, which knew neither trials nor drives, opened as the newest."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest

from engine.practice.results import Purpose
from engine.practice.retention import Retention
from engine.road.saved import all_drives
from engine.store import History, ledger, open_history
from engine.store.changes import all_changes
from engine.store.courses import courses_of
from engine.store.days import practice_days
from engine.store.history import FILE
from engine.store.migrate import migrate
from engine.store.repetitions import add_repetition
from engine.store.retention import all_retention
from engine.store.schema import MIGRATIONS
from engine.trial.saved import all_trials, trial_under_way
from tests.made import record
from tests.stored import all_results, rebuild_ledger

DAY = date(2024, 5, 17)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A data folder of version 5, with a ledger as it was then."""
    with closing(sqlite3.connect(tmp_path / FILE, isolation_level=None)) as connection:
        migrate(connection, MIGRATIONS[:5])
        connection.executemany(
            "INSERT INTO repetition (level, kind, source, at_utc, offset, target, tolerance, score,"
            " clean, void, reason, over, cues_ns, pass_clean, pass_of, feet, why, took)"
            " VALUES ('a', 'blip', 'pedals', '2024-05-17T18:15:30.250+00:00', 120, 60, 15, 88.5,"
            " 1, 0, 'clean', '[]', '[]', 1, 1, 1, ?, 4.5)",
            [("due",), ("warm-up",)],
        )
        connection.execute("INSERT INTO progress VALUES ('a', '11', 1, 1, 88.5)")
        connection.execute("INSERT INTO keeping VALUES ('a', '2024-05-18', 0, 0, NULL, '')")
        connection.execute("INSERT INTO day VALUES ('2024-05-17', 2, 2, 1, 1)")
        connection.execute("REPLACE INTO clean_row VALUES (1, 2, 2)")
    return tmp_path


@pytest.fixture
def history(folder: Path) -> Iterator[History]:
    """It opened by this program."""
    with open_history(folder, []) as opened:
        yield opened


def test_its_repetitions_are_of_no_trial(history: History, folder: Path) -> None:
    results = all_results(history)

    assert [(one.why, one.took, one.score) for one in results] == [
        *[(Purpose.DUE, 4.5, 88.5), (Purpose.WARM, 4.5, 88.5)]
    ]
    with closing(sqlite3.connect(folder / FILE)) as other:
        kept = other.execute("SELECT trial, block FROM repetition").fetchall()
    assert kept == [(None, None), (None, None)]


def test_nothing_of_what_is_new_is_in_it(history: History) -> None:
    assert (all_trials(history), all_drives(history), all_changes(history)) == ([], [], [])
    assert trial_under_way(history) is None


def test_its_ledger_is_the_same_as_before(history: History) -> None:
    before = (
        all_retention(history),
        ledger.level_progress(history, "a"),
        ledger.streaks(history, DAY),
    )

    rebuild_ledger(history)

    assert before[0] == {"a": Retention(date(2024, 5, 18))}
    assert (
        all_retention(history),
        ledger.level_progress(history, "a"),
        ledger.streaks(history, DAY),
    ) == before
    assert practice_days(history) == [(DAY, 2)]


def test_it_goes_on(history: History) -> None:
    add_repetition(history, record(trace=None))

    assert courses_of(history, {"blip": "dip"})["blip"].number.tolist() == [1, 2, 3]
