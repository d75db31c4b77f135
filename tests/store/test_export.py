"""The history written as CSV: everything but traces, for reading elsewhere."""

import gzip
import sqlite3
from contextlib import closing
from itertools import pairwise
from pathlib import Path

import pytest

from engine.store import StoreError, open_history
from engine.store.export import HARMLESS, PART, TRACES, export, harmless
from engine.store.headers import header_of
from engine.store.history import FILE
from engine.store.repetitions import add_repetition
from engine.store.traces import trace_of
from tests.full_disk import no_file_longer
from tests.store.whole import FORMULA, ODD, names, rows_of
from tests.unprivileged import unprivileged

TABLES = [
    *("calibration", "change", "clean_row", "day", "drive", "drive_blip", "guess", "keeping"),
    *("measure", "progress", "repetition", "setting", "sitting", "trial"),
]


def silent(_done: int, _of: int) -> None:
    """Ignore the progress."""


def written(data: Path, folder: Path, traces: bool = False) -> int:
    """Write a history out."""
    with open_history(data, []) as history:
        return export(history, folder, silent, traces=traces)


@pytest.fixture(scope="module")
def exported(data: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What is written of a history with something of everything."""
    folder = tmp_path_factory.mktemp("exported") / "csv"
    written(data, folder)
    return folder


@pytest.fixture(scope="module")
def traces(data: Path, tmp_path_factory: pytest.TempPathFactory) -> list[list[str]]:
    """The rows of its traces, the header first."""
    folder = tmp_path_factory.mktemp("traces")
    written(data, folder, traces=True)
    with gzip.open(folder / TRACES, "rt", encoding="utf-8", newline="") as lines:
        return [line.rstrip("\r\n").split(",") for line in lines]


def test_each_table_is_a_file_with_every_row_of_it(data: Path, exported: Path) -> None:
    with closing(sqlite3.connect(data / FILE)) as db:
        rows = {name: db.execute(f"SELECT count(*) FROM {name}").fetchone()[0] for name in TABLES}

    assert names(exported) == [f"{name}.csv" for name in TABLES]
    assert {name: len(rows_of(exported / f"{name}.csv")) - 1 for name in TABLES} == rows
    assert min(rows.values()) > 0


def test_it_says_how_many_repetitions_there_are(data: Path, tmp_path: Path) -> None:
    assert written(data, tmp_path / "csv") == 9


def test_the_files_are_csv_as_rfc_4180_has_it(exported: Path) -> None:
    """Lines end with CR LF, quotes are doubled, every record has as many fields as the header."""
    for path in exported.iterdir():
        raw, rows = path.read_bytes(), rows_of(path)

        assert raw.decode("utf-8").endswith("\r\n")
        assert {len(row) for row in rows} == {len(rows[0])}
        assert raw.count(b"\r\n") >= len(rows)
    text = (exported / "change.csv").read_bytes().decode("utf-8")
    assert '"a ""quoted"", split\r\nnote with a cömma\n"\r\n' in text
    assert rows_of(exported / "change.csv")[1][-1] == ODD


def test_the_headers_carry_units(exported: Path) -> None:
    heads = {path.name: rows_of(path)[0] for path in exported.iterdir()}

    assert {"took (s)", "asked (points)", "target (%)", "dark (ns)"} <= set(heads["repetition.csv"])
    assert heads["drive_blip.csv"][4:7] == ["onset (s)", "peak (%)", "dip (points)"]
    assert heads["guess.csv"] == [
        *("repetition", "value (in the unit of the measure)", "measure", "unit")
    ]


def test_every_column_of_the_history_has_a_header(data: Path) -> None:
    with closing(sqlite3.connect(data / FILE)) as db:
        columns = [
            (name, row[1])
            for name in TABLES
            for row in db.execute(f"PRAGMA table_info({name})").fetchall()
        ]

    missing = [one for one in columns if one != ("measure", "name") and not header_of(*one)]

    assert missing == []
    assert len(columns) > 90


def test_a_measure_is_told_by_name_with_its_unit_to_the_last_digit(exported: Path) -> None:
    rows = rows_of(exported / "measure.csv")

    assert rows[:4] == [
        ["repetition", "measure", "unit", "value (in the unit of the measure)"],
        ["1", "dip", "points", "0.30000000000000004"],
        ["1", "rebound", "points", "1e-17"],
        ["1", "settle", "s", ""],
    ]


def test_a_text_that_a_spreadsheet_would_run_is_made_harmless(exported: Path) -> None:
    notes = [row[-1] for row in rows_of(exported / "change.csv")]

    assert notes == ["note", ODD, HARMLESS + FORMULA]


@pytest.mark.parametrize("first", ["=", "+", "-", "@", "\t", "\r", "\n"])
def test_a_formula_is_shown_and_a_number_stays_a_number(first: str) -> None:
    assert harmless(f"{first}1") == f"'{first}1"
    assert harmless(f"1{first}") == f"1{first}"
    assert [harmless(one) for one in (-1.5, -3, None, "")] == [-1.5, -3, None, ""]


def test_traces_are_there_only_where_they_are_asked_for(exported: Path) -> None:
    assert TRACES not in names(exported)


def test_traces_are_percent_and_counts_with_their_units(traces: list[list[str]]) -> None:
    pedals = ("brake", "throttle", "clutch")

    assert traces[0] == [
        *("repetition", "time (ns)"),
        *(f"{pedal} ({unit})" for unit in ("%", "counts") for pedal in pedals),
    ]
    assert {row[0] for row in traces[1:]} == {"1", "3", "4", "5", "6", "7", "9"}


def test_a_trace_has_a_row_where_something_changes_and_its_last(traces: list[list[str]]) -> None:
    rows = [row for row in traces if row[0] == "1"]

    pedals = [row[2:] for row in rows]
    assert all(one != other for one, other in pairwise(pedals[:-1]))
    assert {int(row[1]) % 1_000_000 for row in rows} == {0}
    assert 20 < len(rows) < 200


def test_a_cell_is_empty_where_there_is_no_clutch_or_the_counts_are_not_known(
    traces: list[list[str]],
) -> None:
    filled = {row[0]: [bool(cell) for cell in row[2:]] for row in traces[1:]}

    assert filled["1"] == [True, True, False] * 2
    assert filled["3"] == [True, True, True] * 2
    assert filled["4"] == [True, True, False] + [False] * 3


def test_percent_and_counts_are_those_of_the_history(data: Path, traces: list[list[str]]) -> None:
    with open_history(data, []) as history:
        trace = trace_of(history, 3)
    assert trace is not None
    trace = trace.changes()
    assert trace.counts is not None
    assert trace.clutch is not None

    rows = [row for row in traces if row[0] == "3"]

    assert [float(row[4]) for row in rows] == trace.clutch.tolist()
    assert [[int(cell) for cell in row[5:]] for row in rows] == trace.counts.T.tolist()


def test_the_same_history_gives_the_same_bytes(data: Path, tmp_path: Path) -> None:
    for name in ("one", "other"):
        written(data, tmp_path / name, traces=True)

    files = names(tmp_path / "one")
    assert [(tmp_path / "one" / one).read_bytes() for one in files] == [
        (tmp_path / "other" / one).read_bytes() for one in files
    ]


def test_a_history_of_nothing_is_headers_alone(tmp_path: Path) -> None:
    open_history(tmp_path / "data", []).close()

    count = written(tmp_path / "data", tmp_path / "csv", traces=True)

    assert count == 0
    assert names(tmp_path / "csv") == sorted([*(f"{name}.csv" for name in TABLES), TRACES])
    assert len(rows_of(tmp_path / "csv" / "repetition.csv")) == 1


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

    assert names(tmp_path) == [f"{name}.csv" for name in TABLES]


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


def test_a_trace_that_cannot_be_read_is_named_and_nothing_is_left(tmp_path: Path) -> None:
    from tests.made import record

    with open_history(tmp_path / "data", []) as history:
        add_repetition(history, record())
    with closing(sqlite3.connect(tmp_path / "data" / FILE)) as db, db:
        db.execute("UPDATE trace SET packed = x'53464331'")

    with pytest.raises(StoreError) as refused:
        written(tmp_path / "data", tmp_path / "csv", traces=True)

    path = tmp_path / "data" / FILE
    assert str(refused.value).startswith(f"{path}: repetition 1: a packed trace cannot be read")
    assert names(tmp_path) == ["data"]


def test_it_tells_how_far_it_has_come(data: Path, tmp_path: Path) -> None:
    said: list[tuple[int, int]] = []

    with open_history(data, []) as history:
        export(history, tmp_path / "csv", lambda *both: said.append(both), traces=True)

    steps = len(TABLES) + 7
    assert said == [(done, steps) for done in range(1, steps + 1)]
