"""Copies of the history: a backup of it, and a backup put in its place."""

import os
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest

from engine.store import StoreError, ledger, open_history
from engine.store.backup import back_up, journal_of, restore
from engine.store.history import FILE
from engine.store.lock import LOCK
from engine.store.repetitions import add_repetition, measures_of
from engine.store.schema import MIGRATIONS, version
from engine.store.traces import trace_of
from tests.full_disk import no_file_longer
from tests.made import level, record
from tests.store.whole import names
from tests.stored import all_results, dump
from tests.unprivileged import unprivileged

ROOT = Path(__file__).resolve().parents[2]
ASIDE = "history-before-restore-1.sqlite3"


def backed_up(data: Path, file: Path) -> Path:
    """A backup of a data folder."""
    with open_history(data, []) as history:
        back_up(history, file)
    return file


@pytest.fixture(scope="module")
def backup(data: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A backup of a history with something of everything."""
    return backed_up(data, tmp_path_factory.mktemp("backup") / "mine")


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """A data folder with a history of one setting."""
    folder = tmp_path / "old"
    with open_history(folder, []) as history:
        history.keep_setting("sound", False)
    return folder


@contextmanager
def playing(folder: Path) -> Iterator[subprocess.Popen[str]]:
    """A program that adds repetitions to a history for ever, and has begun to."""
    command = [sys.executable, "-m", "tests.store.adder", str(folder)]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) as child:
        try:
            assert child.stdout is not None
            child.stdout.readline()
            yield child
        finally:
            child.kill()


def test_a_backup_is_a_history_of_its_own_with_everything_in_it(data: Path, backup: Path) -> None:
    assert dump(backup) == dump(data / FILE)
    assert names(backup.parent) == ["mine"]


def test_a_restored_backup_has_everything_in_it(backup: Path, tmp_path: Path) -> None:
    aside = restore(backup, tmp_path / "new", [])

    assert aside is None
    assert dump(tmp_path / "new" / FILE) == dump(backup)
    assert names(tmp_path / "new") == [LOCK, FILE]


def test_a_restored_history_goes_on_and_the_backup_stays(backup: Path, tmp_path: Path) -> None:
    before = backup.read_bytes()
    restore(backup, tmp_path, [])

    with open_history(tmp_path, []) as history:
        number = add_repetition(history, record())

    assert number == 10
    assert backup.read_bytes() == before


def test_a_history_that_is_there_is_moved_aside(backup: Path, old: Path) -> None:
    before = dump(old / FILE)

    aside = restore(backup, old, [])

    assert aside == old / ASIDE
    assert dump(aside) == before
    assert dump(old / FILE) == dump(backup)
    assert names(old) == [ASIDE, LOCK, FILE]


def test_what_was_moved_aside_is_never_written_over(backup: Path, old: Path) -> None:
    restore(backup, old, [])

    second = restore(old / ASIDE, old, [])

    assert second == old / "history-before-restore-2.sqlite3"
    assert dump(second) == dump(backup)
    assert dump(old / FILE) == dump(old / ASIDE)


@contextmanager
def broken_off(file: Path) -> Iterator[None]:
    """Context in which a history file is in the middle of a transaction, which is then undone."""
    with closing(sqlite3.connect(file, isolation_level=None)) as db:
        db.execute("PRAGMA cache_size = 1")
        db.execute("BEGIN IMMEDIATE")
        db.execute("CREATE TABLE broken AS SELECT randomblob(500000)")
        yield
        db.execute("ROLLBACK")


def test_a_history_that_a_crash_broke_off_is_moved_aside_as_it_was_before(
    backup: Path, old: Path
) -> None:
    before = dump(old / FILE)
    with broken_off(old / FILE):
        half, journal = (old / FILE).read_bytes(), journal_of(old / FILE).read_bytes()
    (old / FILE).write_bytes(half)
    journal_of(old / FILE).write_bytes(journal)

    restore(backup, old, [])

    assert dump(old / FILE) == dump(backup)
    assert dump(old / ASIDE) == before
    assert names(old) == [ASIDE, LOCK, FILE]


def test_a_damaged_history_is_moved_aside_as_it_is(backup: Path, old: Path) -> None:
    (old / FILE).write_bytes(b"no history any more")
    journal_of(old / FILE).write_bytes(b"no journal either")

    restore(backup, old, [])

    assert (old / ASIDE).read_bytes() == b"no history any more"
    assert dump(old / FILE) == dump(backup)
    assert names(old) == [ASIDE, LOCK, FILE]


def test_a_journal_that_cannot_be_used_yet_goes_with_the_history_that_is_moved_aside(
    backup: Path, old: Path
) -> None:
    before = dump(old / FILE)
    with broken_off(old / FILE):
        restore(backup, old, [])

        assert names(old) == [ASIDE, journal_of(old / ASIDE).name, LOCK, FILE]
        assert dump(old / ASIDE) == before
    assert dump(old / FILE) == dump(backup)


def test_a_journal_that_is_left_without_its_history_does_not_change_the_restored_one(
    backup: Path, old: Path
) -> None:
    with broken_off(old / FILE):
        journal = journal_of(old / FILE).read_bytes()
    (old / FILE).unlink()
    journal_of(old / FILE).write_bytes(journal)

    restore(backup, old, [])

    assert dump(old / FILE) == dump(backup)
    assert names(old) == [LOCK, FILE]


def test_a_backup_of_a_history_that_is_being_written_is_whole(tmp_path: Path) -> None:
    with playing(tmp_path / "data") as child:
        assert child.stdout is not None
        printed = [int(child.stdout.readline()) for _ in range(3)]
        backed_up(tmp_path / "data", tmp_path / "mine")
        after = int(child.stdout.readline())
    restore(tmp_path / "mine", tmp_path / "new", [])

    with open_history(tmp_path / "new", []) as history:
        count = len(all_results(history))
        traces = [trace_of(history, number) for number in range(1, count + 1)]
        measures = [measures_of(history, number) for number in range(1, count + 1)]
        counted = ledger.streaks(history, record().at.date()).today

    assert printed[-1] <= count
    assert after > printed[-1]
    assert None not in traces
    assert measures == [dict(record().verdict.measures)] * count
    assert counted == count


def test_nothing_is_restored_beside_a_running_game_and_a_killed_one_is_gone(
    backup: Path, tmp_path: Path
) -> None:
    data = tmp_path / "data"
    with playing(data) as child:
        with pytest.raises(StoreError) as refused:
            restore(backup, data, [])
        there = names(data)
        child.kill()
        child.communicate()

        aside = restore(backup, data, [])

    assert str(refused.value) == (
        f"{data / FILE}: in use by another stillfoot; close that one first"
    )
    assert {one for one in there if "journal" not in one} == {LOCK, FILE}
    assert aside == data / ASIDE
    assert dump(data / FILE) == dump(backup)


def test_no_history_is_opened_while_another_takes_its_place(tmp_path: Path) -> None:
    open_history(tmp_path, []).close()
    with closing(sqlite3.connect(tmp_path / LOCK, isolation_level=None)) as restoring:
        restoring.execute("BEGIN EXCLUSIVE")

        with pytest.raises(StoreError) as refused:
            open_history(tmp_path, [], patience=0.0)

    said = f"{tmp_path / FILE}: in use by another stillfoot; close that one first"
    assert str(refused.value) == said


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
    """Write over a page in the middle of a file."""
    whole = bytearray(file.read_bytes())
    middle = len(whole) // 2048 * 1024
    whole[middle : middle + 1024] = b"\x7f" * 1024
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
    "empty": (lambda file: file.write_bytes(b""), "expected a history, found an empty file"),
    "text": (
        lambda file: file.write_text("mine" * 50),
        "expected a backup to read, found: file is not a database",
    ),
    "gone": (Path.unlink, "expected a backup to read, found: No such file or directory"),
    "pipe": (become_pipe, "expected a backup to read, found no regular file"),
    "folder": (become_folder, "expected a backup to read, found: Is a directory"),
    "cut short": (cut_short, "expected a backup to read, found: database disk image is malformed"),
    "spoilt": (spoil, "expected a whole history, found: "),
}


@pytest.mark.parametrize("damage", DAMAGE)
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


def test_a_killed_restore_leaves_the_old_history_or_the_new(
    backup: Path, old: Path, tmp_path: Path
) -> None:
    before, after = dump(old / FILE), dump(backup)
    found, code, step = [], 9, 0
    while code == 9:
        step += 1
        data = tmp_path / f"data {step}"
        shutil.copytree(old, data)
        command = [sys.executable, "-m", "tests.store.dying", str(step), str(backup), str(data)]
        code = subprocess.run(command, cwd=ROOT, check=False).returncode
        found.append(dump(data / FILE))

    assert code == 0
    assert step > 5
    assert found[0] == before
    assert found[-1] == after
    assert [one for one in found if one not in (before, after)] == []


def test_files_that_a_killed_restore_left_are_replaced(backup: Path, old: Path) -> None:
    (old / f"{FILE}.part").write_bytes(b"half")
    (old / f"{FILE}.part-journal").write_bytes(b"of it")

    restore(backup, old, [])

    assert dump(old / FILE) == dump(backup)
    assert names(old) == [ASIDE, LOCK, FILE]


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
    assert str(refused.value).startswith(f"{path}: expected a whole history, found: ")
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


def test_a_backup_that_may_not_be_written_is_refused(old: Path, tmp_path: Path) -> None:
    with open_history(old, []) as history, unprivileged(), pytest.raises(StoreError) as refused:
        back_up(history, tmp_path / "mine")

    assert str(refused.value) == (
        f"{tmp_path / 'mine'}: expected a file to write to, found: Permission denied"
    )
    assert names(tmp_path) == ["old"]


def test_a_full_disk_is_said_in_one_line_and_leaves_no_backup(old: Path, tmp_path: Path) -> None:
    file = tmp_path / "mine"

    with open_history(old, []) as history, no_file_longer(4096), pytest.raises(StoreError) as full:
        back_up(history, file)

    assert str(full.value).startswith(f"{file}: expected a file to write to, found: ")
    assert names(tmp_path) == ["old"]


def test_a_full_disk_is_said_in_one_line_and_leaves_the_old_history(
    backup: Path, old: Path
) -> None:
    before, there = (old / FILE).read_bytes(), names(old)

    with no_file_longer(4096), pytest.raises(StoreError) as full:
        restore(backup, old, [])

    assert str(full.value).startswith(f"{old / FILE}: expected a file to write to, found: ")
    assert (old / FILE).read_bytes() == before
    assert names(old) == there
