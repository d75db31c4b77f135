"""A history as CSV and back: nothing is lost, what is there is kept, what is half done is not."""

import csv
import shutil
import sqlite3
from contextlib import closing
from itertools import pairwise
from pathlib import Path

import pytest

from engine.store import History, StoreError
from engine.store.cores import on_cores
from engine.store.csv_in import import_history
from engine.store.history import FILE
from tests.nobody import as_nobody
from tests.store.exported import (
    FAR,
    ODD,
    dump,
    export,
    failing,
    here,
    names,
    read_back,
    silent,
)

HERE = Path(__file__).parent


def cells(path: Path) -> list[list[str]]:
    """The rows of a file."""
    with path.open(encoding="utf-8", newline="") as lines:
        return list(csv.reader(lines, strict=True))


def test_a_history_reads_back_to_the_very_same(data: Path, exported: Path, tmp_path: Path) -> None:
    count = read_back(tmp_path / "new" / "data", exported)

    assert count == 9
    assert dump(tmp_path / "new" / "data") == dump(data)
    assert names(tmp_path / "new" / "data") == [FILE]


def test_a_history_of_version_1_reads_back_to_the_very_same(tmp_path: Path) -> None:
    old, new = tmp_path / "old", tmp_path / "new"
    old.mkdir()
    shutil.copy(HERE / "version1.sqlite3", old / FILE)
    History(old).close()

    export(old, tmp_path / "csv")
    read_back(new, tmp_path / "csv")

    assert dump(new) == dump(old)


def test_a_history_of_nothing_reads_back(tmp_path: Path) -> None:
    old, new = tmp_path / "old", tmp_path / "new"
    History(old).close()

    count = export(old, tmp_path / "csv")
    read_back(new, tmp_path / "csv")

    assert count == 0
    assert dump(new) == dump(old)


def test_on_other_cores_it_is_the_same(data: Path, exported: Path, tmp_path: Path) -> None:
    with History(data) as history:
        history.export(tmp_path / "csv", lambda _: on_cores(1), silent)
    import_history(tmp_path / "new", tmp_path / "csv", lambda _: on_cores(1), silent)

    files = names(exported)
    assert names(tmp_path / "csv") == files
    assert all(
        (tmp_path / "csv" / one).read_bytes() == (exported / one).read_bytes() for one in files
    )
    assert dump(tmp_path / "new") == dump(data)


def test_the_files_are_csv_as_rfc_4180_has_it(exported: Path) -> None:
    """Lines end with CR LF, quotes are doubled, every record has as many fields as the header."""
    for path in exported.iterdir():
        raw, rows = path.read_bytes(), cells(path)

        assert raw.decode("utf-8").endswith("\r\n")
        assert {len(row) for row in rows} == {len(rows[0])}
        assert raw.count(b"\r\n") >= len(rows)
    raw = (exported / "changes.csv").read_bytes().decode("utf-8")
    assert '"a ""quoted"", split\r\nnote with a cömma\n"\r\n' in raw
    assert cells(exported / "changes.csv")[1][-1] == ODD


def test_the_headers_carry_units(exported: Path) -> None:
    heads = {path.name: cells(path)[0] for path in exported.iterdir()}

    assert {"took (s)", "asked (points)", "target (%)", "dark (ns)"} <= set(
        heads["repetitions.csv"]
    )
    assert heads["drive-blips.csv"][4:7] == ["onset (s)", "peak (%)", "dip (points)"]
    pedals = ["brake", "throttle", "clutch"]
    assert heads["traces-000001-counts.csv"][1:] == [
        "time (ns)",
        *(f"{p} (counts)" for p in pedals),
    ]
    assert heads["traces-000001-percent.csv"][1:] == ["time (ns)", *(f"{p} (%)" for p in pedals)]
    assert cells(exported / "measure-names.csv") == [
        *(["id", "name", "unit"], ["1", "dip", "points"]),
        *(["2", "rebound", "points"], ["3", "settle", "s"]),
    ]


def test_a_trace_has_a_row_where_something_changes_and_its_last(exported: Path) -> None:
    rows = [row for row in cells(exported / "traces-000001-counts.csv")[1:] if row[0] == "1"]

    pedals = [row[2:] for row in rows]
    assert all(one != other for one, other in pairwise(pedals[:-1]))
    assert {int(row[1]) % 1_000_000 for row in rows} == {0}
    assert 20 < len(rows) < 200
    assert {row[4] for row in rows} == {""}


def test_each_bundle_of_repetitions_has_a_file_of_its_own(exported: Path) -> None:
    found = cells(exported / "traces-000501-counts.csv")[1:]

    assert {row[0] for row in found} == {str(FAR)}


def test_what_is_kept_is_told_to_the_last_digit(exported: Path) -> None:
    rows = cells(exported / "measures.csv")

    assert rows[1:4] == [
        *(["1", "dip", "0.30000000000000004"], ["1", "rebound", "1e-17"], ["1", "settle", ""])
    ]


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
        export(data, folder)

    assert str(refused.value) == f"{folder}: expected a new or an empty folder, found {found}"
    mine = folder if folder.is_file() else folder / "note.txt"
    assert mine.read_bytes() == b"mine"


def test_an_empty_folder_may_be_there(data: Path, tmp_path: Path) -> None:
    (tmp_path / "csv").mkdir()

    export(data, tmp_path / "csv")

    assert (tmp_path / "csv" / "about.csv").exists()


def test_what_a_killed_export_left_is_in_nobodys_way(data: Path, tmp_path: Path) -> None:
    left = tmp_path / ".stillfoot-unfinished"
    left.mkdir()
    (left / "repetitions.csv").write_text("half")

    export(data, tmp_path)

    assert not left.exists()
    assert "about.csv" in names(tmp_path)


def test_a_folder_that_may_not_be_written_to_is_refused(data: Path, tmp_path: Path) -> None:
    with History(data) as history, as_nobody(), pytest.raises(StoreError) as refused:
        history.export(tmp_path / "csv", here, silent)

    assert str(refused.value) == (
        f"{tmp_path / 'csv'}: expected a folder to write to, found: Permission denied"
    )


class Stopped(Exception):
    """Work that is ended in the middle."""


@pytest.mark.parametrize("there", [False, True])
def test_what_is_stopped_half_way_leaves_nothing(data: Path, tmp_path: Path, there: bool) -> None:
    folder = tmp_path / "csv"
    if there:
        folder.mkdir()

    with History(data) as history, pytest.raises(Stopped):
        history.export(folder, failing(Stopped()), silent)

    assert names(tmp_path) == (["csv"] if there else [])
    assert not there or names(folder) == []


def test_a_full_disk_is_said_in_one_line_and_leaves_nothing(data: Path, tmp_path: Path) -> None:
    full = failing(OSError(28, "No space left on device"))

    with History(data) as history, pytest.raises(StoreError) as refused:
        history.export(tmp_path / "csv", full, silent)

    assert str(refused.value) == (
        f"{tmp_path / 'csv'}: expected a folder to write to, found: No space left on device"
    )
    assert names(tmp_path) == []


def test_a_history_goes_on_after_it_was_exported(data: Path, tmp_path: Path) -> None:
    shutil.copytree(data, tmp_path / "data")

    with History(tmp_path / "data") as history:
        history.export(tmp_path / "csv", here, silent)
        history.keep_setting("sound", False)

        assert history.setting("sound") is False


@pytest.mark.parametrize(
    ("damage", "said"),
    [
        (
            "repetition SET took = 'long' WHERE id = 1",
            "repetition 1: took: expected a number or nothing, found 'long'",
        ),
        ("trial SET pairs = 99", "trial 1: pairs: expected a whole number from 6 to 16, found 99"),
        (
            "change SET what = 'mood'",
            "change 1: what: expected one of 'foot position', 'pedals', 'shoes', found 'mood'",
        ),
        (
            "trace SET packed = x'5346433100' WHERE repetition = 1",
            "repetition 1: a packed trace cannot be read: Compressed data ended before the "
            "end-of-stream marker was reached",
        ),
    ],
)
def test_a_damaged_history_is_not_exported(
    data: Path, tmp_path: Path, damage: str, said: str
) -> None:
    shutil.copytree(data, tmp_path / "data")
    with closing(sqlite3.connect(tmp_path / "data" / FILE)) as other, other:
        other.execute(f"UPDATE {damage}")

    with pytest.raises(StoreError) as refused:
        export(tmp_path / "data", tmp_path / "csv")

    assert str(refused.value) == f"{tmp_path / 'data' / FILE}: {said}"
    assert not (tmp_path / "csv").exists()


def test_it_tells_how_far_it_has_come(data: Path, tmp_path: Path) -> None:
    told: list[tuple[int, int]] = []

    with History(data) as history:
        history.export(tmp_path / "csv", here, lambda *how: told.append(how))

    done, of = zip(*told, strict=True)
    assert list(done) == list(range(1, len(told) + 1))
    assert set(of) == {len(told)}
