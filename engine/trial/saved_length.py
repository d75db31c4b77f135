"""What the history has for the length of a trial: newest blips, and how long a change takes."""

from __future__ import annotations

from drills.measures.definition import DEFINITION
from engine.practice.results import Purpose
from engine.store import History
from engine.store.cells import Row
from engine.store.joins import joined_measures
from engine.store.rigs import SAME_RIG
from engine.trial.length import ChangeTime

CHANGE_TIME = "change_time"
"""Key of the setting with how long the player takes to change from one set-up to the other."""


def newest_blips(
    history: History, level: str, count: int, after: int = 0
) -> list[tuple[float, float]]:
    """Dip in points and peak in % of the newest `count` blips of a level numbered above `after`.

    Oldest first, without trials, which are of two set-ups. Only repetitions of the rig in use that
    count are among them, by today's definition. Raises StoreError.
    """
    with history.reading() as db:
        found = db.execute(
            "SELECT repetition.id, dip.value, peak.value FROM repetition"
            f"{joined_measures(('dip', 'peak'))}"
            " WHERE level = ? AND repetition.id > ? AND feet = 1 AND void = 0 AND why <> ?"
            " AND dip.value IS NOT NULL AND peak.value IS NOT NULL"
            f" AND definition = ? AND {SAME_RIG} ORDER BY repetition.id DESC LIMIT ?",
            (level, after, Purpose.TRIAL.value, DEFINITION, count),
        ).fetchall()
    blips = []
    for number, dip, peak in reversed(found):
        row = Row(f"repetition {number}")
        blips.append((row.amount("dip", dip), row.amount("peak", peak)))
    return blips


def change_time(history: History) -> ChangeTime | None:
    """How long the player said a change takes; None if that was not asked. Raises StoreError."""
    saved = history.setting(CHANGE_TIME)
    return next((time for time in ChangeTime if time.name.lower() == saved), None)


def keep_change_time(history: History, time: ChangeTime) -> None:
    """Store how long the player takes to change. Raises StoreError."""
    history.keep_setting(CHANGE_TIME, time.name.lower())
