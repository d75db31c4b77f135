"""Days of practice, as the history stores them."""

from __future__ import annotations

from datetime import date

from engine.store import History
from engine.store.cells import Row


def practice_days(history: History) -> list[tuple[date, int]]:
    """Every local day practised, with its number of repetitions that counted, in order.

    Raises StoreError.
    """
    with history.reading() as db:
        found = db.execute("SELECT day, counted FROM day ORDER BY day")
        rows = ((Row(f"day {day!r}"), day, counted) for day, counted in found)
        return [
            (row.day("day", day), row.whole("counted", counted, 0)) for row, day, counted in rows
        ]
