"""New files and folders of every command are for their owner alone, whatever the umask."""

import os
from collections.abc import Iterator
from pathlib import Path
from stat import S_IMODE

import pytest

from engine.commands.main import main
from engine.commands.options import local_now
from engine.store import open_history
from engine.store.history import FILE
from engine.store.repetitions import add_repetition
from tests.engine.commands.command import Captured, output_of, refused
from tests.made import record
from tests.needs import closed_files

pytestmark = closed_files

OPEN = 0o000
"""Umask that withholds nothing."""


@pytest.fixture(autouse=True)
def umask() -> Iterator[None]:
    """Let everyone read and write what is made, but for the program's own care."""
    before = os.umask(OPEN)
    yield
    os.umask(before)


def modes(folder: Path) -> dict[str, int]:
    """Mode of everything in a folder, by its path in it."""
    return {
        str(path.relative_to(folder)): S_IMODE(path.lstat().st_mode)
        for path in sorted(folder.rglob("*"))
    }


def is_for_owner_alone(path: Path) -> bool:
    """Whether a file has mode 0600, or a folder mode 0700."""
    return S_IMODE(path.lstat().st_mode) == (0o700 if path.is_dir() else 0o600)


def test_what_the_commands_write_is_for_its_owner_alone(capsys: Captured, tmp_path: Path) -> None:
    made = tmp_path / "made"
    data, copy = ("--data", str(made / "data")), str(made / "copy.sqlite3")

    for command in (
        ("demo", "--headless", "--reps", "1", "--events", str(tmp_path / "events.jsonl"), *data),
        ("demo", "--headless", "--reps", "1", "--player", "Second", *data),
        ("backup", copy, *data),
        ("export", str(made / "tables"), "--traces", *data),
        ("levels", "--new", "blip", "--file", str(made / "own.toml")),
        ("restore", copy, "--data", str(made / "other" / "data")),
    ):
        output_of(capsys, *command)

    written = list(tmp_path.rglob("*"))
    assert {path.name for path in written} >= {
        *("made", "data", "players", "Second", "other", "tables"),
        *(FILE, "history.lock", "events.jsonl", "copy.sqlite3", "own.toml", "trace.csv.gz"),
    }
    assert [path for path in written if not is_for_owner_alone(path)] == []


def test_the_files_of_a_report_are_for_their_owner_alone(capsys: Captured, tmp_path: Path) -> None:
    page, picture = tmp_path / "report.html", tmp_path / "report.png"
    with open_history(tmp_path, []) as history:
        add_repetition(history, record(at=local_now(), trace=None))

    report = ("report", "--data", str(tmp_path), "--html", str(page), "--png", str(picture))
    output_of(capsys, *report)

    assert is_for_owner_alone(page)
    assert is_for_owner_alone(picture)


def test_files_and_folders_that_exist_keep_their_modes(capsys: Captured, tmp_path: Path) -> None:
    play = ("demo", "--headless", "--reps", "1", "--data", str(tmp_path))
    output_of(capsys, *play)
    (tmp_path / FILE).chmod(0o640)
    tmp_path.chmod(0o755)
    before = modes(tmp_path)

    output_of(capsys, *play)

    assert modes(tmp_path) == before
    assert S_IMODE(tmp_path.stat().st_mode) == 0o755


def test_the_umask_is_put_back_however_a_command_ends(capsys: Captured, tmp_path: Path) -> None:
    output_of(capsys, "levels")
    refused(capsys, "levels", "--check", str(tmp_path / "none.toml"))
    assert main(["--help"]) == 0

    assert os.umask(OPEN) == OPEN
