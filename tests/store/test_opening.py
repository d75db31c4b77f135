"""Opening of a history: a new one is whole from the first, a damaged one is never taken for new."""

import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from engine.store import DamagedError, StoreError, open_history
from engine.store.history import FILE
from engine.store.lock import LOCK
from engine.store.opening import give_name
from engine.store.repetitions import add_repetition
from engine.store.schema import MIGRATIONS
from tests.made import record
from tests.store.spoiled import change
from tests.store.whole import names
from tests.stored import all_results

ROOT = Path(__file__).resolve().parents[2]
NEWEST = len(MIGRATIONS)


@pytest.mark.parametrize("length", [0, 1, 99])
def test_a_file_too_short_to_be_a_history_is_damaged(tmp_path: Path, length: int) -> None:
    path = tmp_path / FILE
    path.write_bytes(b"S" * length)

    with pytest.raises(DamagedError) as refused:
        open_history(tmp_path, [])

    assert str(refused.value) == (
        f"{path}: expected a history of 100 bytes or more, found {length}"
    )
    assert path.read_bytes() == b"S" * length


def test_a_new_history_leaves_nothing_beside_it(tmp_path: Path) -> None:
    open_history(tmp_path, []).close()

    assert names(tmp_path) == [LOCK, FILE]


def test_a_kill_while_a_history_is_made_leaves_none_or_a_whole_one(tmp_path: Path) -> None:
    codes = []
    for step in range(1, 9):
        folder = tmp_path / f"killed {step}"
        command = [sys.executable, "-m", "tests.store.dying_at", "open", str(step), str(folder)]
        codes.append(subprocess.run(command, cwd=ROOT, check=False, capture_output=True).returncode)
        if (folder / FILE).exists():
            with closing(sqlite3.connect(folder / FILE)) as db:
                assert db.execute("PRAGMA user_version").fetchone() == (NEWEST,)
        with open_history(folder, []) as history:
            assert add_repetition(history, record(trace=None)) == 1

    assert codes[0] == 9
    assert codes.count(9) >= 4
    assert codes[-1] == 0


def test_a_file_takes_no_name_of_another(tmp_path: Path) -> None:
    (tmp_path / "new").write_text("new")
    (tmp_path / "old").write_text("old")

    with pytest.raises(FileExistsError):
        give_name(tmp_path / "new", tmp_path / "old")

    assert (tmp_path / "old").read_text() == "old"


def test_what_can_have_no_second_name_is_renamed(tmp_path: Path) -> None:
    # No folder can be linked, as no file on some disks.
    (tmp_path / "new").mkdir()

    give_name(tmp_path / "new", tmp_path / "named")

    assert names(tmp_path) == ["named"]


def test_programs_that_start_at_once_have_one_history(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "tests.store.adder", str(tmp_path)]
    programs = [
        subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) for _ in range(3)
    ]
    numbers = []
    for program in programs:
        with program:
            assert program.stdout is not None
            numbers += [int(program.stdout.readline())]
            program.kill()
            numbers += [int(line) for line in program.stdout.readlines()]

    assert len(numbers) == len(set(numbers))
    with open_history(tmp_path, []) as history:
        assert len(all_results(history)) >= len(numbers)


@pytest.mark.parametrize(
    ("damage", "said"),
    [
        (
            "PRAGMA user_version = -3",
            f"expected a history of version {NEWEST} or older, found version -3",
        ),
        (
            "PRAGMA user_version = 16777223",
            f"expected a history of version {NEWEST} or older, found version 16777223",
        ),
        ("PRAGMA user_version = 0", "expected a history, found one without a version"),
        (
            "PRAGMA user_version = 3",
            "expected the tables of a history of version 3, found others",
        ),
        (
            "DROP TABLE setting",
            f"expected the tables of a history of version {NEWEST}, found others",
        ),
    ],
)
def test_a_history_with_a_damaged_version_or_schema_is_damaged(
    tmp_path: Path, damage: str, said: str
) -> None:
    open_history(tmp_path, []).close()
    change(tmp_path / FILE, damage)
    before = (tmp_path / FILE).read_bytes()

    with pytest.raises(DamagedError) as refused:
        open_history(tmp_path, [])

    assert str(refused.value) == f"{tmp_path / FILE}: {said}"
    assert (tmp_path / FILE).read_bytes() == before


def test_a_version_with_the_columns_of_a_later_one_is_damaged(tmp_path: Path) -> None:
    path = tmp_path / FILE
    with closing(sqlite3.connect(path, isolation_level=None)) as db:
        for step in (step for steps in MIGRATIONS[:3] for step in steps):
            if isinstance(step, str):
                db.execute(step)
        db.execute("PRAGMA user_version = 2")

    with pytest.raises(DamagedError) as refused:
        open_history(tmp_path, [])

    assert str(refused.value) == (
        f"{path}: expected the tables of a history of version 2, found others"
    )


@pytest.mark.parametrize(
    ("statements", "said"),
    [
        (("CREATE TABLE note (text)",), "expected a history, found a database of something else"),
        (
            ("CREATE TABLE note (text)", "PRAGMA user_version = -1"),
            f"expected a history of version {NEWEST} or older, found version -1",
        ),
        (
            (MIGRATIONS[0][2], f"PRAGMA user_version = {NEWEST + 1}"),
            f"expected a history of version {NEWEST} or older, found version {NEWEST + 1}, "
            "made by a newer stillfoot",
        ),
    ],
)
def test_a_newer_history_or_another_database_is_not_called_damaged(
    tmp_path: Path, statements: tuple[str, ...], said: str
) -> None:
    change(tmp_path / FILE, *statements)

    with pytest.raises(StoreError) as refused:
        open_history(tmp_path, [])

    assert not isinstance(refused.value, DamagedError)
    assert str(refused.value) == f"{tmp_path / FILE}: {said}"
