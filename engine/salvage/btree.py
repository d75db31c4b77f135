"""Pages of a SQLite file and the cells on them, read without SQLite.

After https://www.sqlite.org/fileformat2.html, sections 1.3 ("The Database Header"), 1.6 ("B-tree
Pages") and 1.7 ("Cell Payload Overflow Pages"). A page or cell that makes no sense is None.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import BinaryIO

from engine.salvage.records import RecordError, Value, decode, varint

MAGIC = b"SQLite format 3\x00"
"""First bytes of every SQLite file."""
HEADER = 100
"""Length of the header of the file on its first page, in bytes."""
INDEX_INTERIOR, TABLE_INTERIOR, INDEX_LEAF, TABLE_LEAF = 0x02, 0x05, 0x0A, 0x0D
INTERIOR = (INDEX_INTERIOR, TABLE_INTERIOR)
TABLE = (TABLE_INTERIOR, TABLE_LEAF)
SIZES = tuple(1 << power for power in range(9, 17))
"""Page sizes that a SQLite file can have, in bytes."""
LARGEST_PAGE = SIZES[-1]
"""Page size, and offset of the end of such a page, that two bytes cannot tell, in bytes."""
USUAL = 1024
"""Page size of a history whose file does not say it, in bytes."""
RESERVED = 64
"""Most bytes that some builds of SQLite leave unused at the end of each page."""
SAMPLE = 256
"""Number of pages that are looked at to tell the page size."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell of a B-tree page."""

    child: int
    """Number of the page with the keys below this one's; 0 on a leaf."""
    key: Value
    """Row id, or the first value of an index row."""
    values: tuple[Value, ...]
    """Values of the row; empty in the interior of a table."""


@dataclass(frozen=True, slots=True)
class Page:
    """One page of a B-tree."""

    kind: int
    """Its type: the first byte of its header."""
    cells: tuple[Cell | None, ...]
    """Its cells in order; None for each that makes no sense."""
    right: int
    """Number of the page with the keys above all of these; 0 on a leaf."""
    whole: bool
    """Whether its cells and its free space are all of it: no cell is missing."""


class PageFile:
    """SQLite file of which single pages are read. Its methods raise OSError."""

    def __init__(self, file: BinaryIO, size: int) -> None:
        """`file` is open for reading, `size` is its length in bytes."""
        self._file = file
        self._length = size
        self.header = self._bytes(0, HEADER).ljust(HEADER, b"\x00")
        self.size: int = 0
        self.usable: int = 0
        self.count: int = 0
        """Length of a page and of the part of it that SQLite uses, in bytes, and number of pages,
        the last of which may be cut."""
        self._use(self._page_size())

    def data(self, number: int) -> bytes | None:
        """Used bytes of a page by its number, from 1; zeros past the end of the file.

        None if there is no such page.
        """
        if not 1 <= number <= self.count:
            return None
        return self._bytes((number - 1) * self.size, self.usable).ljust(self.usable, b"\x00")

    def page(self, number: int, reached: bytearray) -> Page | None:
        """Page of a B-tree by its number; None if it is none.

        Overflow pages of its cells are marked in `reached`, a byte for each page of the file.
        """
        data = self.data(number)
        return None if data is None else _page(self, number, data, reached)

    def overflow(self, first: int, length: int, reached: bytearray) -> bytes:
        """Bytes of a payload on a chain of overflow pages. Raises RecordError."""
        if length > self._length:
            raise RecordError("a payload larger than the file")
        parts, number, chain = [], first, set[int]()
        while length > 0:
            data = self.data(number)
            if data is None or number in chain:
                raise RecordError("a chain of pages that breaks off")
            chain.add(number)
            parts.append(data[4 : 4 + length])
            length -= self.usable - 4
            number = int.from_bytes(data[:4], "big")
        if number:
            raise RecordError("a chain of pages that does not end")
        for one in chain:
            reached[one - 1] = 1
        return b"".join(parts)

    def number_at(self, offset: int) -> int:
        """Whole number of 4 bytes in the header of the file."""
        return int.from_bytes(self.header[offset : offset + 4], "big")

    def _bytes(self, offset: int, length: int) -> bytes:
        self._file.seek(offset)
        return self._file.read(length)

    def _use(self, size: int) -> None:
        self.size = size
        self.count = -(-self._length // size)
        reserved = int(self.header[20]) if self.header.startswith(MAGIC) else 0
        self.usable = size - (reserved if reserved <= RESERVED else 0)

    def _page_size(self) -> int:
        """Size at which most pages add up; what the header says, where that is as good as any."""
        in_header = int.from_bytes(self.header[16:18], "big")
        in_header = LARGEST_PAGE if in_header == 1 else in_header
        sizes = [*([in_header] if in_header in SIZES else []), USUAL, *SIZES]
        return max(sizes, key=self._share)

    def _share(self, size: int) -> float:
        """Share of pages that add up, of those in a sample, if they had this size."""
        self._use(size)
        starts = range(1, self.count + 1, max(1, self.count // SAMPLE))
        pages = [self.page(number, bytearray(self.count)) for number in starts]
        good = sum(
            page is not None and bool(page.cells) and page.whole and all(page.cells)
            for page in pages
        )
        return good / len(pages) if pages else 0.0


@dataclass(frozen=True, slots=True)
class _Layout:
    """Header of a B-tree page."""

    kind: int
    """Type of the page."""
    offsets: tuple[int, ...]
    """Where its cells begin, in bytes from the start of the page."""
    right: int
    """Number of the page at the far right; 0 on a leaf."""
    free: int | None
    """Bytes that hold no cell; None if that cannot be told."""


def _layout(data: bytes, begin: int) -> _Layout | None:
    """Header of a B-tree page that begins at an offset; None if it makes no sense."""
    kind = data[begin]
    if kind not in (INDEX_INTERIOR, TABLE_INTERIOR, INDEX_LEAF, TABLE_LEAF):
        return None
    pointers = begin + (12 if kind in INTERIOR else 8)
    count = int.from_bytes(data[begin + 3 : begin + 5], "big")
    end = pointers + 2 * count
    if end > len(data):
        return None
    offsets = tuple(int.from_bytes(data[at : at + 2], "big") for at in range(pointers, end, 2))
    content = int.from_bytes(data[begin + 5 : begin + 7], "big") or LARGEST_PAGE
    inside = end <= content <= len(data)
    right = int.from_bytes(data[begin + 8 : begin + 12], "big") if kind in INTERIOR else 0
    blocks = _free_blocks(data, int.from_bytes(data[begin + 1 : begin + 3], "big"))
    free = None if blocks is None or not inside else content + blocks + data[begin + 7]
    return _Layout(kind, offsets, right, free)


def _free_blocks(data: bytes, at: int) -> int | None:
    """Length of all free blocks on a page, in bytes; None if their chain makes no sense."""
    total = 0
    while at:
        after = int.from_bytes(data[at : at + 2], "big")
        total += int.from_bytes(data[at + 2 : at + 4], "big")
        if total > len(data) or (after and after <= at):
            return None
        at = after
    return total


def _page(file: PageFile, number: int, data: bytes, reached: bytearray) -> Page | None:
    layout = _layout(data, HEADER if number == 1 else 0)
    if layout is None:
        return None
    cells: list[Cell | None] = []
    used = 0
    for offset in layout.offsets:
        try:
            cell, end = _cell(file, layout.kind, data, offset, reached)
        except RecordError:
            cell, end = None, offset
        cells.append(cell)
        used += max(4, end - offset)
    whole = layout.free is not None and layout.free + used == len(data)
    return Page(layout.kind, tuple(cells), layout.right, whole)


def _cell(file: PageFile, kind: int, data: bytes, at: int, reached: bytearray) -> tuple[Cell, int]:
    """Cell at an offset of a page, and the offset of its end. Raises RecordError."""
    child = 0
    if kind in INTERIOR:
        child, at = int.from_bytes(data[at : at + 4], "big"), at + 4
    if kind == TABLE_INTERIOR:
        key, at = varint(data, at)
        return Cell(child, key, ()), at
    length, at = varint(data, at)
    row = 0
    if kind == TABLE_LEAF:
        row, at = varint(data, at)
    local = _local(length, file.usable, is_table=kind == TABLE_LEAF)
    end = at + local
    if length < 1 or end > len(data):
        raise RecordError("a payload that ends early")
    payload = data[at:end]
    if local < length:
        first = int.from_bytes(data[end : end + 4], "big")
        payload += file.overflow(first, length - local, reached)
        end += 4
    values = decode(payload)
    if kind == TABLE_LEAF:
        return Cell(child, row, values), end
    return Cell(child, values[0] if values else None, values), end


def _local(length: int, usable: int, *, is_table: bool) -> int:
    """Bytes of a payload that are on the page itself (section 1.6, "Cell Format")."""
    most = usable - 35 if is_table else (usable - 12) * 64 // 255 - 23
    if length <= most:
        return length
    least = (usable - 12) * 32 // 255 - 23
    local = least + (length - least) % (usable - 4)
    return local if local <= most else least
