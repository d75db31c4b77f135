"""A table as a CSV file (RFC 4180, UTF-8): written and read as a stream, with its sum.

The header carries the units. A value that is not there is an empty cell.
"""

from __future__ import annotations

import csv
import hashlib
import io
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from typing import Any, Self

from engine.store.cells import CellError, Row

AT_ONCE = 5000
"""rows that are written together."""
READ = 1 << 16
"""bytes that are read together."""


@dataclass(frozen=True)
class Listed:
    """What is said of a file beside it, to tell damage by."""

    file: str
    """Its name."""
    rows: int
    """count of its rows, without the header."""
    digest: str
    """SHA-256 of its bytes in hexadecimal digits; empty where it is not to be looked at."""


class SheetOut:
    """A file that is being written; a context manager that closes it."""

    def __init__(self, path: Path, headers: Sequence[str]) -> None:
        """Begin a new file with its header. Raises OSError, also where it is there already."""
        self._path = path
        self._file = path.open("xb")
        self._digest = hashlib.sha256()
        self._rows = -1
        self.write([headers])

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self._file.close()

    @property
    def listed(self) -> Listed:
        """What is written so far."""
        return Listed(self._path.name, self._rows, self._digest.hexdigest())

    def write(self, rows: Iterable[Sequence[object]]) -> int:
        """Write more rows; how many there were. Raises OSError."""
        before, waiting = self._rows, iter(rows)
        while batch := list(islice(waiting, AT_ONCE)):
            text = io.StringIO(newline="")
            csv.writer(text).writerows(batch)
            written = text.getvalue().encode("utf-8")
            self._digest.update(written)
            self._file.write(written)
            self._rows += len(batch)
        return self._rows - before


class SheetIn:
    """A file that is being read: its rows, refused where they are not as they were written."""

    def __init__(self, path: Path, headers: Sequence[str], listed: Listed | None = None) -> None:
        """`listed` is what the file must come to at its end; None where nobody knows."""
        self._path = path
        self._headers = list(headers)
        self._listed = listed
        self._reader = csv.reader(())

    @property
    def place(self) -> Row:
        """Where the newest row ends, to refuse its cells by."""
        return Row(f"{self._path}: line {max(self._reader.line_num, 1)}")

    def rows(self) -> Iterator[list[str]]:
        """Every row after the header, each with as many cells. Raises CellError."""
        try:
            with self._path.open("rb", buffering=0) as opened:
                yield from self._rows(_Summed(opened))
        except OSError as error:
            raise CellError(
                f"{self._path}: expected a file that can be read, found: {error.strerror}"
            ) from error

    def _rows(self, source: _Summed) -> Iterator[list[str]]:
        text = io.TextIOWrapper(io.BufferedReader(source, READ), "utf-8", newline="")
        self._reader = reader = csv.reader(text, strict=True)
        wanted, count = len(self._headers), 0
        try:
            self._check_header(next(reader, None))
            for cells in reader:
                if len(cells) != wanted:
                    raise CellError(
                        f"{self.place.place}: expected {wanted} cells, found {len(cells)}"
                    )
                count += 1
                yield cells
        except csv.Error as error:
            raise CellError(f"{self.place.place}: expected CSV, found: {error}") from error
        except UnicodeDecodeError as error:
            raise CellError(f"{self._not_text()}: expected UTF-8, found {error.reason}") from error
        if not source.newest.endswith(b"\n"):
            raise CellError(
                f"{self.place.place}: expected the end of a line, found the end of the file"
            )
        self._check_sum(count, source.digest)

    def _check_header(self, cells: list[str] | None) -> None:
        if cells is None:
            raise CellError(f"{self.place.place}: expected a header, found nothing")
        for place, header in enumerate(self._headers, start=1):
            found = cells[place - 1] if len(cells) >= place else "nothing"
            if found != header:
                raise self.place.refusal(f"column {place}", f"'{header}'", found)
        if len(cells) > len(self._headers):
            raise self.place.refusal(f"column {place + 1}", "no more columns", cells[place])

    def _check_sum(self, count: int, digest: str) -> None:
        listed = self._listed
        if listed is None:
            return
        if count != listed.rows:
            raise CellError(f"{self._path}: expected {listed.rows} rows, found {count}")
        if listed.digest and digest != listed.digest:
            raise CellError(
                f"{self._path}: expected what was exported (SHA-256 {listed.digest}), "
                f"found it changed ({digest})"
            )

    def _not_text(self) -> str:
        """The place of the first line that is no text."""
        with self._path.open("rb") as lines:
            for number, line in enumerate(lines, start=1):
                try:
                    line.decode("utf-8")
                except UnicodeDecodeError:
                    return f"{self._path}: line {number}"
        return f"{self._path}"


class _Summed(io.RawIOBase):
    """A file that is summed up as it is read."""

    def __init__(self, source: io.FileIO) -> None:
        self._source = source
        self._digest = hashlib.sha256()
        self.newest = b""
        """The last bytes that were read."""

    @property
    def digest(self) -> str:
        """SHA-256 of what was read, in hexadecimal digits."""
        return self._digest.hexdigest()

    def readable(self) -> bool:
        """It is."""
        return True

    def readinto(self, into: Any) -> int:
        """Read some bytes; how many."""
        count = self._source.readinto(into) or 0
        if count:
            read = memoryview(into)[:count]
            self._digest.update(read)
            self.newest = bytes(read[-2:])
        return count
