"""What is passed, the streaks and today, kept beside the repetitions and made from them alone.

A repetition enters it in its own transaction, so nobody reads the history to know where it stands.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator
from datetime import date

from engine.practice.progress import LATEST, LevelStanding
from engine.practice.results import Result, Standing
from engine.practice.streaks import DayStanding, clean_row
from engine.store.cells import Row

_DAY = "SELECT day, counted, clean, streak, unbroken FROM day"
_KEEP_LEVEL = "INSERT OR REPLACE INTO progress (level, latest, passed, best) VALUES (?, ?, ?, ?)"
_KEEP_DAY = (
    "INSERT OR REPLACE INTO day (day, counted, clean, streak, unbroken) VALUES (?, ?, ?, ?, ?)"
)
_KEEP_ROW = "INSERT OR REPLACE INTO clean_row (id, count) VALUES (1, ?)"


def enter(db: sqlite3.Connection, result: Result) -> None:
    """Take in one more repetition. Raises CellError, sqlite3.Error."""
    if not result.counts:
        return
    db.execute(_KEEP_ROW, (clean_row(_clean_row(db), result.clean),))
    level = level_standing(db, result.level).after(result.clean, result.rule)
    db.execute(_KEEP_LEVEL, _level_cells(result.level, level))
    _enter_day(db, result.day, result.clean)


def rebuild(db: sqlite3.Connection, history: Iterable[Result]) -> None:
    """Make the ledger anew from every repetition, oldest first. Raises CellError, sqlite3.Error."""
    row = 0
    levels: dict[str, LevelStanding] = {}
    days: dict[date, DayStanding] = {}
    for result in history:
        if result.counts:
            row = clean_row(row, result.clean)
            level = levels.get(result.level, LevelStanding())
            levels[result.level] = level.after(result.clean, result.rule)
            days[result.day] = days.get(result.day, DayStanding(result.day)).plus(result.clean)
    for table in ("clean_row", "progress", "day"):
        db.execute(f"DELETE FROM {table}")
    db.execute(_KEEP_ROW, (row,))
    db.executemany(_KEEP_LEVEL, [_level_cells(name, one) for name, one in levels.items()])
    db.executemany(_KEEP_DAY, [_day_cells(day) for day in _in_a_row(days)])


def standing(db: sqlite3.Connection, today: date) -> Standing:
    """Where the player stands on a day. Raises CellError, sqlite3.Error."""
    row = _clean_row(db)
    newest = _newest_day(db, "<=", today)
    if newest is None:
        return Standing(today=0, clean_today=0, clean_row=row, days_row=0)
    of_today = newest if newest.day == today else DayStanding(today)
    return Standing(of_today.counted, of_today.clean, row, newest.row_on(today))


def level_standing(db: sqlite3.Connection, level: str) -> LevelStanding:
    """How one level stands. Raises CellError, sqlite3.Error."""
    found = db.execute(
        "SELECT latest, passed, best FROM progress WHERE level = ?", (level,)
    ).fetchone()
    if found is None:
        return LevelStanding()
    row = Row(f"progress of '{level}'")
    latest = row.text("latest", found[0])
    if len(latest) > LATEST or not set(latest) <= {"0", "1"}:
        raise row.refusal("latest", f"at most {LATEST} of 0 and 1", latest)
    return LevelStanding(
        tuple(mark == "1" for mark in latest),
        row.truth("passed", found[1]),
        row.whole("best", found[2], 0, LATEST),
    )


def passed(db: sqlite3.Connection) -> frozenset[str]:
    """Ids of the levels passed. Raises CellError, sqlite3.Error."""
    return frozenset(
        level
        for level, done in db.execute("SELECT level, passed FROM progress")
        if Row(f"progress of '{level}'").truth("passed", done)
    )


def _enter_day(db: sqlite3.Connection, day: date, clean: bool) -> None:
    found = _newest_day(db, "=", day)
    if found is not None:
        db.execute(_KEEP_DAY, _day_cells(found.plus(clean)))
        return
    before = _newest_day(db, "<", day)
    now = DayStanding(day).plus(clean)
    now = now if before is None else now.following(before)
    db.execute(_KEEP_DAY, _day_cells(now))
    # A clock set back or another time zone: the days after it may be more in a row now.
    for cells in db.execute(f"{_DAY} WHERE day > ? ORDER BY day", (day.isoformat(),)).fetchall():
        later = _day(cells)
        changed = later.following(now)
        if changed == later:
            break
        db.execute(_KEEP_DAY, _day_cells(changed))
        now = changed


def _in_a_row(days: dict[date, DayStanding]) -> Iterator[DayStanding]:
    """The days in order, each following the one before."""
    before: DayStanding | None = None
    for day in sorted(days):
        before = days[day] if before is None else days[day].following(before)
        yield before


def _newest_day(db: sqlite3.Connection, which: str, day: date) -> DayStanding | None:
    cells = db.execute(
        f"{_DAY} WHERE day {which} ? ORDER BY day DESC LIMIT 1", (day.isoformat(),)
    ).fetchone()
    return None if cells is None else _day(cells)


def _clean_row(db: sqlite3.Connection) -> int:
    found = db.execute("SELECT max(count) FROM clean_row").fetchone()[0]
    return Row("clean row").whole("count", found, 0)


def _day(cells: tuple[object, ...]) -> DayStanding:
    day, counted, clean, streak, unbroken = cells
    row = Row(f"day {day!r}")
    return DayStanding(
        row.day("day", day),
        row.whole("counted", counted, 1),
        row.whole("clean", clean, 0),
        row.whole("streak", streak, 1),
        row.whole("unbroken", unbroken, 1),
    )


def _day_cells(day: DayStanding) -> tuple[object, ...]:
    return day.day.isoformat(), day.counted, day.clean, day.row, day.unbroken


def _level_cells(level: str, standing: LevelStanding) -> tuple[object, ...]:
    marks = "".join("1" if clean else "0" for clean in standing.latest)
    return level, marks, standing.passed, standing.best
