"""`newest_faults`: the fault of each of the newest blips in the history, of all levels."""

from __future__ import annotations

import sqlite3

from drills.fault import Fault
from drills.kinds import KINDS
from drills.measures.definition import DEFINITION
from drills.score import Reason, Verdict
from engine.practice.diagnosis import NEWEST
from engine.practice.results import Purpose
from engine.store.cells import LARGEST, Row
from engine.store.changes import scale_start
from engine.store.history import History
from engine.store.repetitions import read_measures
from engine.store.rigs import SAME_RIG

SEARCHED = 400
"""Newest repetitions that are searched for blips, as a count: two weeks' worth."""
_DIAGNOSED = tuple(kind.name for kind in KINDS.values() if kind.is_diagnosed)
_NEWEST = (
    "SELECT id, kind, reason, over FROM"
    " (SELECT * FROM repetition WHERE id > :after ORDER BY id DESC LIMIT :searched)"
    f" WHERE kind IN ({', '.join(repr(name) for name in _DIAGNOSED)})"
    " AND feet = 1 AND void = 0 AND why <> :trial AND definition = :definition"
    f" AND {SAME_RIG} ORDER BY id DESC"
)


def newest_faults(history: History) -> list[tuple[int, Fault | None]]:
    """Number and fault of each of the newest blips, oldest first; None: a blip without a fault.

    They are the newest 40 repetitions in which a blip was played by feet on the rig in use, on
    today's scale of its brake, and measured by today's definition. Those of trials are left out,
    and so is one in which no blip came. Raises StoreError.
    """
    asked: dict[str, object] = {
        "after": scale_start(history),
        "searched": SEARCHED,
        "trial": Purpose.TRIAL.value,
        "definition": DEFINITION,
    }
    found: list[tuple[int, Fault | None]] = []
    with history.reading() as db:
        for cells in db.execute(_NEWEST, asked):
            number, kind, verdict = _verdict(db, cells)
            fault = KINDS[kind].fault(verdict)
            if fault is not None or "dip" in verdict.measures:
                found.append((number, fault))
            if len(found) == NEWEST:
                break
    return found[::-1]


def _verdict(db: sqlite3.Connection, cells: tuple[object, ...]) -> tuple[int, str, Verdict]:
    """Number, kind and verdict of a repetition. Raises CellError, sqlite3.Error."""
    name, kind, reason, over = cells
    row = Row(f"repetition {name}")
    number = row.whole("id", name, -LARGEST, LARGEST)
    limited = row.json("over", over)
    named = tuple(str(one) for one in limited) if isinstance(limited, list) else ()
    outcome = row.word("reason", reason, Reason)
    verdict = Verdict(outcome, over=named, measures=read_measures(db, number))
    return number, row.text("kind", kind), verdict
