"""The history on real files: what goes in comes out, and what cannot be used is said in a line."""

import os
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import UTC, date, datetime, timedelta, timezone
from pathlib import Path

import numpy as np
import pytest

from drills.measures.sampling import Sampling
from drills.score import Reason, Verdict
from drills.trace import Grid
from engine.practice.results import Result
from engine.store import History, StoreError
from engine.store.history import FILE
from tests.made import record, trace


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A new history in a folder that is not there yet."""
    with History(tmp_path / "data" / "here") as new:
        yield new


def rows(folder: Path, statement: str) -> list[tuple[object, ...]]:
    """What a history file holds, read past the program."""
    with closing(sqlite3.connect(folder / FILE)) as other:
        return other.execute(statement).fetchall()


@pytest.mark.parametrize("clutch", [False, True])
def test_a_trace_comes_back_with_the_same_grid(history: History, clutch: bool) -> None:
    kept = trace(clutch=clutch)

    number = history.add(record(trace=kept))

    back = history.trace(number)
    assert back == kept.changes()
    assert back is not None
    before, after = Grid.of(kept), Grid.of(back)
    assert after.start == before.start
    assert np.array_equal(after.brake, before.brake)
    assert np.array_equal(after.throttle, before.throttle)


def test_measures_come_back_by_name_with_those_that_are_none(history: History) -> None:
    measures = {"dip": 19.499999999999996, "settle": None, "coupling": -0.0625, "lag": 0.0}

    number = history.add(record(verdict=Verdict(Reason.OVER_LIMIT, 1 / 3, ("dip",), measures)))

    assert history.measures(number) == measures
    assert history.results()[0].score == 1 / 3


def test_sampling_comes_back(history: History) -> None:
    number = history.add(record(sampling=Sampling(998.5, 0.0021, None, 0.0244)))

    assert history.sampling(number) == Sampling(998.5, 0.0021, None, 0.0244)


def test_a_repetition_that_ended_before_the_dark_has_no_trace(history: History) -> None:
    void = record(verdict=Verdict(Reason.NO_TARGET), trace=None, dark=None, cues=(), sampling=None)

    number = history.add(void)

    assert history.trace(number) is None
    assert history.measures(number) == {}
    assert history.sampling(number) == Sampling(None, None, None, None)
    assert history.results() == [Result("a-blip", date(2024, 5, 17), None, False, True)]


def test_every_other_field_is_in_the_file(tmp_path: Path) -> None:
    with History(tmp_path) as history:
        history.add(record())

    fields = (
        "level, kind, source, at_utc, offset, target, tolerance, reason, over, dark_ns, cues_ns"
    )
    assert rows(tmp_path, f"SELECT {fields} FROM repetition") == [
        (
            *("a-blip", "blip", "pedals", "2024-05-17T18:15:30.250+00:00", 120, 60.0, 15.0),
            *("over limit", '["dip"]', 800_000_000, "[2300000000]"),
        )
    ]


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

    history.add(record(at=utc.astimezone(timezone(timedelta(minutes=offset)))))

    assert [result.day for result in history.results()] == [day]


def test_results_come_oldest_first_as_they_were_judged(history: History) -> None:
    verdicts = [
        Verdict(Reason.CLEAN, 88.5),
        Verdict(Reason.GAP),
        Verdict(Reason.NO_BLIP, 6.25, ("dip",)),
    ]

    numbers = [history.add(record(level=f"l-{n}", verdict=v)) for n, v in enumerate(verdicts)]

    day = date(2024, 5, 17)
    assert numbers == [1, 2, 3]
    assert history.results() == [
        Result("l-0", day, 88.5, True, False),
        Result("l-1", day, None, False, True),
        Result("l-2", day, 6.25, False, False),
    ]


def test_what_was_kept_is_there_when_the_file_is_opened_again(tmp_path: Path) -> None:
    with History(tmp_path) as history:
        number = history.add(record())
        history.keep_setting("sound", False)

    with History(tmp_path) as again:
        assert again.trace(number) == trace().changes()
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
    with pytest.raises(StoreError) as asked:
        history.trace(41)

    assert str(asked.value) == f"{tmp_path / 'data' / 'here' / FILE}: no repetition 41"
    assert history.measures(41) == {}


def test_a_trace_that_is_damaged_on_disk_is_said_in_a_line(tmp_path: Path) -> None:
    with History(tmp_path) as history:
        number = history.add(record())
    with closing(sqlite3.connect(tmp_path / FILE)) as other, other:
        other.execute("UPDATE repetition SET trace = x'00'")

    with History(tmp_path) as history, pytest.raises(StoreError):
        history.trace(number)


@pytest.mark.parametrize(
    "undo",
    [
        "ABORT",
        pytest.param(
            "ROLLBACK",
        ),
    ],
)
def test_a_repetition_is_kept_whole_or_not_at_all(tmp_path: Path, undo: str) -> None:
    with History(tmp_path) as history:
        history.add(record())
    with closing(sqlite3.connect(tmp_path / FILE)) as other, other:
        other.execute(
            "CREATE TRIGGER full BEFORE INSERT ON measure WHEN new.name = 'settle'"
            f" BEGIN SELECT raise({undo}, 'no room'); END"
        )

    with History(tmp_path) as history:
        with pytest.raises(StoreError) as refused:
            history.add(record())
        history.keep_setting("sound", True)

    path = tmp_path / FILE
    assert str(refused.value) == f"{path}: expected a history that can be written, found: no room"
    assert rows(tmp_path, "SELECT count(*) FROM repetition") == [(1,)]
    assert rows(tmp_path, "SELECT count(*) FROM measure") == [(2,)]
    assert rows(tmp_path, "SELECT value FROM setting") == [("true",)]


@pytest.mark.parametrize(
    "lock",
    [
        "BEGIN EXCLUSIVE",
        pytest.param(
            "BEGIN; SELECT * FROM repetition",
        ),
    ],
    ids=["written", "read"],
)
def test_a_file_that_another_one_keeps_is_said_to_be_in_use_until_it_is_free(
    tmp_path: Path, lock: str
) -> None:
    with History(tmp_path) as history, closing(sqlite3.connect(tmp_path / FILE)) as other:
        history.keep_setting("sound", True)
        other.isolation_level = None
        cursors = [other.execute(statement) for statement in lock.split("; ")]

        with pytest.raises(StoreError) as refused:
            history.add(record())

        cursors[-1].close()
        other.rollback()
        number = history.add(record())

    said = f"{tmp_path / FILE}: in use by another stillfoot; close that one first"
    assert str(refused.value) == said
    assert number == 1


def test_a_file_that_is_no_database_is_left_as_it_was(tmp_path: Path) -> None:
    path = tmp_path / FILE
    path.write_bytes(b"not a database at all\n" * 50)

    with pytest.raises(StoreError) as refused:
        History(tmp_path)

    assert str(refused.value) == (
        f"{path}: expected a history that can be written, found: file is not a database"
    )
    assert path.read_bytes() == b"not a database at all\n" * 50
    assert list(tmp_path.iterdir()) == [path]


def test_a_folder_where_the_file_should_be_is_refused(tmp_path: Path) -> None:
    path = tmp_path / FILE
    path.mkdir()

    with pytest.raises(StoreError) as refused:
        History(tmp_path)

    assert str(refused.value) == f"{path}: cannot be opened: unable to open database file"


@contextmanager
def as_nobody() -> Iterator[None]:
    """Without the rights of root, who may write to any file."""
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    if root:
        os.seteuid(65534)
    try:
        yield
    finally:
        if root:
            os.seteuid(0)


def test_a_file_that_may_only_be_read_is_refused_when_it_is_opened() -> None:
    with tempfile.TemporaryDirectory() as name:
        folder, path = Path(name), Path(name) / FILE
        folder.chmod(0o777)
        with as_nobody():
            History(folder).close()
            path.chmod(0o400)

            with pytest.raises(StoreError) as refused:
                History(folder).close()

        assert str(refused.value) == (
            f"{path}: expected a history that can be written, "
            "found: attempt to write a readonly database"
        )
