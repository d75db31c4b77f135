"""Automatic copies of the history: which are made, kept and removed."""

import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from datetime import date, timedelta
from pathlib import Path

import pytest

from engine.store import History, StoreError, open_history
from engine.store.copies import (
    NO_ROOM,
    DiskUsage,
    automatic_copies,
    day_without_copy,
    days_kept,
    make_copy,
    places,
)
from engine.store.history import FILE
from engine.store.lock import LOCK, hold_copying
from engine.store.paced import PacedThread
from tests.full_disk import no_file_longer
from tests.needs import closed_files, file_size_limit
from tests.store.copies import ROOT
from tests.store.daily_copies import HUGE, Disk, copy, copy_many, days_in, disk, fill, practise
from tests.store.whole import make, names
from tests.stored import dump
from tests.unprivileged import reachable_folder, unprivileged
from tests.waiting import PATIENCE

DAY = date(2026, 11, 28)
COPY = "history-copy-2026-11-28.sqlite3"


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """History with one repetition on the day."""
    with open_history(tmp_path, []) as history:
        practise(history, DAY)
        yield history


def small_disk(folder: Path, rooms: int) -> DiskUsage:
    """Usage of a disk on which a tenth of what is free has room for some copies."""
    size = (folder / FILE).stat().st_size

    def usage(_: Path) -> Disk:
        used = sum(one.size for one in automatic_copies(folder))
        return Disk(11 * rooms * size - used)

    return usage


def test_a_copy_has_everything_in_it_and_is_named_by_its_day(tmp_path: Path) -> None:
    make(tmp_path)
    with open_history(tmp_path, []) as history:
        make_copy(history, DAY, lambda: None, disk())

    assert names(tmp_path) == [COPY, LOCK, FILE]
    assert dump(tmp_path / COPY) == dump(tmp_path / FILE)


def test_a_day_has_one_copy_which_is_never_replaced(history: History, tmp_path: Path) -> None:
    make_copy(history, DAY, lambda: None, disk())
    before = dump(tmp_path / COPY)

    copy(history, DAY)

    assert dump(tmp_path / COPY) == before


def test_the_latest_day_practised_wants_a_copy_until_it_has_one(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        new = day_without_copy(history, DAY)
        practise(history, DAY)
        wanted = [day_without_copy(history, DAY + timedelta(days=later)) for later in (-1, 0, 5)]
        make_copy(history, DAY, lambda: None, disk())
        after = day_without_copy(history, DAY)

    assert new is None
    assert wanted == [None, DAY, DAY]
    assert after is None


def test_three_recent_copies_and_three_of_earlier_months_are_kept() -> None:
    days = [date(2026, 6, 1) + timedelta(days=number) for number in range(181)]
    kept: list[date] = []
    for day in days:
        kept = days_kept([*kept, day])

    assert [day.isoformat() for day in kept] == [
        *("2026-11-28", "2026-11-27", "2026-11-26"),
        *("2026-10-31", "2026-09-30", "2026-08-31"),
    ]


def test_a_month_of_which_a_recent_copy_is_needs_no_other() -> None:
    days = ["2026-12-02", "2026-12-01", "2026-11-30", "2026-11-29", "2026-10-31", "2026-09-30"]

    kept = days_kept(map(date.fromisoformat, [*days, "2026-08-31", "2026-07-31"]))

    assert [day.isoformat() for day in kept] == [*days[:3], *days[4:], "2026-08-31"]


def test_who_practises_seldom_keeps_six_copies_too() -> None:
    days = [date(2026, month, 5) for month in range(1, 11)]

    assert days_kept(days) == [date(2026, month, 5) for month in range(10, 4, -1)]


def test_copies_that_need_not_be_kept_are_removed(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        copy_many(history, date(2026, 11, 27), 6)

    assert days_in(tmp_path) == ["2026-11-30", "2026-12-01", "2026-12-02"]


def test_other_files_beside_the_history_stay(history: History, tmp_path: Path) -> None:
    others = ["history-copy-2026-1-1.sqlite3", "history-copy-mine.sqlite3", f"{COPY}.old", "mine"]
    for name in others:
        (tmp_path / name).write_text("mine")

    copy_many(history, DAY, 5)

    assert {*others} <= {*names(tmp_path)}
    assert days_in(tmp_path) == ["2026-11-30", "2026-12-01", "2026-12-02"]


def test_copies_of_a_clock_that_was_ahead_do_not_cost_the_one_just_made(
    history: History, tmp_path: Path
) -> None:
    copy_many(history, date(2031, 1, 1), 3)

    make_copy(history, DAY, lambda: None, disk())

    assert days_in(tmp_path) == ["2026-11-28", "2031-01-01", "2031-01-02", "2031-01-03"]


@pytest.mark.parametrize("rooms", [1, 2, 3])
def test_on_a_small_disk_fewer_are_kept(history: History, tmp_path: Path, rooms: int) -> None:
    copy_many(history, date(2026, 11, 24), 3)
    practise(history, DAY)

    make_copy(history, DAY, lambda: None, small_disk(tmp_path, rooms))

    assert days_in(tmp_path) == ["2026-11-25", "2026-11-26", "2026-11-28"][-rooms:]


def test_a_disk_without_room_gets_no_copy_and_keeps_those_there_are(
    history: History, tmp_path: Path
) -> None:
    make_copy(history, DAY, lambda: None, disk())
    before = names(tmp_path)

    with pytest.raises(StoreError) as refused:
        copy(history, DAY + timedelta(days=1), disk(0))

    assert str(refused.value) == NO_ROOM == "it would take more than 10% of the free disk"
    assert names(tmp_path) == before


def test_room_is_a_tenth_of_what_stays_free(history: History, tmp_path: Path) -> None:
    size = (tmp_path / FILE).stat().st_size

    found = [places(history.path, disk(free)) for free in (0, 11 * size - 1, 11 * size, HUGE)]

    assert found == [0, 0, 1, 6]


@file_size_limit
def test_a_full_disk_leaves_nothing_and_removes_nothing(history: History, tmp_path: Path) -> None:
    copy_many(history, date(2026, 11, 24), 3)
    before = names(tmp_path)

    with no_file_longer(8192), pytest.raises(StoreError) as refused:
        make_copy(history, DAY, lambda: None, disk())

    line = f"{tmp_path / COPY}: expected a file to write to, found: "
    assert str(refused.value).startswith(line)
    assert names(tmp_path) == before


@closed_files
def test_a_folder_that_became_read_only_gets_no_copy() -> None:
    with reachable_folder() as folder, open_history(folder, []) as history:
        practise(history, DAY)
        (folder / LOCK).chmod(0o666)
        (folder / FILE).chmod(0o644)
        folder.chmod(0o555)
        with unprivileged(), pytest.raises(StoreError) as refused:
            make_copy(history, DAY, lambda: None, disk())
        left = names(folder)

    assert str(refused.value) == (
        f"{folder / COPY}: expected a file to write to, found: Permission denied"
    )
    assert left == [LOCK, FILE]


def test_a_damaged_history_costs_no_copy(history: History, tmp_path: Path) -> None:
    copy_many(history, date(2026, 11, 24), 3)
    before = names(tmp_path)
    with history.reading() as db:
        page = db.execute("SELECT rootpage FROM sqlite_master WHERE name = 'guess'").fetchone()[0]
    spoilt = bytearray((tmp_path / FILE).read_bytes())
    spoilt[(page - 1) * 1024 : page * 1024] = b"\x7f" * 1024
    history.close()
    (tmp_path / FILE).write_bytes(spoilt)

    with open_history(tmp_path, []) as history, pytest.raises(StoreError) as refused:
        make_copy(history, DAY, lambda: None, disk())

    assert str(refused.value).startswith(f"{tmp_path / FILE}: expected a whole history, found ")
    assert names(tmp_path) == before


def test_what_a_killed_program_left_is_no_copy_and_goes_at_the_next(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "tests.store.dying_copy", str(tmp_path)]
    code = subprocess.run(command, cwd=ROOT, check=False).returncode
    left, found = names(tmp_path), automatic_copies(tmp_path)

    with open_history(tmp_path, []) as history:
        day = day_without_copy(history, DAY)
        make_copy(history, DAY + timedelta(days=1), lambda: None, disk())

    assert code == 9
    assert left == [f"{COPY}.part", LOCK, FILE]
    assert found == []
    assert day == DAY
    assert names(tmp_path) == ["history-copy-2026-11-29.sqlite3", LOCK, FILE]


def test_what_the_game_writes_meanwhile_is_in_the_copy_which_goes_on(
    history: History, tmp_path: Path
) -> None:
    fill(history)
    thread = PacedThread(
        lambda pause: make_copy(history, DAY, pause, disk()), lasts=0.0, patience=PATIENCE
    )
    steps = 0
    while not thread.is_done:
        thread.step()
        steps += 1
        if steps in (2, 4, 6):
            practise(history, DAY)

    assert thread.error is None
    assert dump(tmp_path / COPY) == dump(tmp_path / FILE)
    assert 10 < steps < 30


def test_while_one_program_copies_another_does_not(history: History, tmp_path: Path) -> None:
    lock = hold_copying(history.path)
    assert lock is not None
    with closing(lock):
        (tmp_path / f"{COPY}.part").write_text("of the other")

        make_copy(history, DAY, lambda: None, disk())
        open_history(tmp_path, []).close()

    assert names(tmp_path) == [f"{COPY}.part", LOCK, FILE]


def test_a_copy_is_whole_while_another_program_writes(history: History, tmp_path: Path) -> None:
    fill(history)
    writes = iter(range(3))
    with open_history(tmp_path, []) as other:
        make_copy(
            history,
            DAY,
            lambda: None if next(writes, None) is None else practise(other, DAY),
            disk(),
        )

    assert next(writes, None) is None
    assert dump(tmp_path / COPY) == dump(tmp_path / FILE)
