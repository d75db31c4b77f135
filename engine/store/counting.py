"""Repetitions with and without counting, read from the history, and when they last came."""

from __future__ import annotations

from datetime import date

from drills.kinds import KINDS
from drills.measures.definition import DEFINITION
from drills.score import Reason
from engine.practice.blip_size import scaled
from engine.practice.counting_cost import CostOverTime, CountingRepetition, cost_over_time
from engine.practice.results import Purpose, SessionKind
from engine.store.cells import Row
from engine.store.changes import scale_start
from engine.store.history import History
from engine.store.joins import joined_measures
from engine.store.remeasure import remeasuring
from engine.store.rigs import SAME_RIG

_IN_PAIRS = tuple(kind.name for kind in KINDS.values() if kind.in_pairs)
"""Names of the kinds of drill whose repetitions come in pairs, with and without counting."""


def counting_cost_now(history: History) -> CostOverTime | None:
    """Cost of counting, now and by month; None while the history is remeasured.

    Raises StoreError.
    """
    if remeasuring(history) is not None:
        return None
    return cost_over_time(counting_repetitions(history))


def counting_repetitions(history: History) -> list[CountingRepetition]:
    """Repetitions with and without counting that can be compared, oldest first.

    They count and were played by feet on the rig in use, since the brake last changed its scale, in
    no trial, and are measured by today's definition. One without a blip has no dip; one that was
    left is not among them, as nothing says whether it was with counting. Raises StoreError.
    """
    after = scale_start(history)
    with history.reading() as db:
        rows = db.execute(
            "SELECT repetition.id, at_utc, repetition.offset, level, dip.value, peak.value,"
            " settle.value, knocks.value, counted.value FROM repetition"
            f"{joined_measures(('dip', 'peak', 'settle', 'knocks', 'counted'))}"
            f" WHERE kind IN ({', '.join('?' for _ in _IN_PAIRS)}) AND repetition.id > ?"
            " AND feet = 1 AND void = 0 AND why <> ?"
            f" AND reason <> ? AND definition = ? AND {SAME_RIG} ORDER BY repetition.id",
            (*_IN_PAIRS, after, Purpose.TRIAL, Reason.WALKED_OUT, DEFINITION),
        ).fetchall()
    return [_repetition(cells) for cells in rows]


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


def _repetition(cells: tuple[object, ...]) -> CountingRepetition:
    number, at, offset, level, dip, peak, settle, knocks, counted = cells
    row = Row(f"repetition {number}")
    deep, size = row.number("dip", dip), row.number("peak", peak)
    return CountingRepetition(
        row.local_day(at, offset),
        row.text("level", level),
        scaled(deep, size) if deep is not None and size else None,
        row.number("settle", settle),
        _count(row, "knocks", knocks),
        _count(row, "counted", counted),
    )


def _count(row: Row, column: str, value: object) -> int | None:
    """Count in a cell of a measure; None for none."""
    number = row.number(column, value)
    return None if number is None else round(number)
