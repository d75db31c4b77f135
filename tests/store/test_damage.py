"""Damage inside a history: each is said in one line, with its place."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from datetime import date, timedelta
from pathlib import Path

import pytest

from drills.score import Reason, Verdict
from engine.store import History, StoreError, ledger, open_history
from engine.store.history import FILE
from engine.store.repetitions import add_repetition, measures_of
from engine.store.traces import trace_of
from tests.made import record, trace
from tests.stored import all_results, rebuild_ledger

TODAY = date(2024, 5, 17)
NOT_READ = "a packed trace cannot be read: "
ENDS = "calibration 1: ends: expected rest and full of each pedal"


def change(folder: Path, statement: str) -> None:
    """Change a history file past the program."""
    with closing(sqlite3.connect(folder / FILE)) as other, other:
        other.execute(statement)


@pytest.mark.parametrize(
    ("damage", "ask", "said"),
    [
        (
            "UPDATE repetition SET at_utc = 'yesterday'",
            all_results,
            "repetition 1: at_utc: expected a date and time, found 'yesterday'",
        ),
        (
            "UPDATE repetition SET at_utc = '9999-12-31T23:59:00.000+00:00'",
            rebuild_ledger,
            "repetition 1: at_utc: expected a date and time, found '9999-12-31T23:59:00.000+00:00'",
        ),
        (
            "UPDATE repetition SET at_utc = x'00'",
            rebuild_ledger,
            "repetition 1: at_utc: expected a date and time, found b'\\x00'",
        ),
        (
            "UPDATE repetition SET offset = 1e9",
            all_results,
            "repetition 1: offset: expected a whole number from -1439 to 1439, found 1000000000",
        ),
        (
            "UPDATE repetition SET score = 'high'",
            all_results,
            "repetition 1: score: expected a number or nothing, found 'high'",
        ),
        (
            "UPDATE repetition SET clean = 2",
            rebuild_ledger,
            "repetition 1: clean: expected a whole number from 0 to 1, found 2",
        ),
        (
            "UPDATE repetition SET pass_of = 101",
            rebuild_ledger,
            "repetition 1: pass_of: expected a whole number from 1 to 100, found 101",
        ),
        (
            "UPDATE measure SET value = 'deep' WHERE value IS NULL",
            lambda history: measures_of(history, 1),
            "repetition 1: settle: expected a number or nothing, found 'deep'",
        ),
        (
            "UPDATE trace SET packed = 'text'",
            lambda history: trace_of(history, 1),
            "repetition 1: trace: expected bytes, found 'text'",
        ),
        (
            "UPDATE trace SET packed = x'53464331'",
            lambda history: trace_of(history, 1),
            f"repetition 1: {NOT_READ}Compressed data ended before the end-of-stream marker was "
            "reached",
        ),
        (
            "UPDATE trace SET packed = x'53465431'",
            lambda history: trace_of(history, 1),
            f"repetition 1: {NOT_READ}unpack_from requires a buffer of at least 9 bytes for "
            "unpacking 9 bytes at offset 0 (actual buffer size is 4)",
        ),
        (
            "UPDATE calibration SET ends = '[[0, 1], [0'",
            lambda history: trace_of(history, 1),
            "calibration 1: ends: expected JSON, found '[[0, 1], [0'",
        ),
        *(
            (
                f"UPDATE calibration SET ends = '{ends}'",
                lambda history: trace_of(history, 1),
                f"{ENDS}, found '{ends}'",
            )
            for ends in ("[[0, 1]]", "[[0, 1], [0]]", "7", "[[0, 1], [0.5, 0.6]]", "[[0, 1], 2]")
        ),
        (
            "UPDATE calibration SET ends = '[[0, 1], [\"0\", 1]]'",
            lambda history: trace_of(history, 1),
            f"{ENDS}, found '[[0, 1], [\"0\", 1]]'",
        ),
        (
            "UPDATE trace SET calibration = NULL",
            lambda history: trace_of(history, 1),
            "calibration None: ends: expected JSON, found None",
        ),
        (
            "UPDATE setting SET value = '{' || hex(zeroblob(30))",
            lambda history: history.setting("binding"),
            f"setting 'binding': value: expected JSON, found '{{{'0' * 38}...",
        ),
        (
            "UPDATE setting SET value = replace(hex(zeroblob(60000)), '0', '[')",
            lambda history: history.setting("binding"),
            f"setting 'binding': value: expected JSON, found '{'[' * 39}...",
        ),
        (
            "UPDATE progress SET latest = '01x'",
            lambda history: ledger.level_progress(history, "a-blip"),
            "progress of 'a-blip': latest: expected at most 100 of 0 and 1, found '01x'",
        ),
        (
            "UPDATE progress SET latest = replace(hex(zeroblob(51)), '00', '01')",
            lambda history: ledger.level_progress(history, "a-blip"),
            "progress of 'a-blip': latest: expected at most 100 of 0 and 1, "
            f"found '{'01' * 19}0...",
        ),
        (
            "UPDATE progress SET passed = 'yes'",
            ledger.passed,
            "progress of 'a-blip': passed: expected a whole number from 0 to 1, found 'yes'",
        ),
        (
            "UPDATE clean_row SET count = -1",
            lambda history: ledger.streaks(history, TODAY),
            "clean row: count: expected a whole number from 0 to 1000000000, found -1",
        ),
        (
            f"UPDATE clean_row SET count = {2**63 - 1}",
            lambda history: add_repetition(history, record(verdict=Verdict(Reason.CLEAN, 90.0))),
            f"clean row: count: expected a whole number from 0 to 1000000000, found {2**63 - 1}",
        ),
        (
            "DELETE FROM clean_row",
            lambda history: add_repetition(history, record()),
            "clean row: count: expected a whole number from 0 to 1000000000, found None",
        ),
        (
            "UPDATE day SET day = '2024-02-31'",
            lambda history: ledger.streaks(history, TODAY),
            "day '2024-02-31': day: expected a date, found '2024-02-31'",
        ),
        (
            "UPDATE day SET unbroken = 'long'",
            lambda history: add_repetition(history, record()),
            "day '2024-05-17': unbroken: expected a whole number from 1 to 1000000000, "
            "found 'long'",
        ),
    ],
)
def test_damage_is_said_with_its_place(
    tmp_path: Path, damage: str, ask: Callable[[History], object], said: str
) -> None:
    with open_history(tmp_path, []) as history:
        add_repetition(history, record())
        history.keep_setting("binding", {"brake": 1})
    change(tmp_path, damage)

    with open_history(tmp_path, []) as history, pytest.raises(StoreError) as refused:
        ask(history)

    assert str(refused.value) == f"{tmp_path / FILE}: {said}"


def test_counts_of_a_clutch_without_its_ends_are_said_with_their_place(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        add_repetition(history, record(trace=trace(clutch=True)))
    change(tmp_path, "UPDATE calibration SET ends = '[[0, 1], [0, 1]]'")

    with open_history(tmp_path, []) as history, pytest.raises(StoreError) as refused:
        trace_of(history, 1)

    assert str(refused.value) == (
        f"{tmp_path / FILE}: repetition 1: calibration: expected rest and full of a clutch, "
        "found '[[0, 1], [0, 1]]'"
    )


def all_of_ledger(history: History) -> tuple[object, ...]:
    """All that the ledger says of today and the day after."""
    days = [ledger.streaks(history, day) for day in (TODAY, TODAY + timedelta(days=1))]
    return *days, ledger.level_progress(history, "a-blip"), ledger.passed(history)


def test_a_ledger_that_is_damaged_can_be_rebuilt(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        add_repetition(history, record())
        before = all_of_ledger(history)
    for damage in (
        "UPDATE progress SET latest = 5",
        "UPDATE day SET streak = -2",
        "UPDATE clean_row SET count = 9",
        "INSERT INTO progress VALUES ('never-played', '1', 1, 1, 1.0)",
        "INSERT INTO day VALUES ('2024-05-18', 5, 5, 5, 5)",
    ):
        change(tmp_path, damage)

    with open_history(tmp_path, []) as history:
        rebuild_ledger(history)
        after = all_of_ledger(history)

    assert after == before


def test_a_ledger_that_cannot_be_rebuilt_stays_as_it_was(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        add_repetition(history, record())
        before = all_of_ledger(history)
    change(
        tmp_path,
        "CREATE TRIGGER full BEFORE INSERT ON day BEGIN SELECT raise(ABORT, 'no room'); END",
    )

    with open_history(tmp_path, []) as history:
        with pytest.raises(StoreError) as refused:
            rebuild_ledger(history)
        after = all_of_ledger(history)

    assert str(refused.value) == (
        f"{tmp_path / FILE}: expected a history that can be written, "
        "found rows that contradict each other"
    )
    assert after == before
