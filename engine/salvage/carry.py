"""Carrying over of the rows of a damaged history file, as they can be read, into a new database."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from pathlib import Path

from engine.salvage.btree import Cell
from engine.salvage.gaps import Gaps
from engine.salvage.pages import Gap, Pages, is_schema
from engine.salvage.records import Value
from engine.salvage.shapes import LEDGER, Shape, shapes_of, version_of
from engine.store.backup import Tell
from engine.store.history import transaction
from engine.store.migrate import migrate
from engine.store.schema import MIGRATIONS


def carry_over(file: Path, db: sqlite3.Connection, tell: Tell) -> tuple[Gaps, bool]:
    """Fill an empty database with the rows of a damaged history, in the tables of its version.

    Returns where rows are missing, and whether pages of the file are lost altogether. Ledgers are
    left out. Raises OSError, sqlite3.Error.
    """
    gaps, broken, unfitting = Gaps(), Gaps(), 0
    with file.open("rb") as opened:
        pages = Pages(opened, file.stat().st_size, tell)
        statements = [one.sql for one in pages.schema if one.sql]
        columns = 0 if statements else pages.longest_orphan()
        migrate(db, MIGRATIONS[: version_of(statements, pages.version, columns)])
        shapes = shapes_of(db)
        with transaction(db):
            target = _Target(db)
            for shape in shapes.values():
                for found in pages.rows(shape):
                    if shape.name in LEDGER:
                        continue
                    if isinstance(found, Gap):
                        gaps.add(shape.name, found.first, found.last)
                        if not found.is_lost_way:
                            broken.add(shape.name, found.first, found.last)
                    else:
                        target.insert(shape, found.values)
            pages.mark_indexes()
            lost = {name: gaps.holder(name) for name in shapes}
            for is_table, cells in pages.orphans():
                fitting = _only_fit(shapes, is_table, cells)
                if fitting is None:
                    unfitting += is_table and not all(map(is_schema, cells))
                elif fitting.name not in LEDGER:
                    for cell in cells:
                        # Where the free pages are not known, an orphan may be one of them.
                        if pages.free_is_whole or lost[fitting.name](cell.key):
                            target.insert(fitting, fitting.row(cell.key, cell.values) or ())
    is_cut = pages.unread + unfitting > 0 or not target.count
    # Where every page was read, all rows that no walk came to were found.
    return (gaps if is_cut else broken), is_cut


class _Target:
    """New database that rows are inserted into."""

    def __init__(self, db: sqlite3.Connection) -> None:
        self._db = db
        self.count = 0

    def insert(self, shape: Shape, row: Sequence[Value]) -> None:
        """Insert a row; it is left out if its table has one with that key, or cannot hold it."""
        names = ", ".join(f'"{column.name}"' for column in shape.columns[: len(row)])
        marks = ", ".join("?" * len(row))
        self._db.execute(
            f"INSERT OR IGNORE INTO {shape.name} ({names}) VALUES ({marks})", tuple(row)
        )
        self.count += 1


def _only_fit(shapes: dict[str, Shape], is_table: bool, cells: Sequence[Cell]) -> Shape | None:
    """The one table that the rows of a page fit; None if there is none, or more than one."""
    fitting = [
        shape for shape in shapes.values() if shape.has_row_id == is_table and _fits(shape, cells)
    ]
    return fitting[0] if len(fitting) == 1 else None


def _fits(shape: Shape, cells: Sequence[Cell]) -> bool:
    """Whether the rows of a page fit a table, by the types of their values and how they look."""
    if any(shape.row(cell.key, cell.values) is None for cell in cells):
        return False
    last = [cell.values[-1] for cell in cells]
    match shape.name:
        case "calibration":
            return all(isinstance(value, str) and value.startswith("[[") for value in last)
        case "measure_name":
            return not any(isinstance(value, str) and value.startswith("[[") for value in last)
        case "measure":
            # The index over `fixed` and `definition` has three whole numbers in a row.
            return any(not isinstance(value, int) for value in last)
        case "clean_row":
            return all(cell.key == 1 for cell in cells)
        case "guess":
            # The one row of `clean_row` looks like a guess of the first repetition.
            return any(cell.key != 1 for cell in cells) or not isinstance(cells[0].values[1], int)
        case _:
            return True
