"""Commands on a damaged history: they go on with what can be read, and say so in a line."""

import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from engine.commands.data import NOTHING, REST, all_levels
from engine.commands.main import main
from engine.salvage.repair import repair
from engine.store import open_history
from engine.store.history import FILE
from tests.engine.commands.command import Captured, refused
from tests.store.whole import make, names
from tests.stored import all_results

READERS = [
    ("plan",),
    ("plan", "--json"),
    ("report",),
    ("levels",),
    ("levels", "--json"),
    ("export", "{out}"),
    ("export", "{out}", "--traces"),
    ("backup", "{out}"),
    ("remeasure", "--dry-run"),
]
"""Commands that only read a history, with {out} for a new file or folder."""
NOTHING_LEFT = ": expected some practice to report, found none yet"
"""Ending of the line where no repetition of the history can be read."""
Damage = Callable[[Path], None]


def by_sql(statement: str) -> Damage:
    """Damage that a statement does to a history file."""

    def damage(file: Path) -> None:
        with closing(sqlite3.connect(file)) as db, db:
            db.execute(statement)

    return damage


def lost_page(file: Path) -> None:
    """Fill the first page of the repetitions with zeros."""
    with closing(sqlite3.connect(file)) as db:
        size = db.execute("PRAGMA page_size").fetchone()[0]
        root = db.execute("SELECT rootpage FROM sqlite_master WHERE name = 'day'").fetchone()[0]
    with file.open("r+b") as opened:
        opened.seek((root - 1) * size)
        opened.write(bytes(size))


def cut(file: Path) -> None:
    """Cut a file to half of its length."""
    with file.open("r+b") as opened:
        opened.truncate(file.stat().st_size // 2)


def lost_name(file: Path) -> None:
    """Damage a byte in the name of a table."""
    file.write_bytes(file.read_bytes().replace(b"CREATE TABLE day", b"CREATE T\xffBLE day"))


DAMAGES = {
    "a text that is not UTF-8": by_sql(
        "UPDATE repetition SET why = CAST(x'64ff65' AS TEXT) WHERE id = 1"
    ),
    "a word that is none": by_sql("UPDATE repetition SET why = 'wht' WHERE id = 1"),
    "a row of the ledger": by_sql(
        "UPDATE day SET day = '2024-17-05' WHERE day = (SELECT min(day) FROM day)"
    ),
    "a setting": by_sql("UPDATE setting SET value = '{\"brake' WHERE key = 'ends declined'"),
    "a table that is gone": by_sql("DROP TABLE day"),
    "a page of zeros": lost_page,
    "a file that is cut": cut,
    "a damaged name": lost_name,
}


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder whose history has rows in every table."""
    folder = tmp_path_factory.mktemp("whole")
    make(folder)
    return folder


@pytest.fixture(params=DAMAGES)
def damaged(request: pytest.FixtureRequest, whole: Path, tmp_path: Path) -> Path:
    """A data folder with a damaged history."""
    folder = tmp_path / "data"
    folder.mkdir()
    shutil.copyfile(whole / FILE, folder / FILE)
    DAMAGES[request.param](folder / FILE)
    return folder


@pytest.mark.parametrize("command", READERS, ids=" ".join)
def test_a_command_that_reads_tells_what_can_be_read_and_changes_nothing(
    capsys: Captured, damaged: Path, tmp_path: Path, command: tuple[str, ...]
) -> None:
    before = (damaged / FILE).read_bytes()
    typed = [word.format(out=tmp_path / "out") for word in command]

    code = main([*typed, "--data", str(damaged)])

    out, err = capsys.readouterr()
    lines = err.splitlines()
    is_left = not (lines and lines[-1].endswith(NOTHING_LEFT))
    assert (code, out != "") == ((0, True) if is_left else (2, False))
    assert all(line.endswith(f"; {REST}") for line in lines[: None if is_left else -1])
    assert len(lines) <= (1 if is_left else 2)
    assert (damaged / FILE).read_bytes() == before
    assert names(damaged) == [FILE]


@pytest.mark.parametrize("command", [("remeasure",), ("demo", "--headless", "--reps", "1")])
def test_a_command_that_writes_sets_the_damaged_file_aside_and_goes_on(
    capsys: Captured, damaged: Path, command: tuple[str, ...]
) -> None:
    before = (damaged / FILE).read_bytes()

    code = main([*command, "--data", str(damaged)])

    err = capsys.readouterr().err
    aside = [one for one in names(damaged) if one.startswith("history-damaged-")]
    assert code == 0
    if aside:
        assert (damaged / aside[0]).read_bytes() == before
        assert aside[0] in err
    open_history(damaged, []).close()


def test_a_demo_starts_again_after_the_repair_of_damage_that_is_found_in_play(
    capsys: Captured, tmp_path: Path
) -> None:
    arguments = ["demo", "--headless", "--reps", "2", "--data", str(tmp_path)]
    main(arguments)
    played = capsys.readouterr().out
    row = "'blip-1-first', CAST(x'31ff' AS TEXT), 1"
    by_sql(f"INSERT INTO progress (level, latest, passed) VALUES ({row})")(tmp_path / FILE)

    code = main(arguments)

    out, err = capsys.readouterr()
    assert (code, out) == (0, played)
    damage, lost, *_ = err.splitlines()
    assert damage.startswith(f"stillfoot: {tmp_path / FILE}: expected a whole history, found ")
    assert lost == "stillfoot: Nothing is lost."
    with open_history(tmp_path, []) as history:
        assert len(all_results(history)) == 4


@pytest.mark.parametrize("command", READERS, ids=" ".join)
def test_a_file_of_nothing_is_no_new_history(
    capsys: Captured, tmp_path: Path, command: tuple[str, ...]
) -> None:
    (tmp_path / FILE).touch()
    typed = [word.format(out=tmp_path / "out") for word in command]

    error = refused(capsys, *typed, "--data", str(tmp_path))

    assert error == (
        f"stillfoot: {tmp_path / FILE}: expected a whole history, found none in it; {NOTHING}\n"
    )
    assert names(tmp_path) == [FILE]
    assert (tmp_path / FILE).read_bytes() == b""


def test_what_can_be_read_of_a_damaged_backup_is_restored(
    capsys: Captured, whole: Path, tmp_path: Path
) -> None:
    backup, new = tmp_path / "backup", tmp_path / "new"
    shutil.copyfile(whole / FILE, backup)
    lost_page(backup)

    code = main(["restore", str(backup), "--data", str(new)])

    out, err = capsys.readouterr()
    assert (code, out) == (0, f"The history of {backup} is now {new / FILE}\n")
    assert err.startswith(f"stillfoot: {backup}: expected a whole history, found ")
    assert err.endswith("; what can be read is restored\n")
    with open_history(whole, []) as before, open_history(new, []) as history:
        assert all_results(history) == all_results(before)


def test_damage_that_a_command_finds_is_gone_after_one_repair(
    capsys: Captured, damaged: Path
) -> None:
    repair(damaged, all_levels(damaged))

    for command in ("plan", "report", "levels"):
        main([command, "--data", str(damaged)])

    assert REST not in capsys.readouterr().err
