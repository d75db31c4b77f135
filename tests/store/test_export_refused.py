"""Exports that are refused, stopped or run out of room: one line each, and nothing is left."""

from pathlib import Path

import pytest

from engine.store import StoreError, open_history
from engine.store.export import PART, export
from engine.store.headers import file_of
from tests.full_disk import no_file_longer
from tests.needs import closed_files, file_size_limit
from tests.store.copies import TABLES, silent, written
from tests.store.whole import names, rows_of
from tests.unprivileged import unprivileged


@pytest.mark.parametrize(("there", "found"), [("a file", "a file"), ("a note", "'note.txt' in it")])
def test_nothing_that_is_there_is_written_over(
    data: Path, tmp_path: Path, there: str, found: str
) -> None:
    folder = tmp_path / "csv"
    if there == "a file":
        folder.write_bytes(b"mine")
    else:
        folder.mkdir()
        (folder / "note.txt").write_bytes(b"mine")

    with pytest.raises(StoreError) as refused:
        written(data, folder)

    assert str(refused.value) == f"{folder}: expected a new or an empty folder, found {found}"
    mine = folder if folder.is_file() else folder / "note.txt"
    assert mine.read_bytes() == b"mine"


def test_an_empty_folder_may_be_there(data: Path, tmp_path: Path) -> None:
    (tmp_path / "csv").mkdir()

    written(data, tmp_path / "csv")

    assert len(names(tmp_path / "csv")) == len(TABLES)


def test_what_a_killed_export_left_is_replaced(data: Path, tmp_path: Path) -> None:
    left = tmp_path / PART
    left.mkdir()
    (left / "repetition.csv").write_text("half")

    written(data, tmp_path)

    assert names(tmp_path) == sorted(map(file_of, TABLES))


@closed_files
def test_a_folder_that_may_not_be_written_to_is_refused(data: Path, tmp_path: Path) -> None:
    with open_history(data, []) as history, unprivileged(), pytest.raises(StoreError) as refused:
        export(history, tmp_path / "csv", silent)

    assert str(refused.value) == (
        f"{tmp_path / 'csv'}: expected a folder to write to, found: Permission denied"
    )


class Stopped(Exception):
    """Work that is ended in the middle."""


@pytest.mark.parametrize("there", [False, True])
@pytest.mark.parametrize("after", [1, 20])
def test_an_export_that_is_stopped_leaves_nothing(
    data: Path, tmp_path: Path, there: bool, after: int
) -> None:
    folder = tmp_path / "csv"
    if there:
        folder.mkdir()

    def stop(done: int, _: int) -> None:
        if done == after:
            raise Stopped

    with open_history(data, []) as history, pytest.raises(Stopped):
        export(history, folder, stop, traces=True)

    assert names(tmp_path) == (["csv"] if there else [])
    assert not there or names(folder) == []


@file_size_limit
def test_a_full_disk_is_said_in_one_line_and_leaves_nothing(data: Path, tmp_path: Path) -> None:
    with (
        open_history(data, []) as history,
        no_file_longer(100),
        pytest.raises(StoreError) as refused,
    ):
        export(history, tmp_path / "csv", silent)

    assert str(refused.value) == (
        f"{tmp_path / 'csv'}: expected a folder to write to, found: File too large"
    )
    assert names(tmp_path) == []


def test_a_game_goes_on_while_its_history_is_written_out(tmp_path: Path) -> None:
    open_history(tmp_path, []).close()

    def play(done: int, _: int) -> None:
        if done == 1:
            with open_history(tmp_path, [], patience=0.0) as game:
                game.keep_setting("sound", False)

    with open_history(tmp_path, []) as history:
        export(history, tmp_path / "csv", play)
        sound = history.setting("sound")

    assert sound is False
    assert len(rows_of(tmp_path / "csv" / "setting.csv")) == 1
