"""Personal limit of each level on each rig, as the ledger holds it.

It begins again with another scale of the rig's brake and with another definition of the measures,
as what was played before cannot be compared.
"""

from __future__ import annotations

import json
import sqlite3
from bisect import bisect_left
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from functools import lru_cache

from drills.measures.definition import DEFINITION
from drills.score import ABSENT
from engine.practice.changes import Changed
from engine.practice.personal_limit import PersonalLimit, load_of
from engine.practice.results import Result
from engine.practice.steadiness import WINDOW
from engine.store.cells import LARGEST, Row
from engine.store.history import History
from engine.store.rigs import SAME_RIG, USED

_COLUMNS = (
    *("level", "rig", "newest", "definition", "loads", "days", "best", "best_day"),
    *("since", "ended", "block", "mark", "told"),
)
_SELECT = f"SELECT {', '.join(_COLUMNS)} FROM personal"
_REPLACE = (
    f"INSERT OR REPLACE INTO personal ({', '.join(_COLUMNS)})"
    f" VALUES ({', '.join('?' * len(_COLUMNS))})"
)
_SCALE = 'SELECT coalesce(max("after"), -1) FROM change WHERE what = ? AND (rig IS NULL OR rig = ?)'
_OF_RIG = f"""
    {_SELECT} WHERE definition = ?
    AND rig IN (0, (SELECT CAST(value AS INTEGER) FROM setting WHERE key = '{USED}'))
    AND newest > (
        SELECT coalesce(max("after"), -1) FROM change
        WHERE what = ? AND {SAME_RIG}
    )
    ORDER BY rig
"""
ROWS = 256
"""Rows of the table whose meaning is cached, as a count: more than a rig has levels."""
_NO_RIG = 0
"""Number in the place of a rig's where the pedals were not those of a saved one."""


@dataclass(frozen=True)
class _Stored:
    """Personal limit with what it can be compared with."""

    newest: int = 0
    """Number of the newest repetition in it; 0 where it is not stored."""
    definition: int = DEFINITION
    """Version of the definitions by which its verdicts were told."""
    limit: PersonalLimit = field(default_factory=PersonalLimit)
    """The personal limit."""

    def after(self, result: Result, scale: int) -> _Stored:
        """What is stored after one more repetition; `scale` is the newest on an older scale.

        -1 where there was no other scale.
        """
        same = self.newest > scale and self.definition == result.definition
        limit = self.limit if same else PersonalLimit()
        now = limit.after(result.day, load_of(result.score or 0.0))
        return _Stored(result.number, result.definition, now)


class Limits:
    """Personal limits computed from repetitions, for a ledger that is made from all of them."""

    def __init__(self, db: sqlite3.Connection) -> None:
        """Read where scales began. Raises CellError, sqlite3.Error."""
        self._db = db
        self._found: dict[tuple[str, int], _Stored] = {}
        found = db.execute(
            'SELECT "after", rig FROM change WHERE what = ? ORDER BY "after"',
            (Changed.SCALE.value,),
        )
        row = Row("change")
        self._scales = [(row.whole("after", after, 0, LARGEST), rig) for after, rig in found]

    def add(self, result: Result) -> None:
        """Add a repetition that counts, the next by its number."""
        if not _has_limit(result):
            return
        of_rig = [after for after, rig in self._scales if rig is None or rig == _rig(result)]
        before = bisect_left(of_rig, result.number)
        scale = of_rig[before - 1] if before else -1
        key = result.level, _rig(result)
        self._found[key] = self._found.get(key, _Stored()).after(result, scale)

    def write(self) -> None:
        """Store all of them. Raises sqlite3.Error."""
        _write(self._db, self._found.items())


def enter(db: sqlite3.Connection, result: Result) -> None:
    """Enter a repetition that counts, the newest. Raises CellError, sqlite3.Error."""
    if not _has_limit(result):
        return
    key = result.level, _rig(result)
    scale = db.execute(_SCALE, (Changed.SCALE.value, key[1])).fetchone()[0]
    found = db.execute(f"{_SELECT} WHERE level = ? AND rig = ?", key).fetchone()
    before = _Stored() if found is None else _stored(found)
    _write(db, [(key, before.after(result, Row("change").whole("after", scale, -1, LARGEST)))])


def personal_limits(history: History) -> dict[str, PersonalLimit]:
    """Personal limits on the rig in use, by the ids of their levels. Raises StoreError.

    Without those on another scale of the brake or by another definition than today's. What was
    played with no saved pedals stands in where the level was not played on the rig.
    """
    with history.reading() as db:
        found = db.execute(_OF_RIG, (DEFINITION, Changed.SCALE.value))
        return {
            Row("personal limit").text("level", cells[0]): _stored(cells).limit for cells in found
        }


def _has_limit(result: Result) -> bool:
    """Whether a repetition that counts was played within its level's own limits."""
    return result.asked is None and result.score is not None


def _rig(result: Result) -> int:
    return _NO_RIG if result.rig is None else result.rig


def _write(db: sqlite3.Connection, limits: Iterable[tuple[tuple[str, int], _Stored]]) -> None:
    db.executemany(_REPLACE, [_cells(*key, stored) for key, stored in limits])


def _cells(level: str, rig: int, stored: _Stored) -> tuple[object, ...]:
    one = stored.limit
    written = {day: day.isoformat() for day in dict.fromkeys(one.days)}
    loads, days = json.dumps(one.loads), json.dumps([written[day] for day in one.days])
    return (
        *(level, rig, stored.newest, stored.definition, loads, days, one.best),
        *(_iso(one.best_day), one.since, _iso(one.ended), one.block, one.mark, _iso(one.told)),
    )


def _iso(day: date | None) -> str | None:
    return None if day is None else day.isoformat()


@lru_cache(maxsize=ROWS)
def _stored(cells: tuple[object, ...]) -> _Stored:
    """What a row of the table says. Raises CellError.

    After a repetition only one row differs from those read before it.
    """
    level, _, newest, definition, loads, days, best, best_day, *more = cells
    since, ended, block, mark, told = more
    row = Row(f"personal limit of '{level}'")
    factors, dates = row.json("loads", loads), row.json("days", days)
    if not _are_factors(factors):
        raise row.refusal("loads", f"at most {WINDOW} numbers from 0 to {ABSENT:g}", loads)
    if not _are_texts(dates) or len(dates) != len(factors):
        raise row.refusal("days", f"a list of {len(factors)} dates", days)
    # At most nine repetitions are of one day: each date is read once.
    known = {one: row.day("days", one) for one in dict.fromkeys(dates)}

    def factor(column: str, value: object) -> float | None:
        number = row.number(column, value)
        if number is not None and not 0 <= number <= ABSENT:
            raise row.refusal(column, f"a number from 0 to {ABSENT:g} or nothing", value)
        return number

    def day(column: str, value: object) -> date | None:
        return None if value is None else row.day(column, value)

    return _Stored(
        row.whole("newest", newest, 0, LARGEST),
        row.whole("definition", definition, 0),
        PersonalLimit(
            tuple(map(float, factors)),
            factor("best", best),
            tuple(known[one] for one in dates),
            day("best_day", best_day),
            row.whole("since", since, 0),
            day("ended", ended),
            factor("block", block),
            factor("mark", mark),
            day("told", told),
        ),
    )


def _are_texts(found: object) -> bool:
    """Whether what was read is a list of texts."""
    return isinstance(found, list) and all(isinstance(one, str) for one in found)


def _are_factors(found: object) -> bool:
    """Whether what was read are the factors of a personal limit."""
    return (
        isinstance(found, list)
        and 0 < len(found) <= WINDOW
        and {int, float}.issuperset(map(type, found))
        and all(0 <= one <= ABSENT for one in found)
    )
