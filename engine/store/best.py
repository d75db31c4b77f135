"""`best_repetitions`: the repetitions of a level with the highest scores, by feet on one rig."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from itertools import islice

from engine.practice.results import Purpose
from engine.store.cells import LARGEST, Row
from engine.store.history import History

_SCORED = """
    SELECT id, score, at_utc, offset FROM repetition
    WHERE (level = :level AND drawn = '' OR drawn = :level) AND rig IS :rig
    AND feet = 1 AND void = 0 AND score IS NOT NULL AND why <> :trial AND id <> :apart
    AND id > :after
    ORDER BY score DESC, id DESC
"""


@dataclass(frozen=True)
class ScoredRepetition:
    """A repetition in the history that counted, with its trace stored."""

    number: int
    """Number of the repetition in the history."""
    score: float
    """Score, 0 to 100."""
    day: date
    """Local day on which it was played."""


def best_repetitions(
    history: History, level: str, rig: int | None, apart_from: int, most: int, after: int = 0
) -> list[ScoredRepetition]:
    """At most `most` repetitions of a level by its id, the best first, the newest of equal ones.

    Those that a mixed level drew count; void ones, those of trials, of other rigs than the one
    with the number `rig` and without a trace do not, nor does the one numbered `apart_from`, nor
    those numbered up to `after`. Raises StoreError.
    """
    asked: dict[str, object] = {
        "level": level,
        "rig": rig,
        "trial": Purpose.TRIAL.value,
        "apart": apart_from,
        "after": after,
    }
    with history.reading() as db:
        return list(islice(_with_trace(db, asked), most))


def _with_trace(db: sqlite3.Connection, asked: dict[str, object]) -> Iterator[ScoredRepetition]:
    """Scored repetitions with a trace, the best first. Raises CellError, sqlite3.Error."""
    for name, score, at, offset in db.execute(_SCORED, asked):
        if db.execute("SELECT 1 FROM trace WHERE repetition = ?", (name,)).fetchone():
            row = Row(f"repetition {name}")
            number, day = row.whole("id", name, -LARGEST, LARGEST), row.local_day(at, offset)
            yield ScoredRepetition(number, row.amount("score", score), day)
