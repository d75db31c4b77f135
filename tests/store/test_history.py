"""The history on real files: what goes in comes out, and what cannot be used is said in a line."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, date, datetime, timedelta, timezone
from pathlib import Path

import pytest

from drills.level import PassRule
from drills.measures.sampling import Sampling
from drills.score import Reason, Verdict
from engine.practice.results import Result
from engine.store import History, StoreError, open_history
from engine.store.history import FILE
from engine.store.opening import PAGE
from engine.store.repetitions import add_repetition, measures_of
from engine.store.traces import calibration_of, trace_of
from tests.made import record
from tests.stored import all_results, sampling_of


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A new history in a folder that is not there yet."""
    with open_history(tmp_path / "data" / "here", []) as new:
        yield new


def rows(folder: Path, statement: str) -> list[tuple[object, ...]]:
    """What a history file holds, read past the program."""
    with closing(sqlite3.connect(folder / FILE)) as other:
        return other.execute(statement).fetchall()


def dump(folder: Path) -> list[str]:
    """Everything a history file holds."""
    with closing(sqlite3.connect(folder / FILE)) as other:
        return list(other.iterdump())


def change(folder: Path, statement: str) -> None:
    """Change a history file past the program."""
    with closing(sqlite3.connect(folder / FILE)) as other, other:
        other.execute(statement)


def test_measures_come_back_by_name_with_those_that_are_none(history: History) -> None:
    measures = {"dip": 19.499999999999996, "settle": None, "coupling": -0.0625, "lag": 0.0}

    number = add_repetition(
        history, record(verdict=Verdict(Reason.OVER_LIMIT, 1 / 3, ("dip",), measures))
    )

    assert measures_of(history, number) == measures
    assert all_results(history)[0].score == 1 / 3


def test_sampling_comes_back(history: History) -> None:
    number = add_repetition(history, record(sampling=Sampling(998.5, 0.0021, None, 0.0244, 0.008)))

    assert sampling_of(history, number) == Sampling(998.5, 0.0021, None, 0.0244, 0.008)


def test_a_repetition_that_ended_before_the_dark_has_no_trace(history: History) -> None:
    void = record(verdict=Verdict(Reason.NO_TARGET), trace=None, dark=None, cues=(), sampling=None)

    number = add_repetition(history, void)

    assert trace_of(history, number) is None
    assert measures_of(history, number) == {}
    assert sampling_of(history, number) == Sampling(None, None, None, None, None)
    assert all_results(history) == [
        Result("a-blip", date(2024, 5, 17), None, False, True, kind="blip")
    ]


def test_every_other_field_is_in_the_file(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        add_repetition(history, record(rule=PassRule(3, 7)))

    fields = (
        "level, kind, source, at_utc, offset, target, tolerance, reason, over, dark_ns, cues_ns,"
        " pass_clean, pass_of"
    )
    assert rows(tmp_path, f"SELECT {fields} FROM repetition") == [
        (
            *("a-blip", "blip", "pedals", "2024-05-17T18:15:30.250+00:00", 120, 60.0, 15.0),
            *("over limit", '["dip"]', 800_000_000, "[2300000000]", 3, 7),
        )
    ]


def test_a_new_file_has_pages_that_a_trace_fills(tmp_path: Path) -> None:
    open_history(tmp_path, []).close()

    assert rows(tmp_path, "PRAGMA page_size") == [(PAGE,)]


@pytest.mark.parametrize(
    ("hour", "offset", "day"),
    [
        (23, -60 * 5, date(2024, 5, 17)),
        (3, -60 * 5, date(2024, 5, 16)),
        (20, 60 * 9, date(2024, 5, 18)),
        (18, 345, date(2024, 5, 18)),
        (18, 330, date(2024, 5, 17)),
        (12, 0, date(2024, 5, 17)),
    ],
)
def test_the_day_of_a_result_is_the_local_one(
    history: History, hour: int, offset: int, day: date
) -> None:
    utc = datetime(2024, 5, 17, hour, 20, tzinfo=UTC)

    add_repetition(history, record(at=utc.astimezone(timezone(timedelta(minutes=offset)))))

    assert [result.day for result in all_results(history)] == [day]


def test_results_come_oldest_first_as_they_were_judged(history: History) -> None:
    verdicts = [
        Verdict(Reason.CLEAN, 88.5),
        Verdict(Reason.GAP),
        Verdict(Reason.NO_BLIP, 6.25, ("dip",)),
    ]

    numbers = [
        add_repetition(history, record(level=f"l-{n}", verdict=v)) for n, v in enumerate(verdicts)
    ]

    day = date(2024, 5, 17)
    assert numbers == [1, 2, 3]
    assert all_results(history) == [
        Result("l-0", day, 88.5, True, False, kind="blip"),
        Result("l-1", day, None, False, True, kind="blip"),
        Result("l-2", day, 6.25, False, False, kind="blip"),
    ]


def test_results_come_oldest_first_whatever_index_the_file_has(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        for name in ("c", "a", "b"):
            add_repetition(history, record(level=name, rule=PassRule(1, 2)))
    change(
        tmp_path,
        "CREATE INDEX other ON repetition"
        " (level, at_utc, offset, score, clean, void, pass_clean, pass_of)",
    )

    with open_history(tmp_path, []) as history:
        found = all_results(history)

    assert [(result.level, result.rule) for result in found] == [
        (name, PassRule(1, 2)) for name in ("c", "a", "b")
    ]


def test_a_repetition_that_goes_takes_its_measures_and_its_trace_along(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        add_repetition(history, record())
        add_repetition(history, record())
    change(
        tmp_path,
        "CREATE TRIGGER gone AFTER INSERT ON setting"
        " BEGIN DELETE FROM repetition WHERE id = 1; END",
    )

    with open_history(tmp_path, []) as history:
        history.keep_setting("sound", True)

    assert rows(tmp_path, "SELECT DISTINCT repetition FROM measure") == [(2,)]
    assert rows(tmp_path, "SELECT repetition FROM trace") == [(2,)]


@pytest.mark.parametrize(
    "orphan",
    [
        "INSERT INTO measure VALUES (41, 1, 0.5)",
        "INSERT INTO measure VALUES (1, 41, 0.5)",
        "INSERT INTO trace VALUES (41, 1, x'00')",
        "UPDATE trace SET calibration = 41",
    ],
)
def test_what_belongs_to_nothing_is_refused(tmp_path: Path, orphan: str) -> None:
    with open_history(tmp_path, []) as history:
        add_repetition(history, record())
    change(tmp_path, f"CREATE TRIGGER stray AFTER INSERT ON setting BEGIN {orphan}; END")

    with open_history(tmp_path, []) as history, pytest.raises(StoreError) as refused:
        history.keep_setting("sound", True)

    assert str(refused.value) == (
        f"{tmp_path / FILE}: expected a history that can be written, "
        "found rows that contradict each other"
    )


def test_what_was_kept_is_there_when_the_file_is_opened_again(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        number = add_repetition(history, record())
        history.keep_setting("sound", False)

    with open_history(tmp_path, []) as again:
        assert measures_of(again, number) == dict(record().verdict.measures)
        assert again.setting("sound") is False


def test_a_setting_holds_plain_data_and_the_last_one_kept_counts(history: History) -> None:
    value = {"brake": {"axis": 2, "rest": -0.998}, "names": ["é", None, True]}

    before = history.setting("binding")
    history.keep_setting("binding", 1)
    history.keep_setting("binding", value)
    history.keep_setting("other", 2)

    assert before is None
    assert history.setting("binding") == value


def test_a_repetition_that_is_not_there_is_named(history: History, tmp_path: Path) -> None:
    for ask in (trace_of, calibration_of):
        with pytest.raises(StoreError) as asked:
            ask(history, 41)

        assert str(asked.value) == f"{tmp_path / 'data' / 'here' / FILE}: no repetition 41"
    assert measures_of(history, 41) == {}


@pytest.mark.parametrize("undo", ["ABORT", "ROLLBACK"])
@pytest.mark.parametrize("table", ["measure", "trace", "progress", "keeping", "day", "clean_row"])
def test_a_repetition_is_kept_whole_or_not_at_all(tmp_path: Path, table: str, undo: str) -> None:
    passes = {"verdict": Verdict(Reason.CLEAN, 90.0, (), {"lag": 0.5}), "rule": PassRule(1, 1)}
    with open_history(tmp_path, []) as history:
        add_repetition(history, record())
    with closing(sqlite3.connect(tmp_path / FILE)) as other, other:
        other.execute(
            f"CREATE TRIGGER full BEFORE INSERT ON {table}"
            f" BEGIN SELECT raise({undo}, 'no room'); END"
        )
    before = dump(tmp_path)

    with open_history(tmp_path, []) as history:
        with pytest.raises(StoreError) as refused:
            add_repetition(history, record(**passes))
        history.keep_setting("sound", True)

    path = tmp_path / FILE
    assert str(refused.value) == (
        f"{path}: expected a history that can be written, found rows that contradict each other"
    )
    assert [line for line in dump(tmp_path) if line not in before] == [
        """INSERT INTO "setting" VALUES('sound','true');"""
    ]


@pytest.mark.parametrize(
    "lock",
    [
        "BEGIN EXCLUSIVE",
        "BEGIN; SELECT * FROM repetition",
    ],
    ids=["written", "read"],
)
def test_a_file_that_another_one_keeps_is_said_to_be_in_use_until_it_is_free(
    tmp_path: Path, lock: str
) -> None:
    impatient = open_history(tmp_path, [], patience=0.1)
    with impatient as history, closing(sqlite3.connect(tmp_path / FILE)) as other:
        history.keep_setting("sound", True)
        other.isolation_level = None
        cursors = [other.execute(statement) for statement in lock.split("; ")]

        with pytest.raises(StoreError) as refused:
            add_repetition(history, record())

        cursors[-1].close()
        other.rollback()
        number = add_repetition(history, record())

    said = f"{tmp_path / FILE}: in use by another stillfoot; close that one first"
    assert str(refused.value) == said
    assert number == 1
