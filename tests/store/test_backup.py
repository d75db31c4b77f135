"""Copies of the history: a backup of it, and a backup put in its place."""

import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest

from engine.store import StoreError, ledger, open_history
from engine.store.backup import journal_of, restore
from engine.store.history import FILE
from engine.store.lock import LOCK
from engine.store.repetitions import add_repetition, measures_of
from engine.store.traces import trace_of
from tests.made import record
from tests.needs import moving_open_files
from tests.store.copies import ASIDE, ROOT, backed_up, playing
from tests.store.whole import names
from tests.stored import all_results, dump


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


@moving_open_files
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
