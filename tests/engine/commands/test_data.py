"""Levels and histories that cannot be used are refused in one line and left unchanged."""

import os
import sqlite3
import tomllib
from pathlib import Path

import pytest

from drills.kinds import KINDS
from engine.commands.data import NOTHING
from engine.commands.main import main
from engine.ladder.level_files import SHIPPED
from engine.store.history import FILE
from engine.store.schema import MIGRATIONS
from tests.engine.commands.command import LEVEL, Captured, own_level, refused
from tests.needs import named_pipe


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ('title = "Own"', "", "title: expected one line of 1 to 40 characters, found nothing"),
        ("[60]", "[60, 96]", "targets[1]: expected a number from 10 to 95, found 96"),
        ("dip = 15", "dip = 0", "limits.dip: expected a number from 0.001 to 1000, found 0"),
        ("blip", "juggle", f"kind: expected one of {', '.join(KINDS)}, found 'juggle'"),
        ("\nid", "\nneeds = ['x']\nid", "needs: expected ids of other levels, found 'x'"),
        ("\nid", "\nneeds = ['own']\nid", "needs: expected no circle, found own"),
        ("\nid", "\npass.clean = 11\nid", "pass.clean: expected at most pass.of = 10, found 11"),
    ],
)
def test_a_broken_level_is_named_with_its_key(
    capsys: Captured, tmp_path: Path, before: str, after: str, said: str
) -> None:
    path = own_level(tmp_path, LEVEL.replace(before, after))

    found = refused(capsys, "demo", "--headless", "--data", str(tmp_path))

    assert found == f"stillfoot: {path}: {said}\n"


def test_a_level_that_is_no_toml_is_named_with_the_place_of_the_mistake(
    capsys: Captured, tmp_path: Path
) -> None:
    text = 'id = "own"\ntitle = Own\n'
    path = own_level(tmp_path, text)
    with pytest.raises(tomllib.TOMLDecodeError) as broken:
        tomllib.loads(text)

    error = refused(capsys, "demo", "--headless", "--data", str(tmp_path))

    assert error == f"stillfoot: {path}: the file: expected TOML, found {broken.value}\n"


def test_a_level_that_is_no_text_is_named(capsys: Captured, tmp_path: Path) -> None:
    path = own_level(tmp_path, "")
    path.write_bytes(b"\xff\xfe\x00")

    error = refused(capsys, "demo", "--headless", "--data", str(tmp_path))

    assert error == (
        f"stillfoot: {path}: the file: expected UTF-16 text, found a byte at 2 that is not UTF-16\n"
    )


def test_a_level_that_is_a_folder_is_named(capsys: Captured, tmp_path: Path) -> None:
    path = tmp_path / "levels" / "own.toml"
    path.mkdir(parents=True)

    error = refused(capsys, "demo", "--headless", "--data", str(tmp_path))

    assert error == (
        f"stillfoot: {path}: the file: expected a regular file of at most 1 MB, found a folder\n"
    )


def test_two_levels_with_one_id_are_both_named(capsys: Captured, tmp_path: Path) -> None:
    path = own_level(tmp_path, LEVEL.replace('"own"', '"blip-1-first"'))

    error = refused(capsys, "demo", "--headless", "--data", str(tmp_path))

    other = SHIPPED / "2-first-blip" / "blip-1-first.toml"
    assert error == (
        f"stillfoot: {path}: id: expected an id of its own, found 'blip-1-first' of {other} too\n"
    )


@pytest.mark.parametrize(
    ("command", "expected"),
    [
        (("demo", "--headless"), "a folder to write to"),
        (("plan",), "a folder with a history"),
        (("levels",), "a folder with a history"),
    ],
)
def test_a_data_folder_that_is_a_file_is_refused_and_left_alone(
    capsys: Captured, tmp_path: Path, command: tuple[str, ...], expected: str
) -> None:
    folder = tmp_path / "data"
    folder.write_bytes(b"mine")

    error = refused(capsys, *command, "--data", str(folder))

    assert error == f"stillfoot: {folder}: expected {expected}, found a file\n"
    assert folder.read_bytes() == b"mine"


@named_pipe
@pytest.mark.parametrize(
    ("command", "expected"),
    [
        (("demo", "--headless"), "a folder to write to"),
        (("plan",), "a folder with a history"),
        (("levels",), "a folder with a history"),
        (("report",), "a folder with a history"),
    ],
)
def test_a_data_folder_that_is_a_device_is_refused_in_the_same_words(
    capsys: Captured, tmp_path: Path, command: tuple[str, ...], expected: str
) -> None:
    pipe = tmp_path / "data"
    os.mkfifo(pipe)

    error = refused(capsys, *command, "--data", str(pipe))

    assert error == f"stillfoot: {pipe}: expected {expected}, found a file\n"


def test_a_history_that_is_no_database_is_set_aside_as_it_is(
    capsys: Captured, tmp_path: Path
) -> None:
    path = tmp_path / "history.sqlite3"
    path.write_bytes(b"dear diary, " * 200)

    code = main(["demo", "--headless", "--reps", "1", "--data", str(tmp_path)])

    [aside] = tmp_path.glob("history-damaged-*")
    assert code == 0
    assert aside.read_bytes() == b"dear diary, " * 200
    assert f"The damaged file is now {aside.name}." in capsys.readouterr().err


@pytest.mark.parametrize(
    ("statement", "said"),
    [
        (
            "CREATE TABLE recipe (name TEXT)",
            "expected a history, found a database of something else",
        ),
        (
            f"PRAGMA user_version = {len(MIGRATIONS) + 1}",
            f"expected a history of version {len(MIGRATIONS)} or older, "
            f"found version {len(MIGRATIONS) + 1}, made by a newer stillfoot",
        ),
    ],
)
def test_a_database_of_another_program_or_a_newer_version_is_left_alone(
    capsys: Captured, tmp_path: Path, statement: str, said: str
) -> None:
    path = tmp_path / "history.sqlite3"
    other = sqlite3.connect(path)
    other.execute(statement)
    other.close()
    before = path.read_bytes()

    found = refused(capsys, "demo", "--headless", "--data", str(tmp_path))

    assert found == f"stillfoot: {path}: {said}\n"
    assert path.read_bytes() == before


def test_an_empty_name_of_the_data_folder_is_refused(capsys: Captured) -> None:
    code = main(["demo", "--headless", "--data", ""])

    assert (code, capsys.readouterr().err) == (
        2,
        "stillfoot: --data: expected a folder, found '' (see stillfoot demo --help)\n",
    )


@pytest.mark.parametrize("command", ["levels", "plan"])
def test_a_file_that_is_no_history_is_told_and_left_alone(
    capsys: Captured, tmp_path: Path, command: str
) -> None:
    (tmp_path / FILE).write_text("mine" * 100, encoding="utf-8")

    error = refused(capsys, command, "--data", str(tmp_path))

    assert error == (
        f"stillfoot: {tmp_path / FILE}: expected a whole history, found another kind of file; "
        f"{NOTHING}\n"
    )
    assert [one.name for one in tmp_path.iterdir()] == [FILE]


@pytest.mark.parametrize("command", ["levels", "plan"])
def test_a_broken_level_of_the_player_is_named_in_place_of_any_output(
    capsys: Captured, tmp_path: Path, command: str
) -> None:
    path = own_level(tmp_path, LEVEL.replace("[60]", "[96]"))

    error = refused(capsys, command, "--data", str(tmp_path))

    assert error == f"stillfoot: {path}: targets[0]: expected a number from 10 to 95, found 96\n"
