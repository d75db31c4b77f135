"""Damage to an export: one line that says where, and nothing is changed."""

import random
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from engine.store import StoreError
from tests.store.exported import (
    change,
    dump,
    export,
    make,
    names,
    read_back,
    refused,
    rows_of,
    write,
)

COUNTS, PERCENT = "traces-000001-counts.csv", "traces-000001-percent.csv"


@pytest.fixture(scope="module")
def written(tmp_path_factory: pytest.TempPathFactory) -> tuple[list[str], Path]:
    """Everything in a history, and the export of it."""
    folder = tmp_path_factory.mktemp("written")
    make(folder / "data")
    export(folder / "data", folder / "csv")
    return dump(folder / "data"), folder / "csv"


@pytest.fixture
def exported(written: tuple[list[str], Path], tmp_path: Path) -> Path:
    """A copy of the export that may be damaged."""
    shutil.copytree(written[1], tmp_path / "csv")
    return tmp_path / "csv"


def outcome(data: Path, folder: Path) -> str:
    """What is said where it is not read; nothing where it is."""
    try:
        read_back(data, folder)
    except StoreError as error:
        return str(error)
    return ""


def cut(path: Path, keep: int) -> None:
    """Cut bytes off the end of a file."""
    path.write_bytes(path.read_bytes()[:keep])


def swapped(path: Path, before: bytes, after: bytes) -> None:
    """Change bytes in a file."""
    raw = path.read_bytes()
    assert before in raw
    path.write_bytes(raw.replace(before, after, 1))


@pytest.mark.parametrize(
    ("damage", "said"),
    [
        (
            lambda csv: (csv / "trials.csv").unlink(),
            "{}/trials.csv: expected a file that can be read, found: No such file or directory",
        ),
        (
            lambda csv: (csv / "about.csv").unlink(),
            "{}/about.csv: expected a file that can be read, found: No such file or directory",
        ),
        (
            lambda csv: swapped(csv / "about.csv", b"format,1", b"format,2"),
            "{}/about.csv: line 2: number: expected format 1, as 2 is of a newer stillfoot, "
            "found '2'",
        ),
        (
            lambda csv: swapped(csv / "about.csv", b"guesses.csv", b"guesses.cvs"),
            "{}/about.csv: line 10: what: expected the name of a file of an export, "
            "found 'guesses.cvs'",
        ),
        (
            lambda csv: write(csv / "about.csv", rows_of(csv / "about.csv")[:-1]),
            "{}/about.csv: expected a row of traces.csv, found none",
        ),
        (
            lambda csv: write(csv / "about.csv", rows_of(csv / "about.csv") * 2),
            "{}/about.csv: line 18: what: expected the name of a file of an export, found 'what'",
        ),
        (
            lambda csv: swapped(csv / "measures.csv", b"value (in", b"value (of"),
            "{}/measures.csv: line 1: column 3: expected 'value (in the unit of the measure)', "
            "found 'value (of the unit of the measure)'",
        ),
        (
            lambda csv: swapped(csv / "drives.csv", b",length (s)", b""),
            "{}/drives.csv: line 1: column 6: expected 'length (s)', found 'nothing'",
        ),
        (
            lambda csv: swapped(csv / "drives.csv", b"(s)", b"(s),more"),
            "{}/drives.csv: line 1: column 7: expected no more columns, found 'more'",
        ),
        (
            lambda csv: swapped(csv / "measures.csv", b"1,dip,", b"1,dip,,"),
            "{}/measures.csv: line 2: expected 3 cells, found 4",
        ),
        (
            lambda csv: cut(csv / "traces.csv", -3),
            "{}/traces.csv: line 8: expected the end of a line, found the end of the file",
        ),
        (
            lambda csv: cut(csv / "traces.csv", -18),
            "{}/traces.csv: expected 7 rows, found 6",
        ),
        (
            lambda csv: cut(csv / "calibrations.csv", 0),
            "{}/calibrations.csv: line 1: expected a header, found nothing",
        ),
        (
            lambda csv: swapped(csv / "changes.csv", "ö".encode(), b"\xf6"),
            "{}/changes.csv: line 3: expected UTF-8, found invalid start byte",
        ),
        (
            lambda csv: swapped(csv / "changes.csv", b'""quoted', b'"quoted'),
            "{}/changes.csv: line 2: expected CSV, found: ',' expected after '\"'",
        ),
        (
            lambda csv: swapped(
                csv / "measures.csv", b"0.30000000000000004", b"0.30000000000000005"
            ),
            None,
        ),
        (
            lambda csv: swapped(csv / "about.csv", COUNTS.encode(), b"traces-001001-counts.csv"),
            "{}/about.csv: expected a row of " + COUNTS + ", found none",
        ),
        (
            lambda csv: write(
                csv / "about.csv",
                [*rows_of(csv / "about.csv"), ["traces-009001-counts.csv", "1", ""]],
            ),
            "{}/about.csv: expected no row of traces-009001-counts.csv, as traces.csv has nothing "
            "in it",
        ),
        (
            lambda csv: change(csv, "traces.csv", 2, "rows", "5"),
            "{}/" + COUNTS + ": line 2: repetition: expected 5 rows of 1, found 104",
        ),
        (
            lambda csv: change(csv, COUNTS, 3, "repetition", "2"),
            "{}/" + COUNTS + ": line 2: repetition: expected 104 rows of 1, found 1",
        ),
    ],
)
def test_damage_to_a_file_is_said_in_one_line(
    exported: Path, damage: Callable[[Path], None], said: str | None
) -> None:
    damage(exported)

    found = refused(exported)

    if said is None:
        assert "expected what was exported (SHA-256 " in found
    else:
        assert found == said.format(exported)


def test_an_export_that_was_changed_on_purpose_is_read_without_its_sum(exported: Path) -> None:
    change(exported, "drives.csv", 2, "name", "morning.csv")

    read_back(exported.parent / "data", exported)

    assert any("'morning.csv'" in line for line in dump(exported.parent / "data"))


@pytest.mark.parametrize("seed", range(3))
def test_any_damage_is_refused_or_changes_nothing(
    written: tuple[list[str], Path], exported: Path, seed: int
) -> None:
    rng = random.Random(seed)
    before, whole = written
    for name in names(whole):
        raw = bytearray((whole / name).read_bytes())
        at = rng.randrange(len(raw))
        raw[at : at + rng.choice([0, 1, 1, 5])] = rng.choice(
            [b"", b'"', b"\n", b",", b"7", b"\xff"]
        )
        (exported / name).write_bytes(raw)
        data = exported.parent / f"of {name}"

        said = outcome(data, exported)

        assert "\n" not in said
        assert data.exists() == (not said)
        assert said or dump(data) == before
        shutil.copy(whole / name, exported / name)
