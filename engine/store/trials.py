"""Trials in the file: what is tried, and every repetition of it."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Mapping
from dataclasses import asdict
from datetime import datetime
from typing import Any

from drills.score import Reason
from engine.store.cells import MOST, Row
from engine.store.moments import cells_of
from engine.trial.trial import (
    FEWEST_PAIRS,
    MOST_PAIRS,
    Ball,
    Heel,
    SetUp,
    Shoes,
    Spacing,
    Trial,
    Tried,
)

_TRIAL = "SELECT id, began_utc, offset, level, a, b, pairs, seed, over FROM trial"
_SEEDS = 2**63 - 1
"""The largest whole number that a cell can hold."""


def begin(
    db: sqlite3.Connection,
    at: datetime,
    level: str,
    arms: tuple[SetUp, SetUp],
    pairs: int,
    seed: int,
) -> int:
    """Keep that one begins; its number. Raises sqlite3.Error."""
    a, b = (json.dumps(asdict(arm)) for arm in arms)
    cursor = db.execute(
        "INSERT INTO trial (began_utc, offset, level, a, b, pairs, seed, over)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, 0)",
        (*cells_of(at), level, a, b, pairs, seed),
    )
    return int(cursor.lastrowid or 0)


def end(db: sqlite3.Connection, number: int) -> bool:
    """Keep that one is over; whether there is such a one. Raises sqlite3.Error."""
    return db.execute("UPDATE trial SET over = 1 WHERE id = ?", (number,)).rowcount > 0


def trials(db: sqlite3.Connection) -> list[Trial]:
    """Every one, oldest first. Raises CellError, sqlite3.Error."""
    return [_trial(db, cells) for cells in db.execute(f"{_TRIAL} ORDER BY id").fetchall()]


def under_way(db: sqlite3.Connection) -> Trial | None:
    """The newest of those that are not over. Raises CellError, sqlite3.Error."""
    found = db.execute(f"{_TRIAL} WHERE over = 0 ORDER BY id DESC LIMIT 1").fetchone()
    return None if found is None else _trial(db, found)


def _trial(db: sqlite3.Connection, cells: tuple[object, ...]) -> Trial:
    number, began, offset, level, a, b, pairs, seed, over = cells
    row = Row(f"trial {number}")
    known = row.whole("id", number, 1)
    return Trial(
        known,
        row.moment("began_utc", began, offset),
        row.text("level", level),
        set_up_of(row, "a", a),
        set_up_of(row, "b", b),
        row.whole("pairs", pairs, FEWEST_PAIRS, MOST_PAIRS),
        row.whole("seed", seed, 0, _SEEDS),
        row.truth("over", over),
        _tried(db, known),
    )


def set_up_of(row: Row, column: str, value: object) -> SetUp:
    """How the foot stands in one arm, from JSON. Raises CellError."""
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


def _tried(db: sqlite3.Connection, trial: int) -> tuple[Tried, ...]:
    found = db.execute(
        "SELECT repetition.id, block, at_utc, offset, reason, calibration,"
        " dip.value, rebound.value, settle.value FROM repetition"
        " LEFT JOIN trace ON trace.repetition = repetition.id"
        + "".join(
            f" LEFT JOIN measure AS {name} ON {name}.repetition = repetition.id AND {name}.name"
            f" = (SELECT id FROM measure_name WHERE name = '{name}')"
            for name in ("dip", "rebound", "settle")
        )
        + " WHERE trial = ? ORDER BY repetition.id",
        (trial,),
    )
    return tuple(_one(cells) for cells in found)


def _one(cells: tuple[object, ...]) -> Tried:
    number, block, at, offset, reason, calibration, dip, rebound, settle = cells
    row = Row(f"repetition {number}")
    return Tried(
        row.whole("id", number, 1),
        row.whole("block", block, 0, 2 * MOST_PAIRS - 1),
        row.local_day(at, offset),
        row.word("reason", reason, Reason),
        row.number("dip", dip),
        row.number("rebound", rebound),
        row.number("settle", settle),
        None if calibration is None else row.whole("calibration", calibration, 1, MOST),
    )
