"""What a table of the history is as CSV: the columns, what each holds, and what it must be."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass

from engine.store.cells import Row

Cell = int | float | str | None
"""What a cell holds; None for nothing."""
Check = Callable[[Row, str, object], object]
"""Refuses what a column cannot hold, by raising CellError."""


@dataclass(frozen=True)
class Column:
    """One column of a table."""

    header: str
    """What the file calls it, with its unit."""
    value: str
    """What the database calls it."""
    holds: type[int] | type[float] | type[str]
    """What a cell holds."""
    check: Check
    """What it must be."""
    optional: bool = False
    """Whether it may be empty, for nothing."""
    among: str = ""
    """What a table is known by that it names a row of; empty where it names none."""

    def read(self, row: Row, text: str) -> Cell:
        """The value of a cell. Raises CellError."""
        if self.optional and not text:
            return None
        value: Cell = text
        with suppress(ValueError):
            value = self.holds(text)
        # SQLite would keep what is not a number as nothing.
        self.check(row, self.header, value if value == value else text)
        return value


@dataclass(frozen=True)
class Table:
    """One table of the history."""

    file: str
    """Name of its file."""
    row: str
    """What one row of it is."""
    columns: Sequence[Column]
    """Its columns; the first tells its rows apart, or orders them."""
    source: str
    """What its rows are selected from."""
    order: str
    """What they are ordered by."""
    insert: str
    """The statement that puts a row in."""
    check: Callable[[Row, Mapping[str, Cell]], object] | None = None
    """What the cells of a row must be together, by the names of the database; None for nothing."""
    known: str = ""
    """What other tables call one of its rows; empty where none does."""
    named: int = 0
    """Place of the column that they name it by."""

    @property
    def headers(self) -> list[str]:
        """The first row of its file."""
        return [column.header for column in self.columns]

    @property
    def select(self) -> str:
        """The statement that takes its rows out."""
        values = ", ".join(column.value for column in self.columns)
        return f"SELECT {values} FROM {self.source} ORDER BY {self.order}"

    def checked(self, cells: Sequence[Cell]) -> Sequence[Cell]:
        """A row out of the database. Raises CellError where it could not be read back."""
        row = Row(f"{self.row} {cells[0]}")
        for column, cell in zip(self.columns, cells, strict=True):
            if cell is not None or not column.optional:
                column.check(row, column.value, cell)
        self._check_together(row, cells)
        return cells

    def read(self, row: Row, texts: Sequence[str]) -> list[Cell]:
        """A row out of a file. Raises CellError."""
        cells = [column.read(row, text) for column, text in zip(self.columns, texts, strict=True)]
        self._check_together(row, cells)
        return cells

    def _check_together(self, row: Row, cells: Sequence[Cell]) -> None:
        if self.check is not None:
            names = (column.value for column in self.columns)
            self.check(row, dict(zip(names, cells, strict=True)))
