"""Repetitions into the file, and out of it as the rules of practice see them."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from dataclasses import asdict
from datetime import UTC, timedelta

from drills.level import PassRule
from engine.practice.progress import LATEST
from engine.practice.results import Result
from engine.store.cells import Row
from engine.store.records import Record


def add_repetition(db: sqlite3.Connection, record: Record) -> tuple[int, Result]:
    """Keep a repetition and its measures; its number, and what it is to the rules.

    Raises CellError, sqlite3.Error.
    """
    cells = _cells(record)
    marks = ", ".join("?" * len(cells))
    cursor = db.execute(
        f"INSERT INTO repetition ({', '.join(cells)}) VALUES ({marks})", tuple(cells.values())
    )
    number = int(cursor.lastrowid or 0)
    measures = record.verdict.measures
    db.executemany(
        "INSERT OR IGNORE INTO measure_name (name) VALUES (?)", [(name,) for name in measures]
    )
    db.executemany(
        "INSERT INTO measure SELECT ?, id, ? FROM measure_name WHERE name = ?",
        [(number, value, name) for name, value in measures.items()],
    )
    day = Row(f"repetition {number}").local_day(cells["at_utc"], cells["offset"])
    verdict = record.verdict
    return number, Result(
        record.level, day, verdict.score, verdict.clean, verdict.void, record.rule, record.feet
    )


def results(db: sqlite3.Connection) -> Iterator[Result]:
    """Every repetition, oldest first. Raises CellError, sqlite3.Error."""
    rows = db.execute(
        "SELECT id, level, at_utc, offset, score, clean, void, pass_clean, pass_of, feet"
        " FROM repetition ORDER BY id"
    )
    for number, level, at, offset, score, clean, void, pass_clean, pass_of, feet in rows:
        row = Row(f"repetition {number}")
        yield Result(
            row.text("level", level),
            row.local_day(at, offset),
            row.number("score", score),
            row.truth("clean", clean),
            row.truth("void", void),
            PassRule(
                row.whole("pass_clean", pass_clean, 1, LATEST),
                row.whole("pass_of", pass_of, 1, LATEST),
            ),
            row.truth("feet", feet),
        )


def add_guess(db: sqlite3.Connection, number: int, value: float, measure: str) -> None:
    """Keep what a player guessed of a measure of one repetition. Raises sqlite3.Error."""
    db.execute(
        "INSERT INTO guess SELECT ?, ?, id FROM measure_name WHERE name = ?",
        (number, value, measure),
    )


def guesses(db: sqlite3.Connection, level: str) -> list[tuple[float, float]]:
    """What was guessed on a level and what it was, oldest first. Raises CellError, sqlite3.Error.

    Only what counts, and was measured, is among them.
    """
    found = db.execute(
        "SELECT repetition.id, guess.value, measure.value FROM guess"
        " JOIN repetition ON repetition.id = guess.repetition"
        " JOIN measure ON measure.repetition = repetition.id AND measure.name = guess.measure"
        " WHERE repetition.level = ? AND feet = 1 AND void = 0 AND measure.value IS NOT NULL"
        " ORDER BY repetition.id",
        (level,),
    )
    pairs = []
    for number, guess, value in found:
        row = Row(f"guess of repetition {number}")
        guessed, was = row.number("value", guess), row.number("measure", value)
        pairs.append((guessed or 0.0, was or 0.0))
    return pairs


def _cells(record: Record) -> dict[str, object]:
    """A repetition by the names of its columns."""
    verdict = record.verdict
    offset = record.at.utcoffset() or timedelta(0)
    cells: dict[str, object] = {
        "level": record.level,
        "kind": record.kind,
        "source": record.source,
        "feet": record.feet,
        "at_utc": record.at.astimezone(UTC).isoformat(timespec="milliseconds"),
        "offset": round(offset.total_seconds() / 60),
        "target": record.target,
        "tolerance": record.tolerance,
        "score": verdict.score,
        "clean": verdict.clean,
        "void": verdict.void,
        "reason": verdict.reason.value,
        "over": json.dumps(verdict.over),
        "dark_ns": record.dark,
        "cues_ns": json.dumps(record.cues),
        "pass_clean": record.rule.clean,
        "pass_of": record.rule.of,
        "seed": record.seed,
        "drawn": record.drawn,
    }
    return cells if record.sampling is None else cells | asdict(record.sampling)
