"""When a session of counting was last played, read from the history.

It stands apart from the cost of counting, as home needs nothing else of it.
"""

from __future__ import annotations

from datetime import date

from engine.practice.results import SessionKind
from engine.store.cells import Row
from engine.store.history import History

COUNTING = "counting"
"""Name of the kind of drill in which knocks are counted."""


def last_counting_day(history: History) -> date | None:
    """Local day of the newest session of counting in which anything was played; None for none.

    Raises StoreError.
    """
    with history.reading() as db:
        found = db.execute(
            "SELECT max(day) FROM sitting WHERE what = ?"
            " AND EXISTS (SELECT 1 FROM repetition WHERE sitting = sitting.id)",
            (SessionKind.COUNTING,),
        ).fetchone()[0]
    return None if found is None else Row("session").day("day", found)
