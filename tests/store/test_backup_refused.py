"""Backups that cannot be made or restored: one line each, and nothing is changed."""

import os
import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from engine.store import StoreError, open_history
from engine.store.backup import back_up, restore
from engine.store.history import FILE
from engine.store.migrate import version
from engine.store.schema import MIGRATIONS
from tests.full_disk import no_file_longer
from tests.made import level
from tests.needs import closed_files, file_size_limit, named_pipe
from tests.store.copies import backed_up
from tests.store.whole import names
from tests.unprivileged import unprivileged


def changed(statement: str) -> Callable[[Path], None]:
    """What changes a history file past the program."""

    def change(file: Path) -> None:
        with closing(sqlite3.connect(file)) as db, db:
            db.execute(statement)

    return change


def cut_short(file: Path) -> None:
    """Leave half of a file."""
    half = file.read_bytes()
    file.write_bytes(half[: len(half) // 2])


def spoil(file: Path) -> None:
    """Write over the first page of the measures; the list of the tables stays readable."""
    with closing(sqlite3.connect(file)) as db:
        page = db.execute("SELECT rootpage FROM sqlite_master WHERE name = 'measure'").fetchone()[0]
    whole = bytearray(file.read_bytes())
    begin = (page - 1) * 1024
    whole[begin : begin + 1024] = b"\x7f" * 1024
    file.write_bytes(whole)


def other_database(file: Path) -> None:
    """Make it a database of something else."""
    file.unlink()
    changed("CREATE TABLE shoe (size REAL)")(file)


def become_pipe(file: Path) -> None:
    """Make it a pipe, from which a read would never come back."""
    file.unlink()
    os.mkfifo(file)


def become_folder(file: Path) -> None:
    """Make it a folder."""
    file.unlink()
    file.mkdir()


NEWEST = len(MIGRATIONS)
DAMAGE: dict[str, tuple[Callable[[Path], object], str]] = {
    "newer": (
        changed(f"PRAGMA user_version = {NEWEST + 1}"),
        f"expected a history of version {NEWEST} or older, found version {NEWEST + 1}, "
        "made by a newer stillfoot",
    ),
    "other": (other_database, "expected a history, found a database of something else"),
    "empty": (
        lambda file: file.write_bytes(b""),
        "expected a history of 100 bytes or more, found 0",
    ),
    "a byte": (
        lambda file: file.write_bytes(b"x"),
        "expected a history of 100 bytes or more, found 1",
    ),
    "text": (
        lambda file: file.write_text("mine" * 50),
        "expected a backup to read, found another kind of file",
    ),
    "gone": (Path.unlink, "expected a backup to read, found: No such file or directory"),
    "pipe": (become_pipe, "expected a backup to read, found no regular file"),
    "folder": (become_folder, "expected a backup to read, found a folder"),
    "cut short": (cut_short, "expected a backup to read, found damaged pages"),
    "spoilt": (spoil, "expected a whole history, found "),
}


@pytest.mark.parametrize(
    "damage", [pytest.param(name, marks=named_pipe if name == "pipe" else ()) for name in DAMAGE]
)
def test_a_backup_that_is_none_is_refused_and_nothing_is_changed(
    backup: Path, old: Path, tmp_path: Path, damage: str
) -> None:
    spoil_it, said = DAMAGE[damage]
    file = tmp_path / "mine"
    shutil.copy(backup, file)
    spoil_it(file)
    before, there = (old / FILE).read_bytes(), names(old)

    with pytest.raises(StoreError) as refused:
        restore(file, old, [])

    assert str(refused.value).startswith(f"{file}: {said}")
    assert "\n" not in str(refused.value)
    assert (old / FILE).read_bytes() == before
    assert names(old) == there


def test_an_old_backup_takes_the_pass_rules_of_the_levels_and_is_of_the_newest_version(
    tmp_path: Path,
) -> None:
    old = level(id="blip-1-first", rule=level().rule.__class__(4, 5))

    restore(Path(__file__).parent / "version1.sqlite3", tmp_path, [old])

    with closing(sqlite3.connect(tmp_path / FILE)) as db:
        rules = db.execute(
            "SELECT DISTINCT pass_clean, pass_of FROM repetition WHERE level = ?", (old.id,)
        ).fetchall()
        assert version(db) == NEWEST
    assert rules == [(4, 5)]


def test_an_old_backup_that_cannot_be_carried_over_is_refused(old: Path, tmp_path: Path) -> None:
    file = tmp_path / "mine"
    shutil.copy(Path(__file__).parent / "version1.sqlite3", file)
    changed("UPDATE repetition SET at_utc = 'soon' WHERE id = 7")(file)
    before, there = (old / FILE).read_bytes(), names(old)

    with pytest.raises(StoreError) as refused:
        restore(file, old, [])

    assert str(refused.value) == (
        f"{file}: repetition 7: at_utc: expected a date and time, found 'soon'"
    )
    assert (old / FILE).read_bytes() == before
    assert names(old) == there


@pytest.mark.parametrize(
    ("there", "found"), [("file", "one that is there already"), ("folder", "a folder")]
)
def test_a_backup_is_never_written_over_anything(
    old: Path, tmp_path: Path, there: str, found: str
) -> None:
    file = tmp_path / "mine"
    if there == "file":
        file.write_bytes(b"mine")
    else:
        file.mkdir()

    with pytest.raises(StoreError) as refused:
        backed_up(old, file)

    assert str(refused.value) == f"{file}: expected a new file, found {found}"
    assert file.is_dir() or file.read_bytes() == b"mine"


def test_a_damaged_history_is_not_backed_up(data: Path, tmp_path: Path) -> None:
    shutil.copytree(data, tmp_path / "data")
    spoil(tmp_path / "data" / FILE)

    with pytest.raises(StoreError) as refused:
        backed_up(tmp_path / "data", tmp_path / "mine")

    path = tmp_path / "data" / FILE
    assert str(refused.value).startswith(f"{path}: expected a whole history, found ")
    assert names(tmp_path) == ["data"]


def test_a_game_can_write_while_a_backup_is_checked(old: Path, tmp_path: Path) -> None:
    read: list[str] = []
    with open_history(old, []) as history:
        with history.reading() as db:
            db.set_trace_callback(read.append)
        back_up(history, tmp_path / "mine")

    assert read
    assert [one for one in read if "integrity_check" in one] == []


def test_a_backup_to_a_folder_that_is_not_there_is_refused(old: Path, tmp_path: Path) -> None:
    file = tmp_path / "nowhere" / "mine"

    with pytest.raises(StoreError) as refused:
        backed_up(old, file)

    assert str(refused.value) == (
        f"{file}: expected a file to write to, found: No such file or directory"
    )


@closed_files
def test_a_backup_that_may_not_be_written_is_refused(old: Path, tmp_path: Path) -> None:
    with open_history(old, []) as history, unprivileged(), pytest.raises(StoreError) as refused:
        back_up(history, tmp_path / "mine")

    assert str(refused.value) == (
        f"{tmp_path / 'mine'}: expected a file to write to, found: Permission denied"
    )
    assert names(tmp_path) == ["old"]


@file_size_limit
def test_a_full_disk_is_said_in_one_line_and_leaves_no_backup(old: Path, tmp_path: Path) -> None:
    file = tmp_path / "mine"

    with open_history(old, []) as history, no_file_longer(4096), pytest.raises(StoreError) as full:
        back_up(history, file)

    assert str(full.value).startswith(f"{file}: expected a file to write to, found: ")
    assert names(tmp_path) == ["old"]


@file_size_limit
def test_a_full_disk_is_said_in_one_line_and_leaves_the_old_history(
    backup: Path, old: Path
) -> None:
    before, there = (old / FILE).read_bytes(), names(old)

    with no_file_longer(4096), pytest.raises(StoreError) as full:
        restore(backup, old, [])

    assert str(full.value).startswith(f"{old / FILE}: expected a file to write to, found: ")
    assert (old / FILE).read_bytes() == before
    assert names(old) == there
