"""The history written as CSV: everything but traces, for reading elsewhere."""

import gzip
import sqlite3
from contextlib import closing
from itertools import pairwise
from pathlib import Path

import pytest

from engine.practice.results import Purpose
from engine.store import open_history
from engine.store.export import HARMLESS, TRACES, harmless
from engine.store.headers import file_of, header_of
from engine.store.history import FILE
from engine.store.repetitions import add_repetition
from engine.store.traces import trace_of
from tests.made import record
from tests.store.copies import TABLES, written
from tests.store.whole import FORMULA, ODD, names, rows_of


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

    assert names(exported) == sorted(file_of(name) for name in TABLES)
    assert {name: len(rows_of(exported / file_of(name))) - 1 for name in TABLES} == rows
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
    assert '"a ""quoted"", split\r\nnote with a cömma\n",,,\r\n' in text
    assert rows_of(exported / "change.csv")[1][5] == ODD


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
    notes = [row[5] for row in rows_of(exported / "change.csv")]

    assert notes == ["note", ODD, HARMLESS + FORMULA, ""]


def test_a_change_of_the_brakes_scale_carries_the_old_and_the_new_ends(exported: Path) -> None:
    _, *marked, scale = rows_of(exported / "change.csv")

    assert [row[6:] for row in marked] == [["", "", ""]] * 2
    assert scale[3:] == [
        *("brake scale", "9", ""),
        "[[-0.96875, 0.9], [0.96875, -0.75], [0.01, 0.99]]",
        "[[-0.96875, 0.75], [0.96875, -0.75], [0.01, 0.99]]",
        "",
    ]


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
        "shift (1 is down)",
    ]
    assert {row[0] for row in traces[1:]} == {"1", "3", "4", "5", "6", "7", "9"}


def test_a_trace_has_a_row_where_something_changes_and_its_last(traces: list[list[str]]) -> None:
    rows = [row for row in traces if row[0] == "1"]

    pedals = [row[2:] for row in rows]
    assert all(one != other for one, other in pairwise(pedals[:-1]))
    assert {int(row[1]) % 1_000_000 for row in rows} == {0}
    assert 20 < len(rows) < 200


def test_a_cell_is_empty_where_there_is_no_clutch_no_shift_button_or_no_counts(
    traces: list[list[str]],
) -> None:
    filled = {row[0]: [bool(cell) for cell in row[2:]] for row in traces[1:]}

    assert filled["1"] == [*[True, True, False] * 2, False]
    assert filled["3"] == [*[True, True, True] * 2, True]
    assert filled["4"] == [True, True, False] + [False] * 4


def test_percent_and_counts_are_those_of_the_history(data: Path, traces: list[list[str]]) -> None:
    with open_history(data, []) as history:
        trace = trace_of(history, 3)
    assert trace is not None
    trace = trace.changes()
    assert trace.counts is not None
    assert trace.clutch is not None

    rows = [row for row in traces if row[0] == "3"]

    assert [float(row[4]) for row in rows] == trace.clutch.tolist()
    assert [[int(cell) for cell in row[5:8]] for row in rows] == trace.counts.T.tolist()
    assert trace.shift is not None
    assert [float(row[8]) for row in rows] == trace.shift.tolist()
    assert {row[8] for row in rows} == {"0", "1"}


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
    assert names(tmp_path / "csv") == sorted([*map(file_of, TABLES), TRACES])
    assert len(rows_of(tmp_path / "csv" / "repetition.csv")) == 1


def test_purposes_are_written_in_the_words_of_the_screens(tmp_path: Path) -> None:
    """What an older version stored is read, and written as it is called today."""
    data, folder = tmp_path / "data", tmp_path / "csv"
    with open_history(data, []) as history:
        for purpose in Purpose:
            add_repetition(history, record(why=purpose))
    with closing(sqlite3.connect(data / FILE)) as db:
        stored = [why for (why,) in db.execute("SELECT why FROM repetition ORDER BY id")]

    written(data, folder)

    head, *rows = rows_of(folder / "repetition.csv")
    assert {"due", "learning", "mixed in"} <= set(stored)
    assert {"check-up", "new", "revision"} <= {row[head.index("why")] for row in rows}
    assert not {"due", "learning", "mixed in"} & {row[head.index("why")] for row in rows}
    assert "session" in head
