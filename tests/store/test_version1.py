"""A history that version 1 of the file was made of, opened as the newest.

`version1.sqlite3` was written by the program of that time: sets of the simulated foot, settings,
and more repetitions on other days, some void. `version1.json` is what that program said of it.
"""

import hashlib
import json
import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from drills.level import PassRule
from drills.trace import Trace
from engine.setup.saved_rigs import saved_rigs
from engine.store import History, StoreError, ledger, open_history
from engine.store.history import FILE
from engine.store.migrate import version
from engine.store.repetitions import add_repetition, measures_of
from engine.store.schema import MIGRATIONS
from engine.store.traces import calibration_of, trace_of
from tests.made import SCALE, level, record
from tests.stored import all_results, sampling_of

HERE = Path(__file__).parent
RULES = {"still-1-light": PassRule(2, 2), "blip-1-first": PassRule(4, 5), "gone": PassRule(1, 1)}
LEVELS = [level(id=name, rule=rule) for name, rule in RULES.items()]
SAID: dict[str, Any] = json.loads((HERE / "version1.json").read_text(encoding="utf-8"))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A data folder of version 1, its repetitions by feet."""
    shutil.copy(HERE / "version1.sqlite3", tmp_path / FILE)
    with closing(sqlite3.connect(tmp_path / FILE)) as connection, connection:
        connection.execute("UPDATE repetition SET source = 'pedals'")
    return tmp_path


@pytest.fixture
def history(folder: Path) -> Iterator[History]:
    """It opened by this program."""
    with open_history(folder, LEVELS) as opened:
        yield opened


def digest(trace: Trace | None) -> str | None:
    """The bytes of a trace, summed up."""
    if trace is None:
        return None
    columns = [trace.time.astype("<i8"), trace.brake.astype("<f8"), trace.throttle.astype("<f8")]
    return hashlib.sha256(b"".join(column.tobytes() for column in columns)).hexdigest()


def test_the_file_is_of_version_1() -> None:
    with closing(sqlite3.connect(HERE / "version1.sqlite3")) as connection:
        assert version(connection) == 1


def test_it_holds_the_same_repetitions(history: History) -> None:
    results = all_results(history)

    found = [[one.level, one.day.isoformat(), one.score, one.clean, one.void] for one in results]
    assert found == SAID["results"]


def test_each_repetition_has_the_pass_rule_in_force_when_it_was_carried_over(
    history: History,
) -> None:
    rules = {result.level: result.rule for result in all_results(history)}

    assert rules == {
        "still-1-light": PassRule(2, 2),
        "blip-1-first": PassRule(4, 5),
        "blip-2-closer": PassRule(8, 10),
    }


def test_it_holds_the_same_measures_traces_and_settings(history: History) -> None:
    numbers = range(1, len(SAID["results"]) + 1)

    assert [measures_of(history, number) for number in numbers] == SAID["measures"]
    assert [digest(trace_of(history, number)) for number in numbers] == SAID["traces"]
    assert [calibration_of(history, number) for number in numbers] == [None] * len(numbers)
    assert history.setting("sound") == SAID["settings"]["sound"]
    [rig] = saved_rigs(history)
    assert (rig.number, rig.name) == (1, "")
    assert rig.binding.as_data() == SAID["settings"]["binding"]
    assert sampling_of(history, 1).rate == 1000.0


@pytest.mark.parametrize("day", SAID["days_row"])
def test_the_player_stands_where_the_whole_history_said(history: History, day: str) -> None:
    streaks = ledger.streaks(history, date.fromisoformat(day))

    assert streaks.days_streak == SAID["days_row"][day]
    assert streaks.clean_streak == SAID["clean_row"]
    assert sorted(ledger.passed(history)) == SAID["passed"]


@pytest.mark.parametrize("source", ["mouse", "simulated"])
def test_what_no_feet_did_leaves_the_ledger(folder: Path, source: str) -> None:
    with closing(sqlite3.connect(folder / FILE)) as connection, connection:
        connection.execute("UPDATE repetition SET source = ?", (source,))

    with open_history(folder, LEVELS) as history:
        streaks = ledger.streaks(history, date.fromisoformat(max(SAID["days_row"])))
        passed, kept = ledger.passed(history), len(all_results(history))

    assert (streaks.days_streak, streaks.clean_streak, streaks.today) == (0, 0, 0)
    assert passed == frozenset()
    assert kept == len(SAID["results"])


def test_it_goes_on(history: History) -> None:
    number = add_repetition(history, record())

    assert number == len(SAID["results"]) + 1
    assert calibration_of(history, number) == SCALE


def test_one_that_cannot_be_carried_over_is_left_as_it_was(folder: Path) -> None:
    with closing(sqlite3.connect(folder / FILE)) as connection, connection:
        connection.execute("UPDATE repetition SET at_utc = 'soon' WHERE id = 7")
    before = (folder / FILE).read_bytes()

    with pytest.raises(StoreError) as refused:
        open_history(folder, LEVELS)

    assert str(refused.value) == (
        f"{folder / FILE}: repetition 7: at_utc: expected a date and time, found 'soon'"
    )
    assert (folder / FILE).read_bytes() == before


def test_it_is_of_the_newest_version_then(folder: Path) -> None:
    open_history(folder, LEVELS).close()

    with closing(sqlite3.connect(folder / FILE)) as connection:
        assert version(connection) == len(MIGRATIONS)
