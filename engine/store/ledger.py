"""Ledger of the history: passes, retention, streaks and days, computed from the repetitions.

Each repetition is entered as it is stored, in the same transaction, so that nothing has to read the
whole history to know how the player stands. Levels that a placing set went past count as done too,
but are a setting beside the ledger.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable, Iterator
from datetime import date

from engine.practice.passes import LATEST, LevelProgress
from engine.practice.results import LostStreak, Result, Streaks
from engine.practice.retention import Retention
from engine.practice.streaks import REMEMBERED, DayStreak, clean_streak
from engine.store import personal
from engine.store.cells import Row, marked
from engine.store.history import History
from engine.store.retention import read_retention, write_retention

PLACED = "placed"
"""Key of the setting with the ids of the levels that a placing set went past."""
_DAY = "SELECT day, counted, clean, streak, unbroken FROM day"
_WRITE_LEVEL = (
    "INSERT OR REPLACE INTO progress (level, latest, passed, best, top) VALUES (?, ?, ?, ?, ?)"
)
_WRITE_DAY = (
    "INSERT OR REPLACE INTO day (day, counted, clean, streak, unbroken) VALUES (?, ?, ?, ?, ?)"
)
_LAST_ENDED = f"""
    {_DAY} AS one WHERE day < ? AND streak >= {REMEMBERED}
    AND (SELECT streak FROM day WHERE day > one.day ORDER BY day LIMIT 1) <= one.streak
    ORDER BY day DESC LIMIT 1
"""
_WRITE_ROW = "INSERT OR REPLACE INTO clean_row (id, count, best) VALUES (1, ?, ?)"


def enter(db: sqlite3.Connection, result: Result) -> None:
    """Enter one more repetition into the ledger. Raises CellError, sqlite3.Error."""
    if not result.counts:
        if result.is_practice:
            # Of a trial nothing is told but that there was practice.
            _enter_day(db, result.day, lambda day: day)
        return
    row, best = _clean_row(db)
    row = clean_streak(row, result.clean)
    db.execute(_WRITE_ROW, (row, max(best, row)))
    before = _level_progress(db, result.level)
    level = before.after(result.clean, result.rule, result.score)
    db.execute(_WRITE_LEVEL, _level_cells(result.level, level))
    retention = _retention_after(read_retention(db, result.level), before, level, result)
    write_retention(db, [(result.level, retention)])
    personal.enter(db, result)
    _enter_day(db, result.day, lambda day: day.plus(result.clean))


def rebuild(db: sqlite3.Connection, history: Iterable[Result]) -> None:
    """Recompute the ledger from all repetitions, oldest first. Raises CellError, sqlite3.Error."""
    row = best = 0
    levels: dict[str, LevelProgress] = {}
    retentions: dict[str, Retention] = {}
    days: dict[date, DayStreak] = {}
    limits = personal.Limits(db)
    for result in history:
        if result.counts:
            row = clean_streak(row, result.clean)
            best = max(best, row)
            before = levels.get(result.level, LevelProgress())
            level = before.after(result.clean, result.rule, result.score)
            levels[result.level] = level
            retention = retentions.get(result.level, Retention())
            retentions[result.level] = _retention_after(retention, before, level, result)
            limits.add(result)
        if result.is_practice:
            day = days.get(result.day, DayStreak(result.day))
            days[result.day] = day.plus(result.clean) if result.counts else day
    for table in ("clean_row", "progress", "keeping", "day", "personal"):
        db.execute(f"DELETE FROM {table}")
    db.execute(_WRITE_ROW, (row, best))
    db.executemany(_WRITE_LEVEL, [_level_cells(name, one) for name, one in levels.items()])
    write_retention(db, retentions.items())
    limits.write()
    db.executemany(_WRITE_DAY, [_day_cells(day) for day in _in_a_row(days)])


def streaks(history: History, today: date) -> Streaks:
    """Streaks of days and of clean repetitions, as they stand on a local day. Raises StoreError."""
    with history.reading() as db:
        return _streaks(db, today)


def best_days_before(history: History, today: date) -> int:
    """Longest row of days practised that does not end on this local day. Raises StoreError."""
    with history.reading() as db:
        found = db.execute(
            "SELECT coalesce(max(streak), 0) FROM day WHERE day != ?", (today.isoformat(),)
        ).fetchone()[0]
        return Row("days in a row").whole("streak", found, 0)


def clean_row(history: History) -> int:
    """Number of clean repetitions in a row up to now. Raises StoreError."""
    with history.reading() as db:
        return _clean_row(db)[0]


def level_progress(history: History, level: str) -> LevelProgress:
    """Progress of the player towards passing the level with this id. Raises StoreError."""
    with history.reading() as db:
        return _level_progress(db, level)


def passed(history: History) -> frozenset[str]:
    """Ids of the levels that the player has passed. Raises StoreError."""
    with history.reading() as db:
        return frozenset(
            level
            for level, done in db.execute("SELECT level, passed FROM progress")
            if Row(f"progress of '{level}'").truth("passed", done)
        )


def placed(history: History) -> frozenset[str]:
    """Ids of the levels that a placing set went past.

    None where the setting cannot be understood. Raises StoreError.
    """
    found = history.setting(PLACED)
    if not isinstance(found, list):
        return frozenset()
    return frozenset(one for one in found if isinstance(one, str))


def keep_placed(history: History, levels: Iterable[str]) -> None:
    """Save that a placing set went past the levels with these ids too. Raises StoreError."""
    history.keep_setting(PLACED, sorted(placed(history).union(levels)))


def _streaks(db: sqlite3.Connection, today: date) -> Streaks:
    row, best = _clean_row(db)
    best_days = _best_days(db)
    newest = _newest_day(db, "<=", today)
    if newest is None:
        return Streaks(0, 0, row, 0, best, best_days)
    of_today = newest if newest.day == today else DayStreak(today)
    days = newest.streak_on(today)
    lost = _lost(db, newest, today)
    return Streaks(
        today=of_today.counted,
        clean_today=of_today.clean,
        clean_streak=row,
        days_streak=days,
        best_clean_streak=best,
        best_days_streak=best_days,
        began=_first_of(db, newest.day, days) if days else None,
        rest_left=newest.has_rest_left(today),
        lost=lost if lost is not None and lost.days > days else None,
        practised=newest.day == today,
    )


def _level_progress(db: sqlite3.Connection, level: str) -> LevelProgress:
    found = db.execute(
        "SELECT latest, passed, best, top FROM progress WHERE level = ?", (level,)
    ).fetchone()
    if found is None:
        return LevelProgress()
    row = Row(f"progress of '{level}'")
    return LevelProgress(
        row.marks("latest", found[0], LATEST),
        row.truth("passed", found[1]),
        row.whole("best", found[2], 0, LATEST),
        row.amount("top", found[3]),
    )


def _retention_after(
    retention: Retention, before: LevelProgress, level: LevelProgress, result: Result
) -> Retention:
    """Retention of a level after a repetition that took its progress from `before` to `level`."""
    if before.passed:
        return retention.after(result.day, result.clean)
    return Retention.passed(result.day) if level.passed else retention


def _enter_day(db: sqlite3.Connection, day: date, plus: Callable[[DayStreak], DayStreak]) -> None:
    found = _newest_day(db, "=", day)
    if found is not None:
        db.execute(_WRITE_DAY, _day_cells(plus(found)))
        return
    before = _newest_day(db, "<", day)
    now = plus(DayStreak(day))
    now = now if before is None else now.following(before)
    db.execute(_WRITE_DAY, _day_cells(now))
    # A clock set back or another time zone: the days after it may be more in a row now.
    for cells in db.execute(f"{_DAY} WHERE day > ? ORDER BY day", (day.isoformat(),)).fetchall():
        later = _day(cells)
        changed = later.following(now)
        if changed == later:
            break
        db.execute(_WRITE_DAY, _day_cells(changed))
        now = changed


def _in_a_row(days: dict[date, DayStreak]) -> Iterator[DayStreak]:
    """Days of practice in order, each with its streak of days up to then."""
    before: DayStreak | None = None
    for day in sorted(days):
        before = days[day] if before is None else days[day].following(before)
        yield before


def _newest_day(db: sqlite3.Connection, which: str, day: date) -> DayStreak | None:
    cells = db.execute(
        f"{_DAY} WHERE day {which} ? ORDER BY day DESC LIMIT 1", (day.isoformat(),)
    ).fetchone()
    return None if cells is None else _day(cells)


def _best_days(db: sqlite3.Connection) -> int:
    found = db.execute("SELECT coalesce(max(streak), 0) FROM day").fetchone()[0]
    return Row("days in a row").whole("streak", found, 0)


def _first_of(db: sqlite3.Connection, last: date, days: int) -> date:
    """First day of a streak of `days` days that ends on `last`."""
    found = db.execute(
        "SELECT day FROM day WHERE day <= ? ORDER BY day DESC LIMIT 1 OFFSET ?",
        (last.isoformat(), days - 1),
    ).fetchone()
    return Row("days in a row").day("began", None if found is None else found[0])


def _lost(db: sqlite3.Connection, newest: DayStreak, today: date) -> LostStreak | None:
    """Latest streak of at least REMEMBERED days that has ended; None if none has."""
    last = newest
    if newest.row < REMEMBERED or not newest.ended_by(today):
        cells = db.execute(_LAST_ENDED, (newest.day.isoformat(),)).fetchone()
        if cells is None:
            return None
        last = _day(cells)
    return LostStreak(last.row, _first_of(db, last.day, last.row), last.day)


def _clean_row(db: sqlite3.Connection) -> tuple[int, int]:
    """Streak of clean repetitions up to now, and the longest one ever."""
    count, best = db.execute("SELECT max(count), max(best) FROM clean_row").fetchone()
    row = Row("clean row")
    return row.whole("count", count, 0), row.whole("best", best, 0)


def _day(cells: tuple[object, ...]) -> DayStreak:
    day, counted, clean, streak, unbroken = cells
    row = Row(f"day {day!r}")
    return DayStreak(
        row.day("day", day),
        row.whole("counted", counted, 0),
        row.whole("clean", clean, 0),
        row.whole("streak", streak, 1),
        row.whole("unbroken", unbroken, 1),
    )


def _day_cells(day: DayStreak) -> tuple[object, ...]:
    return day.day.isoformat(), day.counted, day.clean, day.row, day.unbroken


def _level_cells(level: str, progress: LevelProgress) -> tuple[object, ...]:
    return level, marked(progress.latest), progress.passed, progress.best, progress.top
