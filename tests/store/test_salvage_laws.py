"""What holds for every damaged history: the salvaged one is whole, and has what was untouched."""

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from random import Random

import pytest

from engine.salvage.salvage import salvage
from engine.store import ledger, open_history
from engine.store.history import FILE
from engine.store.repetitions import read_results
from tests.store.damages import KINDS, touched
from tests.store.longer import PAGE, make_longer, page_of, pages_of
from tests.stored import dump

REFERENCES = {"sitting", "trial", "block", "rig", "definition", "fixed"}
"""Columns of a repetition that change where something else is lost."""


@dataclass(frozen=True)
class Known:
    """An undamaged history, and the pages on which its rows lie, from 0."""

    data: bytes
    rows: dict[int, dict[str, object]]
    row_pages: dict[int, int]
    traces: dict[int, bytes]
    trace_pages: dict[int, set[int]]


def rows_of(file: Path) -> dict[int, dict[str, object]]:
    """Repetitions of a history by number: their cells by column."""
    with closing(sqlite3.connect(file)) as db:
        db.row_factory = sqlite3.Row
        return {row["id"]: dict(row) for row in db.execute("SELECT * FROM repetition")}


def traces_of(file: Path) -> dict[int, bytes]:
    """Packed traces of a history by the number of their repetition."""
    with closing(sqlite3.connect(file)) as db:
        return dict(db.execute("SELECT repetition, packed FROM trace"))


@pytest.fixture(scope="module")
def known(tmp_path_factory: pytest.TempPathFactory) -> Known:
    """A history whose tables have several pages each."""
    folder = tmp_path_factory.mktemp("longer")
    make_longer(folder)
    data = (folder / FILE).read_bytes()
    rows, traces = rows_of(folder / FILE), traces_of(folder / FILE)
    found = {number: page_of(data, str(row["at_utc"]).encode()) for number, row in rows.items()}
    spread = {number: pages_of(data, packed) for number, packed in traces.items()}
    return Known(
        data,
        rows,
        {number: page for number, page in found.items() if page is not None},
        traces,
        {number: pages for number, pages in spread.items() if pages is not None},
    )


def test_the_pages_of_most_repetitions_are_known(known: Known) -> None:
    assert len(known.row_pages) >= 60
    assert len(set(known.row_pages.values())) >= 12
    assert len(known.trace_pages) >= 12


@pytest.mark.parametrize("seed", range(5))
@pytest.mark.parametrize("kind", KINDS)
def test_what_is_untouched_is_carried_over(
    tmp_path: Path, known: Known, kind: str, seed: int
) -> None:
    damaged, target = tmp_path / "damaged.sqlite3", tmp_path / FILE
    data = bytearray(known.data)
    KINDS[kind](data, Random(seed))
    damaged.write_bytes(data)
    bad = set(touched(known.data, bytes(data)))

    loss = salvage(damaged, target, [])

    assert damaged.read_bytes() == data
    assert sorted(one.name for one in tmp_path.iterdir()) == [damaged.name, target.name]
    found, traces = rows_of(target), traces_of(target)
    for number, page in known.row_pages.items():
        if page not in bad:
            assert number in found, f"{kind} {seed}: repetition {number} is lost"
            assert differing(known.rows[number], found[number]) == set(), f"{kind} {seed}"
    for number, pages in known.trace_pages.items():
        if not pages & bad and number in found:
            assert traces.get(number) == known.traces[number], f"{kind} {seed}: trace {number}"
    lost = set(known.rows) - set(found)
    if kind in ("zeros", "cut"):
        assert loss.is_open or loss.repetitions == len(lost), f"{kind} {seed}"
        assert set(found) <= set(known.rows), f"{kind} {seed}"
    assert set(found) - set(known.rows) == set() or bad
    check_whole(target)


def differing(before: dict[str, object], after: dict[str, object]) -> set[str]:
    """Columns of a row that differ, without those that follow from the loss of other rows."""
    return {name for name in before if before[name] != after[name]} - REFERENCES


def check_whole(file: Path) -> None:
    """A history passes SQLite's checks, opens, and has the ledger of its repetitions."""
    with closing(sqlite3.connect(file)) as db:
        assert db.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert db.execute("PRAGMA foreign_key_check").fetchall() == []
    before = dump(file)
    with open_history(file.parent, []) as history:
        history.write(lambda db: ledger.rebuild(db, read_results(db)))
    assert dump(file) == before


@pytest.mark.parametrize("place", range(0, 13, 2))
def test_a_lost_page_of_repetitions_takes_only_those_on_it(
    tmp_path: Path, known: Known, place: int
) -> None:
    damaged, target = tmp_path / "damaged.sqlite3", tmp_path / FILE
    page = sorted(set(known.row_pages.values()))[place]
    damaged.write_bytes(without(known.data, page))

    loss = salvage(damaged, target, [])

    found = rows_of(target)
    lost = set(known.rows) - set(found)
    assert {n for n, where in known.row_pages.items() if where == page} == lost & set(
        known.row_pages
    )
    assert (loss.repetitions, loss.is_open) == (len(lost), False)
    assert all(differing(known.rows[number], row) == set() for number, row in found.items())


@pytest.mark.parametrize("table", ["repetition", "trace"])
def test_a_lost_root_loses_only_the_way_to_its_rows(
    tmp_path: Path, known: Known, table: str
) -> None:
    damaged, target, whole = (tmp_path / f"{name}.sqlite3" for name in ("damaged", "new", "whole"))
    whole.write_bytes(known.data)
    with closing(sqlite3.connect(whole)) as db:
        statement = "SELECT rootpage FROM sqlite_master WHERE name = ?"
        root = int(db.execute(statement, (table,)).fetchone()[0])
    damaged.write_bytes(without(known.data, root - 1))

    loss = salvage(damaged, target, [])

    assert (loss.repetitions, loss.settings, loss.others) == (0, (), {})
    assert traces_of(target) == known.traces
    found = rows_of(target)
    assert not any(differing(row, found[number]) for number, row in known.rows.items())


def without(data: bytes, page: int) -> bytes:
    """A file with one page zeroed, by its number from 0."""
    return data[: page * PAGE] + bytes(PAGE) + data[(page + 1) * PAGE :]
