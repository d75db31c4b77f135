"""What was asked and what was made of it, read from the history: weights, and sizes of blips."""

from __future__ import annotations

from drills.measures.definition import DEFINITION
from drills.score import Reason
from engine.practice.results import Purpose
from engine.practice.sense import NEWEST, Sense, Squeeze, sense_of
from engine.practice.size_made import NEWEST as NEWEST_BLIPS
from engine.practice.size_made import SizedBlip
from engine.store.cells import Row
from engine.store.changes import scale_start
from engine.store.history import History
from engine.store.joins import joined_measures
from engine.store.remeasure import remeasuring
from engine.store.rigs import SAME_RIG

SQUEEZE = "squeeze"
"""Name of the kind of drill that asks for a weight without sight of the brake."""


def sense_now(history: History) -> Sense | None:
    """Sense of pressure of the player; None if there are too few squeezes.

    None too while the history is remeasured. Raises StoreError.
    """
    return None if remeasuring(history) is not None else sense_of(newest_squeezes(history))


def newest_squeezes(history: History) -> list[Squeeze]:
    """The newest 75 squeezes that were pressed and can be compared, oldest first.

    They were played by feet on the rig in use, since the brake last changed its scale, in no trial,
    and are measured by today's definition. A cue without a squeeze is left out, as it tells nothing
    of a weight. Raises StoreError.
    """
    after = scale_start(history)
    with history.reading() as db:
        newest = db.execute(
            "SELECT repetition.id, at_utc, repetition.offset, target, rest.value FROM repetition"
            " JOIN measure AS rest ON rest.repetition = repetition.id"
            " AND rest.name = (SELECT id FROM measure_name WHERE name = 'offset')"
            " WHERE kind = ? AND repetition.id > ? AND feet = 1 AND void = 0 AND why <> ?"
            f" AND reason <> ? AND rest.value IS NOT NULL AND definition = ? AND {SAME_RIG}"
            " ORDER BY repetition.id DESC LIMIT ?",
            (SQUEEZE, after, Purpose.TRIAL, Reason.NOT_PRESSED, DEFINITION, NEWEST),
        ).fetchall()
    found = []
    for number, at, offset, target, rest in reversed(newest):
        row = Row(f"repetition {number}")
        asked = row.amount("target", target)
        found.append(Squeeze(row.local_day(at, offset), asked, asked + row.amount("offset", rest)))
    return found


def newest_peaks(history: History, level: str) -> list[SizedBlip]:
    """The newest 40 blips of the steadiness drill, whose id is given, oldest first.

    They were played by feet on the rig in use and are measured by today's definition; those that
    were repeated for their size are among them. Raises StoreError.
    """
    with history.reading() as db:
        newest = db.execute(
            "SELECT repetition.id, at_utc, repetition.offset, peak.value FROM repetition"
            f"{joined_measures(('peak',))}"
            " WHERE level = ? AND why = ? AND feet = 1 AND (void = 0 OR reason = ?)"
            f" AND peak.value IS NOT NULL AND definition = ? AND {SAME_RIG}"
            " ORDER BY repetition.id DESC LIMIT ?",
            (level, Purpose.BAND, Reason.OFF_SIZE, DEFINITION, NEWEST_BLIPS),
        ).fetchall()
    found = []
    for number, at, offset, peak in reversed(newest):
        row = Row(f"repetition {number}")
        found.append(SizedBlip(row.local_day(at, offset), row.amount("peak", peak)))
    return found
