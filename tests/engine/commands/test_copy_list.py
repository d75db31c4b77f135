"""`stillfoot backup --list`, and `restore` with the date of one of those copies."""

from datetime import date, timedelta
from pathlib import Path

import pytest

from engine.commands.copy_list import NONE_YET, copy_list
from engine.store import open_history
from engine.store.copies import FAILED
from engine.store.history import FILE
from tests.engine.commands.command import Captured, output_of, refused
from tests.needs import closed_files
from tests.store.daily_copies import copy, copy_many, disk, practise
from tests.stored import dump
from tests.unprivileged import reachable_folder, unprivileged

DAY = date(2026, 11, 28)


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """Data folder whose history has copies of three days."""
    with open_history(tmp_path, []) as history:
        copy_many(history, DAY - timedelta(days=2), 3)
    return tmp_path


def listed(folder: Path, today: date = DAY, free: int = 10**15) -> list[str]:
    """Lines of the list."""
    return copy_list(folder, today, disk(free)).splitlines()


def test_each_copy_is_a_line_with_day_repetitions_size_and_path(data: Path) -> None:
    copy = data / "history-copy-2026-11-28.sqlite3"
    size = f"{copy.stat().st_size / 1e6:.1f}"

    assert listed(data)[-1].split() == ["2026-11-28", "3", "repetitions", size, "MB", str(copy)]
    assert [line.split("  ")[0] for line in listed(data)] == [
        *("2026-11-26", "2026-11-27", "2026-11-28")
    ]


def test_the_command_prints_the_list(capsys: Captured, data: Path) -> None:
    out = output_of(capsys, "backup", "--list", "--data", str(data))

    assert out.splitlines()[:3] == listed(data)


def test_a_new_player_has_no_copies_yet(capsys: Captured, tmp_path: Path) -> None:
    out = output_of(capsys, "backup", "--list", "--data", str(tmp_path / "new"))

    assert out == NONE_YET == "No copies yet. The game makes one after a day's first session.\n"
    assert list(tmp_path.iterdir()) == []


def test_a_day_without_a_copy_is_told_with_what_it_waits_for(data: Path) -> None:
    with open_history(data, []) as history:
        practise(history, DAY + timedelta(days=1))

    today, later = (listed(data, DAY + timedelta(days=days))[3:] for days in (1, 2))

    assert today == ["No copy of 2026-11-29 yet: it comes after five minutes, or when you leave."]
    assert later == ["No copy of 2026-11-29 yet: it comes when the game starts."]


def test_a_copy_that_failed_is_told_with_the_reason(data: Path) -> None:
    with open_history(data, []) as history:
        practise(history, DAY + timedelta(days=1))
        history.keep_setting(FAILED, {"day": "2026-11-29", "why": "the disk is full"})

    assert listed(data, DAY + timedelta(days=1))[3:] == ["No copy of 2026-11-29: the disk is full."]


def test_a_reason_of_an_earlier_day_is_not_told(data: Path) -> None:
    with open_history(data, []) as history:
        history.keep_setting(FAILED, {"day": "2026-11-20", "why": "the disk was full"})

    assert len(listed(data)) == 3


def test_a_disk_with_little_room_is_told(data: Path) -> None:
    size = (data / FILE).stat().st_size
    with open_history(data, []) as history:
        practise(history, DAY + timedelta(days=1))

    none = listed(data, DAY + timedelta(days=1), free=0)[3:]
    two = listed(data, DAY, free=2 * 11 * size)[3:]

    assert none == [
        "No copy of 2026-11-29: it would take more than 10% of the free disk.",
        "Room for 0 of 6 copies: together they take at most 10% of the free disk.",
    ]
    assert two == ["Room for 2 of 6 copies: together they take at most 10% of the free disk."]


@closed_files
def test_a_folder_that_cannot_be_written_is_told() -> None:
    with reachable_folder() as data:
        with open_history(data, []) as history:
            practise(history, DAY)
        data.chmod(0o555)
        with unprivileged():
            found = listed(data)

    assert found == [f"No copy of 2026-11-28: {data} cannot be written to."]


@pytest.mark.parametrize("damage", [b"", b"no history any more", None])
def test_copies_are_listed_without_a_history_that_can_be_read(
    data: Path, damage: bytes | None
) -> None:
    before = listed(data)
    if damage is None:
        (data / FILE).unlink()
    else:
        (data / FILE).write_bytes(damage)

    assert listed(data) == before


def test_a_copy_that_cannot_be_read_is_named(data: Path) -> None:
    (data / "history-copy-2026-11-26.sqlite3").write_bytes(b"no copy any more")

    assert listed(data)[0].split()[:4] == ["2026-11-26", "cannot", "be", "read"]


def test_a_copy_is_restored_by_its_date(capsys: Captured, data: Path) -> None:
    older = data / "history-copy-2026-11-27.sqlite3"

    back = output_of(capsys, "restore", "2026-11-27", "--data", str(data))

    assert back == (
        f"The history of {older} is now {data / FILE}\n"
        f"The old history is now {data / 'history-before-restore-1.sqlite3'}\n"
    )
    assert dump(data / FILE) == dump(older)


def test_a_file_with_the_name_of_a_date_goes_first(
    capsys: Captured, data: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    here = tmp_path / "here"
    here.mkdir()
    (data / "history-copy-2026-11-26.sqlite3").rename(here / "2026-11-27")
    monkeypatch.chdir(here)

    back = output_of(capsys, "restore", "2026-11-27", "--data", str(data))

    assert back.startswith("The history of 2026-11-27 is now ")


def test_an_unknown_date_names_the_dates_there_are(capsys: Captured, data: Path) -> None:
    error = refused(capsys, "restore", "2026-11-20", "--data", str(data))

    assert error == (
        "stillfoot: 2026-11-20: expected a file, or the date of a copy "
        "(2026-11-26, 2026-11-27, 2026-11-28), found neither\n"
    )


def test_a_date_where_there_are_no_copies(capsys: Captured, tmp_path: Path) -> None:
    error = refused(capsys, "restore", "2026-11-20", "--data", str(tmp_path))

    assert error == (
        "stillfoot: 2026-11-20: expected a file, or the date of a copy (there are none), "
        "found neither\n"
    )


def test_backup_needs_a_file_or_the_list(capsys: Captured, tmp_path: Path) -> None:
    neither = refused(capsys, "backup", "--data", str(tmp_path))
    both = refused(capsys, "backup", "mine", "--list", "--data", str(tmp_path))

    assert neither == (
        "stillfoot: expected FILE or --list, found neither (see stillfoot backup --help)\n"
    )
    assert both == "stillfoot: --list: expected no FILE beside it, found 'mine'\n"


def test_a_copy_of_another_day_is_restored_and_goes_on(capsys: Captured, data: Path) -> None:
    output_of(capsys, "restore", "2026-11-26", "--data", str(data))

    with open_history(data, []) as history:
        copy(history, DAY + timedelta(days=1))

    assert [line[:10] for line in listed(data, DAY + timedelta(days=1))] == [
        *("2026-11-27", "2026-11-28", "2026-11-29")
    ]
