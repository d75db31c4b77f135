"""Rows of the tables of a SQLite file, read page by page, whether it is damaged or not.

After https://www.sqlite.org/fileformat2.html. Each table is walked from its root; then pages that
no walk reached are read as leaves whose way down to them is lost.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import BinaryIO

from engine.salvage.btree import INTERIOR, MAGIC, TABLE, Cell, Page, PageFile
from engine.salvage.order import ascending
from engine.salvage.records import Value
from engine.salvage.shapes import Shape
from engine.store.backup import Tell, silent

DEEPEST = 20
"""Most levels of a B-tree that SQLite itself reads."""
OFTEN = 20
"""Number of pages that are read between two calls of the function that is told of the work."""
VERSION = 60
"""Offset of the version of the tables in the header of the file, in bytes."""
COUNT, TRUNK, FREE = 28, 32, 36
"""Offsets of the number of pages, of the first page of the freelist and of the length of that in
the header of the file, in bytes."""


@dataclass(frozen=True, slots=True)
class Gap:
    """Range of keys whose rows cannot be read, or only some of them.

    Keys are row ids, or the first values of an index row.
    """

    first: Value
    """Lowest of the keys; None where it is not known."""
    last: Value
    """Highest of the keys; None where it is not known."""
    is_lost_way: bool = False
    """Whether only the way to the rows is known to be lost: they may be on a page of `orphans`."""


Found = Cell | Gap
"""What a walk meets: a row, or a place where rows are missing."""


@dataclass(frozen=True, slots=True)
class Master:
    """One row of the schema of a SQLite file."""

    type: str
    """Sort of the object, such as "table"."""
    name: str
    """Name of the object."""
    root: int
    """Number of its first page."""
    sql: str
    """Statement that made it; empty for an index that SQLite made by itself."""


class Pages:
    """Walks through a SQLite file; each page is read once. Its methods raise OSError."""

    def __init__(self, file: BinaryIO, size: int, tell: Tell = silent) -> None:
        """`file` is open for reading, `size` is its length in bytes.

        `tell` is called now and then while pages are read.
        """
        self._file = PageFile(file, size)
        self._tell = tell
        self._reads = 0
        self._misplaced: set[int] = set()
        self._reached = bytearray(self._file.count)
        self.free_is_whole = self._walk_freelist()
        """Whether all pages that SQLite set free are known, so that what else is unreached is
        lost."""
        self.schema = tuple(self._read_schema())
        """Schema of the file, as far as it can be read."""
        self.unread = max(0, self._file.number_at(COUNT) - self._file.count)
        """Number of pages after the first that cannot be read: those that were cut off, and at the
        end of `orphans` those that make no sense too."""

    @property
    def version(self) -> int:
        """Version of the tables by the header of the file; 0 if that is all zeros."""
        return self._file.number_at(VERSION)

    def rows(self, shape: Shape) -> Iterator[Found]:
        """Rows of a table from its root, in order, and gaps where some cannot be read.

        Values of a row are as the table gives them, without those of columns that it lacks.
        """
        root = next((m.root for m in self.schema if m.type == "table" and m.name == shape.name), 0)
        yield from self._walk(root, _Walk(shape.has_row_id, shape.row, self._unseen()))

    def mark_indexes(self) -> None:
        """Note the pages of all indexes as reached."""
        for master in self.schema:
            if master.type == "index":
                for _ in self._walk(master.root, _Walk(False, _any_row, self._unseen())):
                    pass

    def longest_orphan(self) -> int:
        """Most values in a row of a table among the pages that no walk reached."""
        seen = self._unseen()
        lengths = (
            len(cell.values)
            for number in range(1, self._file.count + 1)
            if not self._reached[number - 1]
            and (page := self._page(number, seen)) is not None
            and page.kind in TABLE
            for cell in page.cells
            if cell is not None
        )
        return max(lengths, default=0)

    def orphans(self) -> Iterator[tuple[bool, tuple[Cell, ...]]]:
        """Rows of each page that no walk reached: whether it is of a table, and its rows.

        They are as they are stored: `Shape.row` gives them as a table does.
        """
        for number in range(1, self._file.count + 1):
            if self._reached[number - 1]:
                continue
            page = self._page(number, self._reached)
            if page is None:
                continue
            self._reached[number - 1] = 1
            children = [page.right, *(cell.child for cell in page.cells if cell is not None)]
            is_good = page.whole and all(page.cells) and max(children) <= self._file.count
            # What a walk looked for here is nowhere, if another page was written over it.
            self.unread += number > 1 and (not is_good or number in self._misplaced)
            cells = tuple(cell for cell in page.cells if cell is not None and cell.values)
            if cells:
                yield page.kind in TABLE, cells
        for number in range(2, self._file.count + 1):
            self.unread += not self._reached[number - 1] and not self._is_statement(number)

    def _is_statement(self, number: int) -> bool:
        """Whether a page that is no B-tree page may be the end of a statement of the schema."""
        data = (self._file.data(number) or b"")[4:].rstrip(b"\x00")
        return bool(data) and data.isascii() and b"\x00" not in data

    def _walk_freelist(self) -> bool:
        trunk, count = self._file.number_at(TRUNK), 0
        most = self._file.usable // 4 - 2
        if not self._file.header.startswith(MAGIC):
            return False
        while trunk:
            data = self._take(trunk)
            if data is None:
                return False
            length = int.from_bytes(data[4:8], "big")
            if length > most:
                return False
            leaves = [
                int.from_bytes(data[at : at + 4], "big") for at in range(8, 8 + 4 * length, 4)
            ]
            if not all(1 <= leaf <= self._file.count for leaf in leaves):
                return False
            for leaf in leaves:
                self._reached[leaf - 1] = 1
            count += 1 + length
            trunk = int.from_bytes(data[:4], "big")
        return count == self._file.number_at(FREE)

    def _take(self, number: int) -> bytes | None:
        """Bytes of a page that was not reached yet; None if there is no such page."""
        if not 1 <= number <= self._file.count or self._reached[number - 1]:
            return None
        self._reached[number - 1] = 1
        return self._file.data(number)

    def _page(self, number: int, reached: bytearray) -> Page | None:
        self._reads += 1
        if self._reads % OFTEN == 0:
            self._tell()
        return self._file.page(number, reached)

    def _unseen(self) -> bytearray:
        return bytearray(self._file.count)

    def _read_schema(self) -> Iterator[Master]:
        for found in self._walk(1, _Walk(True, _schema_row, self._unseen())):
            if isinstance(found, Cell):
                sort, name, _, root, sql = found.values
                if isinstance(sort, str) and isinstance(name, str) and isinstance(root, int):
                    yield Master(sort, name, root, sql if isinstance(sql, str) else "")

    def _walk(
        self, number: int, walk: _Walk, low: Value = None, high: Value = None, depth: int = 0
    ) -> Iterator[Found]:
        """Rows of the B-tree under a page, whose keys are from `low` to `high`."""
        page = self._step(number, walk) if depth < DEEPEST else None
        if page is None:
            yield Gap(walk.above(low), high, is_lost_way=True)
            return
        before = low
        cells = ascending(page.cells, low, high, is_strict=walk.is_table)
        for at, cell in enumerate(cells):
            if cell is None:
                after = next((one.key for one in cells[at:] if one is not None), high)
                yield Gap(walk.above(before), after)
                continue
            if cell.child:
                yield from self._walk(cell.child, walk, before, cell.key, depth + 1)
            if cell.values:
                yield cell
            before = cell.key
        if page.kind in INTERIOR:
            yield from self._walk(page.right, walk, before, high, depth + 1)
        if not page.whole:
            yield Gap(walk.above(low), high)

    def _step(self, number: int, walk: _Walk) -> Page | None:
        """Page of the B-tree of a walk, its rows as the table gives them; None if it is none."""
        if not 1 <= number <= self._file.count or walk.seen[number - 1]:
            return None
        walk.seen[number - 1] = 1
        page = self._page(number, self._reached)
        if page is None:
            return None
        cells = tuple(walk.cell(cell) for cell in page.cells)
        if (page.kind in TABLE) != walk.is_table or (cells and not any(cells)):
            self._misplaced.add(number)
            return None
        self._reached[number - 1] = 1
        return Page(page.kind, cells, page.right, page.whole)


@dataclass(frozen=True, slots=True)
class _Walk:
    """What one walk through a B-tree looks for, and where it was."""

    is_table: bool
    """Whether it is a table B-tree, and not an index B-tree."""
    row: Callable[[Value, Sequence[Value]], tuple[Value, ...] | None]
    """Row from its key and stored values; None if they are no row of this B-tree."""
    seen: bytearray
    """Pages where the walk was: a byte for each page of the file."""

    def cell(self, cell: Cell | None) -> Cell | None:
        """A cell with its values as the table gives them; None if it is none of this B-tree."""
        if cell is None or not cell.values:
            return cell
        row = self.row(cell.key, cell.values)
        return None if row is None else Cell(cell.child, cell.key, row)

    def above(self, key: Value) -> Value:
        """Lowest key that can follow a key: in an index others may have the same first value."""
        return key + 1 if self.is_table and isinstance(key, int) else key


def is_schema(cell: Cell) -> bool:
    """Whether a row is one of a schema, by the types of its values."""
    if len(cell.values) != 5:
        return False
    *names, root, sql = cell.values
    return (
        all(isinstance(name, str) for name in names)
        and isinstance(root, int)
        and (sql is None or isinstance(sql, str))
    )


def _any_row(_: Value, values: Sequence[Value]) -> tuple[Value, ...]:
    return tuple(values)


def _schema_row(_: Value, values: Sequence[Value]) -> tuple[Value, ...] | None:
    return tuple(values) if len(values) == 5 else None
