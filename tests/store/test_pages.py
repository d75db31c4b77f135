"""Pages of a SQLite file as they are read without SQLite: what SQLite itself reads of them.

The file format is that of https://www.sqlite.org/fileformat2.html.
"""

import io
import sqlite3
from contextlib import closing
from pathlib import Path
from random import Random

import pytest

from engine.salvage.btree import Cell
from engine.salvage.pages import Gap, Pages
from engine.salvage.records import RecordError, decode, varint
from engine.salvage.shapes import Column, Shape, shapes_of
from engine.store.history import FILE
from tests.store.longer import PAGE, make_longer

HERE = Path(__file__).parent
KEYED = Shape(
    "t",
    (
        Column("id", "INTEGER", needed=False, added=True, is_row_id=True),
        Column("value", "TEXT", needed=True, added=False, is_row_id=False),
    ),
    has_row_id=True,
)
Rows = list[tuple[object, ...]]


@pytest.fixture(scope="module")
def longer(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A history whose tables have several pages each."""
    folder = tmp_path_factory.mktemp("longer")
    make_longer(folder)
    return folder / FILE


def opened(data: bytes) -> Pages:
    """Pages of a file with these bytes."""
    return Pages(io.BytesIO(data), len(data))


def read(file: Path) -> dict[str, Rows]:
    """All rows of all tables, as they are read here; columns that were added since are filled."""
    with closing(sqlite3.connect(file)) as db:
        shapes = shapes_of(db)
        added = {
            name: [row[4] for row in db.execute(f"SELECT * FROM pragma_table_info('{name}')")]
            for name in shapes
        }
        defaults = {
            text: db.execute(f"SELECT {text}").fetchone()[0]
            for texts in added.values()
            for text in texts
            if text is not None
        }
    pages = opened(file.read_bytes())
    tables: dict[str, Rows] = {}
    for name, shape in shapes.items():
        rows: Rows = []
        for found in pages.rows(shape):
            assert isinstance(found, Cell), f"{name}: {found}"
            missing = [defaults.get(text) for text in added[name][len(found.values) :]]
            rows.append((*found.values, *missing))
        tables[name] = rows
    pages.mark_indexes()
    assert list(pages.orphans()) == []
    assert (pages.free_is_whole, pages.unread) == (True, 0)
    return tables


def selected(file: Path) -> dict[str, Rows]:
    """All rows of all tables, as SQLite reads them."""
    with closing(sqlite3.connect(file)) as db:
        return {name: db.execute(f"SELECT * FROM {name}").fetchall() for name in shapes_of(db)}


def test_a_history_has_the_rows_that_sqlite_reads(longer: Path) -> None:
    assert read(longer) == selected(longer)


def test_a_history_of_version_1_has_the_rows_that_sqlite_reads() -> None:
    file = HERE / "version1.sqlite3"

    assert read(file) == selected(file)


def test_the_version_is_read_though_the_first_bytes_of_the_file_are_damaged() -> None:
    data = bytes(16) + (HERE / "version1.sqlite3").read_bytes()[16:]

    assert Pages(io.BytesIO(data), len(data)).version == 1


def test_what_reads_pages_for_long_tells_of_it(longer: Path) -> None:
    data, calls = longer.read_bytes(), 0

    def tell() -> None:
        nonlocal calls
        calls += 1

    pages = Pages(io.BytesIO(data), len(data), tell)
    pages.longest_orphan()
    before = calls
    pages.mark_indexes()

    assert 0 < before < calls


@pytest.mark.parametrize("size", [512, 4096, 65536])
def test_values_of_every_size_are_those_that_sqlite_reads(tmp_path: Path, size: int) -> None:
    file, rng = tmp_path / "any.sqlite3", Random(1)
    with closing(sqlite3.connect(file)) as db, db:
        db.execute(f"PRAGMA page_size = {size}")
        db.execute("CREATE TABLE a (id INTEGER PRIMARY KEY, n INTEGER, r REAL, t TEXT, b BLOB)")
        db.execute("CREATE TABLE b (k TEXT PRIMARY KEY, v BLOB) WITHOUT ROWID")
        for bits in range(64):
            for sign in (-1, 1):
                length = rng.choice((0, 1, 50, 500, 5_000, 70_000))
                number = sign * (2**bits - 1)
                blob = rng.randbytes(length)
                row = (sign * bits * 10**15 + bits, number, number / 7, "ü" * (length // 9), blob)
                db.execute("INSERT OR IGNORE INTO a VALUES (?, ?, ?, ?, ?)", row)
                db.execute("INSERT INTO b VALUES (?, ?)", (f"{bits}{'k' * bits * 40}{sign}", blob))
        db.execute("INSERT INTO a VALUES (5, NULL, NULL, NULL, NULL)")
        db.execute("DELETE FROM a WHERE id % 5 = 1")

    assert read(file) == selected(file)


def test_numbers_of_the_file_format_are_read() -> None:
    # Section 1.6, "varint": seven bits a byte, the ninth byte with all eight of its bits.
    assert varint(b"\x7f", 0) == (127, 1)
    assert varint(b"\x81\x00", 0) == (128, 2)
    assert varint(b"\xff" * 9, 0) == (-1, 9)
    with pytest.raises(RecordError):
        varint(b"\x81", 0)


def test_records_that_do_not_fill_their_bytes_are_refused() -> None:
    assert decode(b"\x03\x01\x17\x05hello") == (5, "hello")
    for wrong in (
        b"",
        b"\x03\x01\x17\x05hell",
        b"\x03\x01\x17\x05hello!",
        b"\x02\x0a",
        b"\x09\x01",
    ):
        with pytest.raises(RecordError):
            decode(wrong)


def test_bytes_that_are_no_text_become_replacement_characters() -> None:
    assert decode(b"\x02\x13a\xffb") == ("a\ufffdb",)


def test_a_tree_that_bites_its_tail_is_left_after_one_turn(tmp_path: Path) -> None:
    file = tmp_path / "any.sqlite3"
    with closing(sqlite3.connect(file)) as db, db:
        db.execute("PRAGMA page_size = 512")
        db.execute("CREATE TABLE t (id INTEGER PRIMARY KEY, value TEXT NOT NULL)")
        db.executemany("INSERT INTO t VALUES (?, ?)", [(n, "x" * 100) for n in range(1, 40)])
    data = bytearray(file.read_bytes())
    # The rightmost child of the root, page 2, is the root itself.
    data[512 + 8 : 512 + 12] = (2).to_bytes(4, "big")

    found = list(opened(bytes(data)).rows(KEYED))

    keys = [one.key for one in found if isinstance(one, Cell)]
    assert keys == list(range(1, len(keys) + 1))
    assert len(keys) > 20
    assert found[-1] == Gap(keys[-1] + 1, None, is_lost_way=True)  # type: ignore[operator]


def test_a_payload_on_pages_in_a_circle_is_no_row(tmp_path: Path) -> None:
    file = tmp_path / "any.sqlite3"
    with closing(sqlite3.connect(file)) as db, db:
        db.execute("PRAGMA page_size = 512")
        db.execute("CREATE TABLE t (id INTEGER PRIMARY KEY, value TEXT NOT NULL)")
        db.executemany("INSERT INTO t VALUES (?, ?)", [(1, "a"), (2, "x" * 5000), (3, "b")])
    data = bytearray(file.read_bytes())
    # Page 3 is the first of the overflow pages: the next after it is itself.
    data[1024:1028] = (3).to_bytes(4, "big")

    found = list(opened(bytes(data)).rows(KEYED))

    assert [one.key for one in found if isinstance(one, Cell)] == [1, 3]
    assert Gap(2, 3) in found


@pytest.mark.parametrize("length", [0, 1, 99, 100, 511, 512, 5000, 40_000])
def test_bytes_by_chance_have_no_rows(length: int) -> None:
    pages = opened(Random(length).randbytes(length))

    assert pages.schema == ()
    assert list(pages.rows(KEYED)) == [Gap(None, None, is_lost_way=True)]
    assert list(pages.orphans()) == []


def test_the_page_size_is_told_by_the_pages_where_the_header_is_lost(longer: Path) -> None:
    data = bytearray(longer.read_bytes())
    for told in (0, 512, 4096):
        data[16:18] = told.to_bytes(2, "big")
        with closing(sqlite3.connect(longer)) as db:
            shape = shapes_of(db)["repetition"]

        found = list(opened(bytes(data)).rows(shape))

        assert len(found) > 60
        assert not any(isinstance(one, Gap) for one in found)


def test_a_key_that_is_out_of_order_is_no_row(tmp_path: Path) -> None:
    file = tmp_path / "any.sqlite3"
    with closing(sqlite3.connect(file)) as db, db:
        db.execute(f"PRAGMA page_size = {PAGE}")
        db.execute("CREATE TABLE t (id INTEGER PRIMARY KEY, value TEXT NOT NULL)")
        db.executemany("INSERT INTO t VALUES (?, ?)", [(n, f"row {n}") for n in range(1, 9)])
    data = file.read_bytes()
    # A cell is its payload's length, its key, and a header of three bytes before the text.
    at = data.index(b"row 4") - 4
    assert data[at] == 4

    found = list(opened(data[:at] + b"\x64" + data[at + 1 :]).rows(KEYED))

    assert [one.key for one in found if isinstance(one, Cell)] == [1, 2, 3, 5, 6, 7, 8]
    assert found[3] == Gap(4, 5)
