"""The newest repetitions, and the newest blips of a level, without reading all that came before."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import date, datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import pytest

from drills.score import Reason, Verdict
from engine.five.saved import stored_blips
from engine.practice.results import Purpose
from engine.store import History, open_history
from engine.store.history import FILE
from engine.store.repetitions import add_repetition, recent_results
from tests.made import record
from tests.stored import all_results

FIRST = datetime(2024, 5, 17, 20, 15, tzinfo=timezone(timedelta(hours=2)))


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A new history."""
    with open_history(tmp_path, []) as new:
        yield new


def blip(
    history: History,
    dip: float | None,
    surge: float | None,
    peak: float | None = 60.0,
    **changes: object,
) -> None:
    """Keep a blip with three measures."""
    verdict = Verdict(Reason.CLEAN, 90.0, (), {"dip": dip, "surge": surge, "peak": peak})
    made = {"verdict": verdict, "why": Purpose.BAND, "at": FIRST, "trace": None, **changes}
    add_repetition(history, record(**made))


@pytest.mark.parametrize(
    ("count", "levels"), [(0, ""), (1, "e"), (3, "cde"), (5, "abcde"), (99, "abcde")]
)
def test_the_newest_come_oldest_first(history: History, count: int, levels: str) -> None:
    for level in "abcde":
        add_repetition(history, record(level=level, why=Purpose.MIX, took=2.5, trace=None))

    found = recent_results(history, count)

    assert "".join(one.level for one in found) == levels
    assert found == all_results(history)[len("abcde") - len(levels) :]
    assert all((one.kind, one.why, one.took) == ("blip", Purpose.MIX, 2.5) for one in found)


def test_what_lies_before_the_newest_is_not_read(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        for _ in range(4):
            add_repetition(history, record(trace=None))
    with closing(sqlite3.connect(tmp_path / FILE)) as other, other:
        other.execute("UPDATE repetition SET at_utc = 'damaged' WHERE id <= 2")
        other.execute("CREATE INDEX other ON repetition (level, at_utc, clean, why, took)")

    with open_history(tmp_path, []) as history:
        found = recent_results(history, 2)

    assert [one.level for one in found] == ["a-blip", "a-blip"]


def test_a_blip_deviates_by_the_larger_of_dip_and_surge_and_has_its_peak(history: History) -> None:
    blip(history, 3.5, 1.25, 71.5, asked=6.0)
    blip(history, 2.0, 8.5, 40.25, at=FIRST + timedelta(days=1))
    blip(history, 0.0, 0.0, asked=4.5, at=FIRST + timedelta(days=1, hours=4))

    found = stored_blips(history, "a-blip", Purpose.BAND, 10)

    assert found == [
        (date(2024, 5, 17), 6.0, 3.5, 71.5),
        (date(2024, 5, 18), None, 8.5, 40.25),
        (date(2024, 5, 19), 4.5, 0.0, 60.0),
    ]


def test_only_the_newest_blips_are_told_the_newest_last(history: History) -> None:
    for size in (1.0, 2.0, 3.0, 4.0):
        blip(history, size, 0.5)

    assert [size for _, _, size, _ in stored_blips(history, "a-blip", Purpose.BAND, 3)] == [
        2.0,
        3.0,
        4.0,
    ]


@pytest.mark.parametrize(
    "changes",
    [
        {"dip": None},
        {"surge": None},
        {"peak": None},
        {"level": "another"},
        {"why": Purpose.WARM},
        {"feet": False},
        {"verdict": Verdict(Reason.GAP, None, (), {"dip": 1.0, "surge": 1.0, "peak": 60.0})},
        {"verdict": Verdict(Reason.CLEAN, 90.0, (), {"dip": 1.0, "peak": 60.0})},
        {"verdict": Verdict(Reason.CLEAN, 90.0, (), {"dip": 1.0, "surge": 1.0})},
        {"verdict": Verdict(Reason.CLEAN, 90.0, (), {})},
    ],
)
def test_a_blip_of_another_sort_or_without_all_measures_is_passed_over(
    history: History, changes: dict[str, Any]
) -> None:
    blip(history, 1.5, 2.5)
    blip(history, **{"dip": 7.0, "surge": 9.0, **changes})

    found = stored_blips(history, "a-blip", Purpose.BAND, 1)

    assert [size for _, _, size, _ in found] == [2.5]
