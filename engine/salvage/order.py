"""Order of the cells on a page of a SQLite file: those whose keys are out of order are damaged."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from typing import Any

from engine.salvage.btree import Cell
from engine.salvage.records import Value


def ascending(
    cells: Sequence[Cell | None], low: Value, high: Value, *, is_strict: bool
) -> tuple[Cell | None, ...]:
    """Cells of a page, with None for those whose keys are out of order or out of range.

    The longest series of ascending keys is left.
    """
    find = bisect_left if is_strict else bisect_right
    least, most = _order(low), _order(high)
    ends: list[tuple[int, Any]] = []
    places: list[int] = []
    previous: dict[int, int | None] = {}
    for at, cell in enumerate(cells):
        if cell is None:
            continue
        key = _order(cell.key)
        if (low is not None and key < least) or (high is not None and key > most):
            continue
        length = find(ends, key)
        previous[at] = places[length - 1] if length else None
        ends[length : length + 1] = [key]
        places[length : length + 1] = [at]
    left = set[int]()
    last = places[-1] if places else None
    while last is not None:
        left.add(last)
        last = previous[last]
    return tuple(cell if at in left else None for at, cell in enumerate(cells))


def _order(key: Value) -> tuple[int, Any]:
    """Key in the order of SQLite: nothing, numbers, texts, bytes."""
    if key is None:
        return 0, 0
    if isinstance(key, int | float):
        return 1, key
    return (2, key) if isinstance(key, str) else (3, key)
