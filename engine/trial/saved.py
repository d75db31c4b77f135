"""Trials of set-ups in the history: stores what each compares, and reads them with repetitions."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator, Mapping
from dataclasses import asdict
from datetime import datetime
from typing import Any

from drills.score import Reason
from engine.store import History, StoreError
from engine.store.cells import LARGEST, MOST, CellError, Row, utc_cells
from engine.store.joins import joined_measures
from engine.trial.trial import (
    FEWEST_PAIRS,
    MOST_PAIRS,
    Ball,
    Heel,
    SetUp,
    Shoes,
    Spacing,
    Trial,
    TrialRepetition,
)

_TRIAL = "SELECT id, began_utc, offset, level, a, b, pairs, seed, over, by_days FROM trial"


def keep_new_trial(
    history: History,
    at: datetime,
    level: str,
    arms: tuple[SetUp, SetUp],
    pairs: int,
    seed: int,
    *,
    by_days: bool = False,
) -> int:
    """Store a new trial of two set-ups; return its number. Raises StoreError."""
    a, b = (json.dumps(asdict(arm)) for arm in arms)
    cursor = history.write(
        lambda db: db.execute(
            "INSERT INTO trial (began_utc, offset, level, a, b, pairs, seed, over, by_days)"
            " VALUES (?, ?, ?, ?, ?, ?, ?, 0, ?)",
            (*utc_cells(at), level, a, b, pairs, seed, by_days),
        )
    )
    return int(cursor.lastrowid or 0)


def end_trial(history: History, number: int) -> None:
    """Store in the history that a trial is over. Raises StoreError."""
    ended = history.write(
        lambda db: db.execute("UPDATE trial SET over = 1 WHERE id = ?", (number,))
    )
    if not ended.rowcount:
        raise StoreError(f"{history.path}: no trial {number}")


def all_trials(history: History) -> list[Trial]:
    """Every trial in the history that can be understood, oldest first. Raises StoreError."""
    with history.reading() as db:
        return list(_trials(db, f"{_TRIAL} ORDER BY id"))


def trial_under_way(history: History) -> Trial | None:
    """Newest trial that is not over; None if there is none. Raises StoreError."""
    with history.reading() as db:
        return next(_trials(db, f"{_TRIAL} WHERE over = 0 ORDER BY id DESC"), None)


def _trials(db: sqlite3.Connection, statement: str) -> Iterator[Trial]:
    """Trials that a statement selects, without those that cannot be understood."""
    for cells in db.execute(statement).fetchall():
        try:
            trial = _trial(db, cells)
        except CellError:
            continue
        yield trial


def _trial(db: sqlite3.Connection, cells: tuple[object, ...]) -> Trial:
    number, began, offset, level, a, b, pairs, seed, over, by_days = cells
    row = Row(f"trial {number}")
    trial = row.whole("id", number, 1)
    return Trial(
        trial,
        row.moment("began_utc", began, offset),
        row.text("level", level),
        _set_up(row, "a", a),
        _set_up(row, "b", b),
        row.whole("pairs", pairs, FEWEST_PAIRS, MOST_PAIRS),
        row.whole("seed", seed, 0, LARGEST),
        row.truth("over", over),
        _repetitions(db, trial),
        row.truth("by_days", by_days),
    )


def _set_up(row: Row, column: str, value: object) -> SetUp:
    data: Any = row.json(column, value)
    if not isinstance(data, Mapping):
        raise row.refusal(column, "a set-up", value)
    return SetUp(
        row.text(f"{column}: name", data.get("name")),
        row.word(f"{column}: ball", data.get("ball"), Ball),
        row.word(f"{column}: heel", data.get("heel"), Heel),
        row.word(f"{column}: shoes", data.get("shoes"), Shoes),
        row.word(f"{column}: spacing", data.get("spacing"), Spacing),
        row.text(f"{column}: note", data.get("note")),
    )


def _repetitions(db: sqlite3.Connection, trial: int) -> tuple[TrialRepetition, ...]:
    found = db.execute(
        "SELECT repetition.id, block, at_utc, offset, reason, calibration,"
        " definition, dip.value, rebound.value, settle.value, peak.value FROM repetition"
        " LEFT JOIN trace ON trace.repetition = repetition.id"
        f"{joined_measures(('dip', 'rebound', 'settle', 'peak'))}"
        " WHERE trial = ? ORDER BY repetition.id",
        (trial,),
    )
    return tuple(_repetition(cells) for cells in found)


def _repetition(cells: tuple[object, ...]) -> TrialRepetition:
    number, block, at, offset, reason, calibration, definition, dip, rebound, settle, peak = cells
    row = Row(f"repetition {number}")
    return TrialRepetition(
        row.whole("id", number, 1),
        row.whole("block", block, 0, 2 * MOST_PAIRS - 1),
        row.local_day(at, offset),
        row.word("reason", reason, Reason),
        row.number("dip", dip),
        row.number("rebound", rebound),
        row.number("settle", settle),
        None if calibration is None else row.whole("calibration", calibration, 1, MOST),
        row.whole("definition", definition, -LARGEST, LARGEST),
        row.number("peak", peak),
    )
