"""A history that is only read: nothing around it changes, and it need not be writable."""

import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from engine.store import DamagedError, StoreError, open_history
from engine.store.backup import journal_of
from engine.store.history import FILE
from engine.store.lock import hold_alone
from engine.store.reading import open_for_reading
from tests.needs import closed_files
from tests.store.copies import playing
from tests.stored import all_results
from tests.unprivileged import unprivileged

VERSION_1 = Path(__file__).with_name("version1.sqlite3")


@pytest.fixture
def closed(data: Path) -> Iterator[Path]:
    """A data folder with something of everything, to which nobody may write."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        shutil.copyfile(data / FILE, folder / FILE)
        (folder / FILE).chmod(0o444)
        folder.chmod(0o555)
        yield folder
        folder.chmod(0o755)


def looks(folder: Path) -> dict[str, tuple[int, bytes]]:
    """When each file of a folder was changed, and what is in it."""
    return {one.name: (one.stat().st_mtime_ns, one.read_bytes()) for one in folder.iterdir()}


def test_reading_makes_and_changes_nothing(old: Path) -> None:
    (old / "history.lock").unlink()
    before = looks(old)

    with open_for_reading(old, []) as history:
        sound = history.setting("sound")
        during = looks(old)

    assert sound is False
    assert before == during == looks(old)


def test_a_history_that_is_only_read_refuses_to_be_written(old: Path) -> None:
    with open_for_reading(old, []) as history, pytest.raises(StoreError) as refused:
        history.keep_setting("sound", True)

    assert str(refused.value) == (
        f"{old / FILE}: expected a history that can be written, found no permission to write"
    )


@closed_files
def test_a_history_that_nobody_may_write_to_can_be_read(data: Path, closed: Path) -> None:
    with open_history(data, []) as history:
        wanted = all_results(history)

    with unprivileged(), open_for_reading(closed, []) as history:
        found = all_results(history)

    assert found == wanted
    assert [one.name for one in closed.iterdir()] == [FILE]


def test_a_history_can_be_read_while_another_program_writes_to_it(tmp_path: Path) -> None:
    with playing(tmp_path) as child:
        for _ in range(5):
            assert child.stdout is not None
            number = int(child.stdout.readline())
            with open_for_reading(tmp_path, []) as history:
                assert len(all_results(history)) >= number


def test_an_older_history_is_read_as_the_newest_and_stays_as_it_is(tmp_path: Path) -> None:
    shutil.copyfile(VERSION_1, tmp_path / FILE)
    before = looks(tmp_path)

    with open_for_reading(tmp_path, []) as history:
        found = all_results(history)
        with pytest.raises(StoreError):
            history.keep_setting("sound", True)

    shutil.copytree(tmp_path, tmp_path / "migrated")
    with open_history(tmp_path / "migrated", []) as history:
        assert found == all_results(history)
    shutil.rmtree(tmp_path / "migrated")
    assert found
    assert looks(tmp_path) == before


def test_a_transaction_that_a_crash_broke_off_is_undone_only_in_a_copy(
    old: Path, tmp_path: Path
) -> None:
    with closing(sqlite3.connect(old / FILE, isolation_level=None)) as db:
        db.execute("PRAGMA cache_spill = 1")
        db.execute("PRAGMA cache_size = 1")
        db.execute("BEGIN")
        db.execute("UPDATE setting SET value = 'true'")
        db.execute("CREATE TABLE more AS SELECT zeroblob(90000) AS filler")
        half, journal = (old / FILE).read_bytes(), journal_of(old / FILE).read_bytes()
    crashed = tmp_path / "crashed"
    crashed.mkdir()
    (crashed / FILE).write_bytes(half)
    journal_of(crashed / FILE).write_bytes(journal)
    before = looks(crashed)

    with open_for_reading(crashed, []) as history:
        sound = history.setting("sound")

    assert half != (old / FILE).read_bytes()
    assert sound is False
    assert looks(crashed) == before


def test_a_history_that_is_being_replaced_is_told_as_in_use(old: Path) -> None:
    with (
        closing(hold_alone(old / FILE)),
        pytest.raises(StoreError) as refused,
        open_for_reading(old, [], patience=0.0),
    ):
        pass

    assert str(refused.value) == f"{old / FILE}: in use by another stillfoot; close that one first"


@pytest.mark.parametrize("size", [0, 1, 99, 100])
def test_a_file_that_is_cut_to_nearly_nothing_is_damaged(old: Path, size: int) -> None:
    cut = (old / FILE).read_bytes()[:size]
    (old / FILE).write_bytes(cut)

    with pytest.raises(DamagedError), open_for_reading(old, []):
        pass

    assert (old / FILE).read_bytes() == cut


@pytest.mark.parametrize(
    "statement", ["UPDATE setting SET value = CAST(x'ff22' AS TEXT)", "DROP TABLE setting"]
)
def test_what_sqlite_cannot_read_is_damage(old: Path, statement: str) -> None:
    with closing(sqlite3.connect(old / FILE)) as db, db:
        db.execute(statement)

    with open_for_reading(old, []) as history, pytest.raises(DamagedError) as refused:
        history.setting("sound")

    assert str(refused.value).startswith(f"{old / FILE}: expected a whole history, found ")


def test_a_damaged_name_of_a_table_is_damage(old: Path) -> None:
    whole = (old / FILE).read_bytes()
    (old / FILE).write_bytes(whole.replace(b"CREATE TABLE setting", b"CREATE T\xffBLE setting"))

    with pytest.raises(DamagedError) as refused, open_for_reading(old, []):
        pass

    assert str(refused.value) == (
        f"{old / FILE}: expected a whole history, found a name that is no text"
    )
