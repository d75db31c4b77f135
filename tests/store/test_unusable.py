"""Folders and files that cannot be a history: each is said in one line and left as it was."""

import errno
import os
import sqlite3
import tempfile
from contextlib import closing
from pathlib import Path

import pytest

from engine.store import StoreError, open_history
from engine.store.history import FILE
from engine.store.lock import LOCK
from engine.store.schema import MIGRATIONS
from tests.needs import closed_files, short_names
from tests.unprivileged import unprivileged


def test_a_file_that_is_no_database_is_left_as_it_was(tmp_path: Path) -> None:
    path = tmp_path / FILE
    path.write_bytes(b"not a database at all\n" * 50)

    with pytest.raises(StoreError) as refused:
        open_history(tmp_path, [])

    assert str(refused.value) == (f"{path}: expected a whole history, found another kind of file")
    assert path.read_bytes() == b"not a database at all\n" * 50
    assert sorted(tmp_path.iterdir()) == [tmp_path / LOCK, path]


def test_a_folder_where_the_file_should_be_is_refused(tmp_path: Path) -> None:
    path = tmp_path / FILE
    path.mkdir()

    with pytest.raises(StoreError) as refused:
        open_history(tmp_path, [])

    assert str(refused.value) == f"{path}: expected a history to open, found no way to open it"


@closed_files
def test_a_file_that_may_only_be_read_is_refused_when_it_is_opened() -> None:
    with tempfile.TemporaryDirectory() as name:
        folder, path = Path(name), Path(name) / FILE
        folder.chmod(0o777)
        with unprivileged():
            open_history(folder, []).close()
            path.chmod(0o400)

            with pytest.raises(StoreError) as refused:
                open_history(folder, []).close()

        assert str(refused.value) == (
            f"{path}: expected a history that can be written, found no permission to write"
        )


@closed_files
def test_a_folder_that_cannot_be_looked_into_is_refused() -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "data"
        folder.mkdir(0o000)
        Path(name).chmod(0o777)
        with unprivileged(), pytest.raises(StoreError) as refused:
            open_history(folder, [])

    assert (
        str(refused.value)
        == f"{folder / FILE}: expected a history to open, found no way to open it"
    )


@short_names
def test_a_folder_whose_name_is_too_long_is_refused(tmp_path: Path) -> None:
    folder = tmp_path / ("x" * 300)

    with pytest.raises(StoreError) as refused:
        open_history(folder, [])

    reason = os.strerror(errno.ENAMETOOLONG)
    assert str(refused.value) == f"{folder}: expected a folder to write to, found: {reason}"


@pytest.mark.parametrize(
    ("number", "told"),
    [(-3, "-3"), (len(MIGRATIONS) + 1, f"{len(MIGRATIONS) + 1}, made by a newer stillfoot")],
)
def test_a_version_that_there_is_not_is_refused(tmp_path: Path, number: int, told: str) -> None:
    open_history(tmp_path, []).close()
    change(tmp_path, f"PRAGMA user_version = {number}")
    before = (tmp_path / FILE).read_bytes()

    with pytest.raises(StoreError) as refused:
        open_history(tmp_path, [])

    newest = len(MIGRATIONS)
    assert str(refused.value) == (
        f"{tmp_path / FILE}: expected a history of version {newest} or older, found version {told}"
    )
    assert (tmp_path / FILE).read_bytes() == before


def change(folder: Path, statement: str) -> None:
    """Change a history file past the program."""
    with closing(sqlite3.connect(folder / FILE)) as other, other:
        other.execute(statement)
