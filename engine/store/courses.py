"""Course of a measure over all repetitions of a kind of drill, read from the history."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from datetime import date

import numpy as np
from numpy.typing import NDArray

from drills.measures.definition import DEFINITION
from engine.practice.course import Course
from engine.practice.results import Purpose
from engine.store import History
from engine.store.cells import Row
from engine.store.rigs import SAME_RIG

_Cells = tuple[int, int, int, float | None, int]
"""Number, day, place in the day, value and level of one repetition."""


def courses_of(history: History, wanted: Mapping[str, str], after: int = 0) -> dict[str, Course]:
    """Course over time of one measure per kind of drill, for names of kinds and their measures.

    It has all repetitions that count, numbered above `after`, without trials; a kind without any
    has an empty course. A repetition of a mixed level has the level that it drew. Measures of
    another definition than today's, or of another rig than the one in use, are left out as if they
    were none. The time to read it grows with the history. Raises StoreError.
    """
    with history.reading() as db:
        # Trials enter nothing, but they warm the foot up: they have their place in the day.
        found = db.execute(
            "SELECT repetition.id, kind, date(at_utc, offset || ' minutes'), measure.value,"
            " why <> ?, CASE drawn WHEN '' THEN level ELSE drawn END FROM repetition"
            f" LEFT JOIN measure ON definition = ? AND {SAME_RIG}"
            " AND measure.repetition = repetition.id"
            f" AND measure.name = CASE {'WHEN kind = ? THEN ? ' * len(wanted)}WHEN 1 THEN NULL END"
            " WHERE feet = 1 AND void = 0 ORDER BY repetition.id",
            (Purpose.TRIAL.value, DEFINITION, *_pairs(db, wanted)),
        )
        columns: dict[str, list[_Cells]] = {k: [] for k in wanted}
        days: dict[object, int] = {}
        places: dict[object, int] = {}
        levels: dict[object, int] = {}
        for number, kind, day, value, enters, level in found:
            if day not in days:
                days[day] = Row(f"repetition {number}").day("at_utc", day).toordinal()
            places[day] = places.get(day, 0) + 1
            if enters and kind in columns and number > after:
                of_level = levels.setdefault(level, len(levels))
                columns[kind].append(
                    (number, days[day], places[day], _value(number, value), of_level)
                )
        return {kind: _course(rows) for kind, rows in columns.items()}


def values_of(history: History, kind: str, measure: str) -> NDArray[np.float64]:
    """Values of a measure for the repetitions of a kind's course, in their order; nan for none.

    Those of another definition than today's or of another rig are nan too. Raises StoreError.
    """
    with history.reading() as db:
        found = db.execute(
            "SELECT repetition.id, measure.value"
            f" FROM repetition LEFT JOIN measure ON definition = ? AND {SAME_RIG}"
            " AND measure.repetition = repetition.id"
            " AND measure.name = (SELECT id FROM measure_name WHERE name = ?)"
            " WHERE kind = ? AND feet = 1 AND void = 0 AND why <> ? ORDER BY repetition.id",
            (DEFINITION, measure, kind, Purpose.TRIAL.value),
        )
        return np.array([_value(number, value) for number, value in found], dtype=np.float64)


def traced_numbers(history: History, kind: str, first: date, last: date) -> list[int]:
    """Numbers of the repetitions of a kind of drill that have a trace, oldest first.

    Only those that count, on the local days from `first` to `last`, without trials, of the rig in
    use and with measures of today's definition. Raises StoreError.
    """
    with history.reading() as db:
        found = db.execute(
            "SELECT id FROM repetition WHERE kind = ? AND feet = 1 AND void = 0 AND why <> ?"
            f" AND definition = ? AND {SAME_RIG}"
            " AND date(at_utc, offset || ' minutes') BETWEEN ? AND ?"
            " AND EXISTS (SELECT 1 FROM trace WHERE repetition = repetition.id) ORDER BY id",
            (kind, Purpose.TRIAL.value, DEFINITION, first.isoformat(), last.isoformat()),
        )
        return [int(number) for (number,) in found]


def _pairs(db: sqlite3.Connection, wanted: Mapping[str, str]) -> list[object]:
    """Each kind of drill followed by the id of its measure's name, as parameters of a statement."""
    known = dict(db.execute("SELECT name, id FROM measure_name"))
    return [cell for kind, measure in wanted.items() for cell in (kind, known.get(measure))]


def _course(rows: list[_Cells]) -> Course:
    number, day, place, value, level = zip(*rows, strict=True) if rows else ((), (), (), (), ())
    return Course(
        np.array(number, dtype=np.int64),
        np.array(day, dtype=np.int64),
        np.array(place, dtype=np.int64),
        np.array(value, dtype=np.float64),
        np.array(level, dtype=np.int64),
    )


def _value(number: int, value: object) -> float | None:
    if value is not None and not isinstance(value, float):
        raise Row(f"repetition {number}").refusal("measure", "a number or nothing", value)
    return value
