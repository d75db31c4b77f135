"""Places in the tables of a damaged history where rows are missing."""

from __future__ import annotations

import sqlite3
from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field

from engine.salvage.records import Value
from engine.store.cells import LARGEST

END = b"\xff"
"""Key after every text: SQLite sorts bytes after them."""


@dataclass
class Gaps:
    """Ranges of keys whose rows cannot be read, of each table by its name."""

    ranges: dict[str, list[tuple[Value, Value]]] = field(default_factory=dict)
    """Lowest and highest key of each range, both within it; None where it is not known."""

    def add(self, table: str, first: Value, last: Value) -> None:
        """Note that rows from one key to another cannot be read, or only some of them."""
        self.ranges.setdefault(table, []).append((first, last))

    def hold(self, table: str, key: Value) -> bool:
        """Whether a row with a key may be missing."""
        return self.holder(table)(key)

    def holder(self, table: str) -> Callable[[Value], bool]:
        """Function that tells whether a row with a key may be missing, for many rows."""
        spans = self.merged(table, LARGEST - 1)
        starts = [span.start for span in spans]
        ranges = self.ranges.get(table, [])

        def holds(key: Value) -> bool:
            if isinstance(key, int):
                at = bisect_right(starts, key)
                return at > 0 and key < spans[at - 1].stop
            return isinstance(key, str) and any(
                (first is None or str(first) <= key) and (last is None or key <= str(last))
                for first, last in ranges
            )

        return holds

    def is_open(self, table: str) -> bool:
        """Whether it is not known where the table ends."""
        return any(last is None for _, last in self.ranges.get(table, []))

    def merged(self, table: str, most: int) -> list[range]:
        """Ranges of row ids from 1 to `most`, ascending and apart from each other."""
        spans = sorted(
            (max(1, _whole(first, 1)), min(most, _whole(last, most)))
            for first, last in self.ranges.get(table, [])
        )
        merged: list[range] = []
        for first, last in spans:
            if first > last:
                continue
            if merged and first <= merged[-1].stop:
                merged[-1] = range(merged[-1].start, max(merged[-1].stop, last + 1))
            else:
                merged.append(range(first, last + 1))
        return merged

    def missing(self, table: str, present: Sequence[int], most: int) -> list[range]:
        """Runs of row ids from 1 to `most` in gaps and not among `present`, which is ascending."""
        runs = []
        for span in self.merged(table, most):
            start = span.start
            for key in present[bisect_left(present, start) : bisect_right(present, span.stop - 1)]:
                if start < key:
                    runs.append(range(start, key))
                start = key + 1
            if start < span.stop:
                runs.append(range(start, span.stop))
        return runs

    def save(self, db: sqlite3.Connection) -> None:
        """Write the gaps to a temporary table `gap` of a database. Raises sqlite3.Error."""
        db.execute("DROP TABLE IF EXISTS temp.gap")
        db.execute("CREATE TEMP TABLE gap (tbl TEXT, first, last)")
        for table in self.ranges:
            if table == "setting":
                rows: Iterable[tuple[Value, Value]] = (
                    ("" if first is None else first, END if last is None else last)
                    for first, last in self.ranges[table]
                )
            else:
                rows = ((span.start, span.stop - 1) for span in self.merged(table, LARGEST - 1))
            db.executemany("INSERT INTO gap VALUES (?, ?, ?)", [(table, *row) for row in rows])
        db.execute("CREATE INDEX temp.gap_first ON gap (tbl, first)")


def in_gap(table: str, key: str) -> str:
    """SQL condition that the row of a table with a key is in a gap that `Gaps.save` wrote."""
    if table == "setting":
        ranges = "SELECT 1 FROM temp.gap WHERE tbl = 'setting'"
        return f"EXISTS ({ranges} AND {key} BETWEEN first AND last)"
    return (
        f"{key} <= (SELECT last FROM temp.gap WHERE tbl = '{table}' AND first <= {key}"
        " ORDER BY first DESC LIMIT 1)"
    )


def _whole(key: Value, unknown: int) -> int:
    return key if isinstance(key, int) else unknown
