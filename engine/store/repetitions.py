"""Repetitions into the file, and out of it as the rules of practice see them."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from dataclasses import asdict
from datetime import date

from drills.level import PassRule
from engine.practice.passes import LATEST
from engine.practice.results import Result, Why
from engine.store.cells import Row
from engine.store.moments import cells_of
from engine.store.records import Record

_RESULT = (
    "SELECT id, level, at_utc, offset, score, clean, void, pass_clean, pass_of, feet, kind, why,"
    " took FROM repetition"
)


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
        record.level,
        day,
        verdict.score,
        verdict.clean,
        verdict.void,
        record.rule,
        record.feet,
        record.kind,
        record.why,
        record.took,
    )


def results(db: sqlite3.Connection) -> Iterator[Result]:
    """Every repetition, oldest first. Raises CellError, sqlite3.Error."""
    yield from map(_result, db.execute(f"{_RESULT} ORDER BY id"))


def recent(db: sqlite3.Connection, count: int) -> list[Result]:
    """The newest so many but those of trials, oldest first. Raises CellError, sqlite3.Error."""
    latest = db.execute(
        f"{_RESULT} WHERE why <> ? ORDER BY id DESC LIMIT ?", (Why.TRIAL.value, count)
    ).fetchall()
    return [_result(cells) for cells in reversed(latest)]


def newest(db: sqlite3.Connection) -> int:
    """Number of the newest repetition; 0 where there is none. Raises sqlite3.Error."""
    return int(db.execute("SELECT coalesce(max(id), 0) FROM repetition").fetchone()[0])


def of_sitting(db: sqlite3.Connection, sitting: int) -> tuple[Result, ...]:
    """The repetitions of one sitting, oldest first. Raises CellError, sqlite3.Error."""
    found = db.execute(f"{_RESULT} WHERE sitting = ? ORDER BY id", (sitting,))
    return tuple(map(_result, found))


def blips(
    db: sqlite3.Connection, level: str, why: Why, count: int, sitting: int | None
) -> list[tuple[date, float | None, float]]:
    """The newest so many of a level that were played for a reason, oldest first.

    The local day, what was asked (points), and the larger of dip and surge (points) of each that
    counts and has both; those of one sitting alone where it is given. Raises CellError,
    sqlite3.Error.
    """
    latest = db.execute(
        "SELECT id, at_utc, offset, asked, dip.value, surge.value FROM repetition"
        " JOIN measure AS dip ON dip.repetition = id"
        " AND dip.name = (SELECT id FROM measure_name WHERE name = 'dip')"
        " JOIN measure AS surge ON surge.repetition = id"
        " AND surge.name = (SELECT id FROM measure_name WHERE name = 'surge')"
        " WHERE level = ? AND why = ? AND feet = 1 AND void = 0"
        " AND dip.value IS NOT NULL AND surge.value IS NOT NULL AND (? IS NULL OR sitting = ?)"
        " ORDER BY id DESC LIMIT ?",
        (level, why, sitting, sitting, count),
    ).fetchall()
    found = []
    for number, at, offset, asked, dip, surge in reversed(latest):
        row = Row(f"repetition {number}")
        larger = max(row.amount("dip", dip), row.amount("surge", surge))
        found.append((row.local_day(at, offset), row.number("asked", asked), larger))
    return found


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


def _result(cells: tuple[object, ...]) -> Result:
    number, level, at, offset, score, clean, void, *more = cells
    pass_clean, pass_of, feet, kind, why, took = more
    row = Row(f"repetition {number}")
    return Result(
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
        row.text("kind", kind),
        row.word("why", why, Why),
        row.number("took", took),
    )


def _cells(record: Record) -> dict[str, object]:
    """A repetition by the names of its columns."""
    verdict = record.verdict
    at, offset = cells_of(record.at)
    cells: dict[str, object] = {
        "level": record.level,
        "kind": record.kind,
        "source": record.source,
        "feet": record.feet,
        "at_utc": at,
        "offset": offset,
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
        "why": record.why.value,
        "sitting": record.sitting,
        "took": record.took,
        "asked": record.asked,
        "trial": record.trial,
        "block": record.block,
    }
    return cells if record.sampling is None else cells | asdict(record.sampling)
