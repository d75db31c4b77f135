"""When a session of counting was last played, read from the history.

It stands apart from the cost of counting, as home needs nothing else of it.
"""

from __future__ import annotations

from datetime import date

from engine.practice.results import SessionKind
from engine.store.cells import Row
from engine.store.history import History


def last_counting_day(history: History, today: date) -> date | None:
    """Local day of the newest session of counting in which anything was played; None for none.

    Days after `today` do not count: a clock was wrong then, and may have been by years. Raises
    StoreError.
    """
    with history.reading() as db:
        found = db.execute(
            "SELECT max(day) FROM sitting WHERE what = ? AND day <= ?"
            " AND EXISTS (SELECT 1 FROM repetition WHERE sitting = sitting.id)",
            (SessionKind.COUNTING, today.isoformat()),
        ).fetchone()[0]
    return None if found is None else Row("session").day("day", found)
