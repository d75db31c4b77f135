"""The commands export and import as they are typed."""

import tempfile
from pathlib import Path

import pytest

from engine.commands.main import main
from engine.store.history import FILE
from tests.engine.commands.command import Captured, refused, told
from tests.nobody import as_nobody
from tests.store.exported import dump, make, names


@pytest.fixture(scope="module")
def data(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder with something of everything."""
    folder = tmp_path_factory.mktemp("data")
    make(folder, newest=9)
    return folder


def test_a_history_goes_out_and_comes_back(capsys: Captured, data: Path, tmp_path: Path) -> None:
    csv, new = tmp_path / "csv", tmp_path / "new"

    out = told(capsys, "export", str(csv), "--data", str(data))
    back = told(capsys, "import", str(csv), "--data", str(new))

    assert out == f"9 repetitions written to {csv}\n"
    assert back == f"9 repetitions put into {new}\n"
    assert dump(new) == dump(data)


def test_without_a_history_nothing_is_written(capsys: Captured, tmp_path: Path) -> None:
    said = refused(capsys, "export", str(tmp_path / "csv"), "--data", str(tmp_path / "none"))

    assert said == f"stillfoot: {tmp_path / 'none' / FILE}: expected a history, found none\n"
    assert names(tmp_path) == []


def test_a_folder_that_is_no_export_is_named(capsys: Captured, tmp_path: Path) -> None:
    said = refused(capsys, "import", str(tmp_path), "--data", str(tmp_path / "new"))

    assert said == (
        f"stillfoot: {tmp_path / 'about.csv'}: expected a file that can be read, "
        "found: No such file or directory\n"
    )
    assert names(tmp_path) == []


def test_a_history_that_is_there_stays(capsys: Captured, data: Path, tmp_path: Path) -> None:
    told(capsys, "export", str(tmp_path / "csv"), "--data", str(data))

    said = refused(capsys, "import", str(tmp_path / "csv"), "--data", str(data))

    assert said == (
        f"stillfoot: {data / FILE}: expected no history yet, found one; "
        "name another data folder with --data\n"
    )


def test_a_data_folder_that_nobody_may_look_into_is_refused(capsys: Captured) -> None:
    with tempfile.TemporaryDirectory() as name:
        shut, csv = Path(name) / "shut", Path(name) / "csv"
        shut.mkdir(0o000)
        csv.mkdir()
        Path(name).chmod(0o777)
        with as_nobody():
            said = refused(capsys, "import", str(csv), "--data", str(shut / "data"))

    assert said == (
        f"stillfoot: {shut / 'data'}: expected a folder to write to, found: Permission denied\n"
    )


@pytest.mark.parametrize("command", ["export", "import"])
def test_a_folder_must_be_named(capsys: Captured, command: str) -> None:
    code = main([command])

    assert (code, capsys.readouterr().err) == (
        2,
        f"stillfoot: the following arguments are required: DIR (see stillfoot {command} --help)\n",
    )
