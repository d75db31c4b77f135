"""`passed_in`: the levels that were first passed by a repetition of one session."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable

from drills.level import PassRule
from engine.practice.passes import LATEST, LevelProgress
from engine.practice.results import Purpose
from engine.store.cells import Row
from engine.store.history import History

_COUNTED = (
    "SELECT id, clean, pass_clean, pass_of, sitting FROM repetition"
    " WHERE level = ? AND feet = 1 AND void = 0 AND why <> ? ORDER BY id"
)


def passed_in(history: History, session: int, levels: Iterable[str]) -> frozenset[str]:
    """Those of the levels, by id, that a repetition of a session was the first to pass.

    `session` is its number in the history. A level that was passed earlier on the same day, by a
    chosen set or another session, is not among them. Raises StoreError.
    """
    with history.reading() as db:
        return frozenset(level for level in levels if _passed_by(db, level) == session)


def _passed_by(db: sqlite3.Connection, level: str) -> object:
    """Session of the repetition that first passed a level; None if there is none."""
    progress = LevelProgress()
    for number, clean, pass_clean, pass_of, session in db.execute(
        _COUNTED, (level, Purpose.TRIAL.value)
    ):
        row = Row(f"repetition {number}")
        rule = PassRule(
            row.whole("pass_clean", pass_clean, 1, LATEST),
            row.whole("pass_of", pass_of, 1, LATEST),
        )
        progress = progress.after(row.truth("clean", clean), rule)
        if progress.passed:
            return session
    return None
