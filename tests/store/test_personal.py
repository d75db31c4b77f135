"""Personal limits in the ledger: entered one by one, and made from all repetitions."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from math import inf
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.calibration import Calibration, Range
from drills.score import Reason, Verdict
from engine.practice.changes import Changed
from engine.practice.personal_limit import PersonalLimit
from engine.practice.results import Purpose
from engine.store import History, Record, open_history
from engine.store.changes import mark_change
from engine.store.error import StoreError
from engine.store.history import FILE
from engine.store.personal import personal_limits
from engine.store.repetitions import add_repetition
from tests.made import record
from tests.stored import in_memory, rebuild_ledger

START = datetime(2024, 2, 26, 12, tzinfo=UTC)
ENDS = Calibration(Range(0.0, 1.0), Range(0.0, 1.0))


def played(day: int, score: float | None = 50.0, level: str = "a", **more: Any) -> Record:
    """A repetition without trace and measures, on a day from the start."""
    reason = Reason.GAP if score is None else Reason.OVER_LIMIT
    at, verdict = START + timedelta(days=day), Verdict(reason, score)
    return record(
        **({"level": level, "verdict": verdict, "at": at} | more), trace=None, sampling=None
    )


def add(history: History, *records: Record) -> None:
    """Store repetitions one by one."""
    for one in records:
        add_repetition(history, one)


def rows(history: History) -> list[tuple[object, ...]]:
    """The whole table of personal limits."""
    with history.reading() as db:
        return db.execute("SELECT * FROM personal ORDER BY level, rig").fetchall()


@st.composite
def histories(draw: st.DrawFn) -> list[Record | int]:
    """Repetitions of two levels on two rigs or none, and numbers of rigs whose brake changed."""
    day, made = 0, list[Record | int]()
    for _ in range(draw(st.integers(0, 90))):
        day += draw(st.sampled_from([0, 0, 0, 1, 1, 5, 20, -1, -30]))
        if draw(st.integers(0, 30)) == 0:
            made.append(draw(st.sampled_from([1, 2])))
            continue
        score = draw(st.sampled_from([None, 0.0, 0.0001, 12.5, 50.0, 62.0, 99.75, 100.0]))
        more: dict[str, Any] = {
            "level": draw(st.sampled_from("aab")),
            "rig": draw(st.sampled_from([None, 1, 1, 1, 2])),
            "feet": draw(st.sampled_from([True, True, True, False])),
            "why": draw(st.sampled_from([Purpose.DUE, Purpose.OWN, Purpose.TRIAL])),
            "asked": draw(st.sampled_from([None, None, None, 7.5])),
        }
        made.append(played(day, score, **more))
    return made


@settings(max_examples=40, deadline=None)
@given(histories())
def test_limits_entered_one_by_one_are_those_made_from_all(made: Sequence[Record | int]) -> None:
    with in_memory() as history:
        history.write(lambda db: db.executemany(ADD_RIG, [(1,), (2,)]))
        for one in made:
            if isinstance(one, int):
                mark_change(history, START, Changed.SCALE, "", (ENDS, ENDS), one)
            else:
                add(history, one)
        entered = rows(history)
        rebuild_ledger(history)

        assert rows(history) == entered


ADD_RIG = "INSERT INTO rig VALUES (?, '', '', '{}', 0)"


def test_a_limit_is_of_repetitions_that_count_on_the_levels_own_limits(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        add(history, played(0, 50.0), played(0, 25.0), played(0, 0.0))
        before = personal_limits(history)
        add(
            history,
            played(0, None),
            played(0, feet=False),
            played(0, why=Purpose.TRIAL),
            played(0, asked=7.5, level="steadiness"),
        )

        assert before == personal_limits(history) == {"a": limit_of(1.0, 2.0, 4.0)}


def limit_of(*loads: float) -> PersonalLimit:
    """Personal limit after these factors, all on the first day."""
    limit = PersonalLimit()
    for one in loads:
        limit = limit.after(START.date(), one)
    return limit


def test_a_limit_begins_again_on_another_scale_of_the_brake(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        add(history, played(0), played(0))
        mark_change(history, START, Changed.SET_UP)
        same = personal_limits(history)
        mark_change(history, START, Changed.SCALE)
        none = personal_limits(history)
        add(history, played(0, 25.0))

        assert same == {"a": limit_of(1.0, 1.0)}
        assert none == {}
        assert personal_limits(history) == {"a": limit_of(2.0)}


def test_each_rig_has_limits_of_its_own(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        history.write(lambda db: db.executemany(ADD_RIG, [(1,), (2,)]))
        add(history, played(0, rig=None, level="b"), played(0, rig=1), played(0, 25.0, rig=2))
        found = []
        for used in (1, 2):
            history.keep_setting("rig", used)
            found.append(personal_limits(history))

        assert found == [
            {"a": limit_of(1.0), "b": limit_of(1.0)},
            {"a": limit_of(2.0), "b": limit_of(1.0)},
        ]


def test_verdicts_of_another_definition_are_not_compared(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        add(history, played(0))
        history.write(lambda db: db.execute("UPDATE repetition SET verdict_definition = 1"))
        rebuild_ledger(history)
        old = personal_limits(history)
        add(history, played(0, 25.0))

        assert old == {}
        assert personal_limits(history) == {"a": limit_of(2.0)}


def test_a_history_without_limits_is_migrated_to_those_of_all_its_repetitions(
    tmp_path: Path,
) -> None:
    with open_history(tmp_path, []) as history:
        add(history, *(played(number // 9, 100 * 0.98**number) for number in range(60)))
        before = rows(history)
        history.write(as_before)

    with open_history(tmp_path, []) as history:
        assert rows(history) == before != []


def as_before(db: sqlite3.Connection) -> None:
    """Take a history back to the version without personal limits."""
    db.execute("DROP TABLE personal")
    db.execute("DROP INDEX repetition_kind")
    db.execute("PRAGMA user_version = 8")


@pytest.mark.parametrize(
    ("column", "value", "said"),
    [
        ("loads", "[]", "loads: expected at most 36 numbers from 0 to 4, found '[]'"),
        ("loads", "[5]", "loads: expected at most 36 numbers from 0 to 4, found '[5]'"),
        ("loads", "{", "loads: expected JSON, found '{'"),
        ("loads", "[NaN]", "loads: expected at most 36 numbers from 0 to 4, found '[NaN]'"),
        ("days", "[]", "days: expected a list of 1 dates, found '[]'"),
        ("days", '["soon"]', "days: expected a date, found 'soon'"),
        ("best", "low", "best: expected a number or nothing, found 'low'"),
        ("loads", "[true]", "loads: expected at most 36 numbers from 0 to 4, found '[true]'"),
        ("best", -1.0, "best: expected a number from 0 to 4 or nothing, found -1.0"),
        ("best", inf, "best: expected a number from 0 to 4 or nothing, found inf"),
        ("block", 4.5, "block: expected a number from 0 to 4 or nothing, found 4.5"),
        ("mark", -inf, "mark: expected a number from 0 to 4 or nothing, found -inf"),
        ("told", "now", "told: expected a date, found 'now'"),
        ("since", -1, "since: expected a whole number from 0 to 1000000000, found -1"),
    ],
)
def test_damage_of_a_limit_is_said_with_its_place(
    tmp_path: Path, column: str, value: object, said: str
) -> None:
    with open_history(tmp_path, []) as history:
        add(history, played(0))
        history.write(lambda db: db.execute(f"UPDATE personal SET {column} = ?", (value,)))

        with pytest.raises(StoreError) as refused:
            personal_limits(history)
        with pytest.raises(StoreError):
            add(history, played(0))

    assert str(refused.value) == f"{tmp_path / FILE}: personal limit of 'a': {said}"
