"""The commands `stillfoot backup`, `restore` and `export`."""

import gzip
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from engine.commands.main import main
from engine.store import open_history
from engine.store.history import FILE
from engine.store.lock import LOCK
from tests.engine.commands.command import Captured, output_of, refused
from tests.store.whole import make, names
from tests.stored import dump


@pytest.fixture(scope="module")
def data(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder whose history has rows in every table."""
    folder = tmp_path_factory.mktemp("data")
    make(folder)
    return folder


def test_a_history_is_backed_up_and_restored(capsys: Captured, data: Path, tmp_path: Path) -> None:
    file, new = tmp_path / "mine", tmp_path / "new"

    out = output_of(capsys, "backup", str(file), "--data", str(data))
    back = output_of(capsys, "restore", str(file), "--data", str(new))

    assert out == f"The history is copied to {file}\n"
    assert back == f"The history of {file} is now {new / FILE}\n"
    assert dump(new / FILE) == dump(data / FILE)


def test_restoring_over_a_history_prints_where_the_old_one_is_now(
    capsys: Captured, data: Path, tmp_path: Path
) -> None:
    file, new = tmp_path / "mine", tmp_path / "new"
    open_history(new, []).close()
    output_of(capsys, "backup", str(file), "--data", str(data))

    back = output_of(capsys, "restore", str(file), "--data", str(new))

    assert back == (
        f"The history of {file} is now {new / FILE}\n"
        f"The old history is now {new / 'history-before-restore-1.sqlite3'}\n"
    )


def test_a_restore_while_the_game_is_running_is_refused(
    capsys: Captured, data: Path, tmp_path: Path
) -> None:
    file = tmp_path / "mine"
    output_of(capsys, "backup", str(file), "--data", str(data))

    with open_history(data, []):
        error = refused(capsys, "restore", str(file), "--data", str(data))

    assert error == (
        f"stillfoot: {data / FILE}: in use by another stillfoot; close that one first\n"
    )
    assert names(data) == [LOCK, FILE]


def test_a_file_that_is_no_backup_is_refused(capsys: Captured, tmp_path: Path) -> None:
    file = tmp_path / "mine"
    file.write_text("mine" * 50)

    error = refused(capsys, "restore", str(file), "--data", str(tmp_path / "new"))

    assert error == (f"stillfoot: {file}: expected a backup to read, found another kind of file\n")
    assert names(tmp_path) == ["mine"]


def test_a_history_is_exported_with_traces_if_asked_for(
    capsys: Captured, data: Path, tmp_path: Path
) -> None:
    out = output_of(capsys, "export", str(tmp_path / "csv"), "--data", str(data))
    more = output_of(capsys, "export", str(tmp_path / "more"), "--traces", "--data", str(data))

    assert out == f"9 repetitions written to {tmp_path / 'csv'}\n"
    assert more == f"9 repetitions written to {tmp_path / 'more'}\n"
    assert set(names(tmp_path / "more")) - set(names(tmp_path / "csv")) == {"trace.csv.gz"}


def trace_rows(folder: Path) -> list[str]:
    """Rows of the traces in an export."""
    with gzip.open(folder / "trace.csv.gz", "rt", encoding="utf-8") as file:
        return list(file)


@pytest.mark.parametrize(
    ("where", "told"),
    [
        ("repetition = 1", "the trace of repetition 1 cannot be read and is left out"),
        (
            "repetition > 1",
            "the traces of 6 repetitions cannot be read and are left out: from number 3 on",
        ),
    ],
)
def test_traces_that_cannot_be_read_are_named_and_left_out(
    capsys: Captured, data: Path, tmp_path: Path, where: str, told: str
) -> None:
    copy, whole, rest = tmp_path / "data", tmp_path / "whole", tmp_path / "rest"
    shutil.copytree(data, copy)
    output_of(capsys, "export", str(whole), "--traces", "--data", str(copy))
    with closing(sqlite3.connect(copy / FILE)) as db, db:
        damaged = db.execute(f"SELECT repetition FROM trace WHERE {where}").fetchall()
        db.execute(f"UPDATE trace SET packed = substr(packed, 1, 30) WHERE {where}")

    code = main(["export", str(rest), "--traces", "--data", str(copy)])

    out, err = capsys.readouterr()
    assert (code, out) == (0, f"9 repetitions written to {rest}\n")
    assert err == f"stillfoot: {told}\n"
    assert names(rest) == names(whole)
    lost = {f"{number}," for (number,) in damaged}
    with (
        gzip.open(rest / "trace.csv.gz", "rt") as left,
        gzip.open(whole / "trace.csv.gz", "rt") as all_,
    ):
        assert list(left) == [row for row in all_ if not row.startswith(tuple(lost))]


@pytest.mark.parametrize("command", ["backup", "export"])
def test_without_a_history_nothing_is_written(
    capsys: Captured, tmp_path: Path, command: str
) -> None:
    error = refused(capsys, command, str(tmp_path / "copy"), "--data", str(tmp_path / "none"))

    assert error == f"stillfoot: {tmp_path / 'none' / FILE}: expected a history, found none\n"
    assert names(tmp_path) == []


@pytest.mark.parametrize(("command", "what"), [("restore", "FILE"), ("export", "DIR")])
def test_a_file_or_folder_must_be_named(capsys: Captured, command: str, what: str) -> None:
    code = main([command])

    error = f"the following arguments are required: {what} (see stillfoot {command} --help)"
    assert (code, capsys.readouterr().err) == (2, f"stillfoot: {error}\n")
