"""The course of a measure, the days practised, and the repetitions whose traces may be shown."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import UTC, date, datetime, timedelta, timezone
from pathlib import Path

import numpy as np
import pytest

from drills.score import Reason, Verdict
from engine.practice.results import Purpose
from engine.store import History, StoreError, open_history
from engine.store.courses import courses_of, traced_numbers
from engine.store.days import practice_days
from engine.store.history import FILE
from engine.store.repetitions import add_repetition
from engine.trial.saved import keep_new_trial
from engine.trial.trial import SetUp
from tests.made import record

NOON = datetime(2024, 5, 17, 12, tzinfo=UTC)
TODAY = date(2024, 5, 17)
WANTED = {"blip": "dip", "hold": "total_error"}


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A new history."""
    with open_history(tmp_path, []) as new:
        yield new


def add(history: History, kind: str = "blip", value: float | None = 1.5, **changes: object) -> None:
    """Keep a repetition with the measure of its kind."""
    measures = {"settle": 0.5, WANTED.get(kind, "other"): value}
    verdict = Verdict(Reason.CLEAN, 90.0, (), measures)
    add_repetition(
        history, record(**{"kind": kind, "verdict": verdict, "at": NOON, "trace": None, **changes})
    )


def test_each_kind_has_its_own_measure_oldest_first(history: History) -> None:
    for kind, value in (("blip", 1.5), ("hold", 2.25), ("blip", None), ("run", 9.0), ("blip", 3.0)):
        add(history, kind, value)

    found = courses_of(history, WANTED)

    assert list(found) == ["blip", "hold"]
    assert found["blip"].number.tolist() == [1, 3, 5]
    assert np.array_equal(found["blip"].value, [1.5, np.nan, 3.0], equal_nan=True)
    assert found["hold"].value.tolist() == [2.25]
    assert found["blip"].day.tolist() == [TODAY.toordinal()] * 3


@pytest.mark.parametrize("wanted", [{}, {"blip": "dip"}, {"blip": "never measured"}])
def test_what_is_not_there_is_there_without_repetitions(
    history: History, wanted: dict[str, str]
) -> None:
    found = courses_of(history, wanted)

    assert {kind: len(course) for kind, course in found.items()} == dict.fromkeys(wanted, 0)


def test_a_measure_that_no_repetition_has_is_none_of_each(history: History) -> None:
    add(history)

    found = courses_of(history, {"blip": "never measured"})

    assert np.isnan(found["blip"].value).tolist() == [True]


def test_only_what_counts_is_in_it_but_a_trial_has_its_place_in_the_day(history: History) -> None:
    trial = keep_new_trial(history, NOON, "a-blip", _arms(), 6, 1)
    add(history)
    add(history, feet=False)
    add(history, verdict=Verdict(Reason.GAP))
    add(history, "run")
    add(history, why=Purpose.TRIAL, trial=trial, block=0)
    add(history)
    add(history, at=NOON + timedelta(days=1))

    found = courses_of(history, WANTED)["blip"]

    assert found.number.tolist() == [1, 6, 7]
    assert found.place.tolist() == [1, 4, 1]


@pytest.mark.parametrize(
    ("hour", "minutes", "day"),
    [
        (23, -300, date(2024, 5, 17)),
        (3, -300, date(2024, 5, 16)),
        (20, 540, date(2024, 5, 18)),
        (18, 345, date(2024, 5, 18)),
        (0, 0, date(2024, 5, 17)),
    ],
)
def test_a_day_is_the_local_one(history: History, hour: int, minutes: int, day: date) -> None:
    at = datetime(2024, 5, 17, hour, 20, tzinfo=UTC)
    add(history, at=at.astimezone(timezone(timedelta(minutes=minutes))), trace=record().trace)

    assert courses_of(history, WANTED)["blip"].day.tolist() == [day.toordinal()]
    assert practice_days(history) == [(day, 1)]
    assert traced_numbers(history, "blip", day, day) == [1]


def test_places_are_counted_by_the_local_day(history: History) -> None:
    east, west = timezone(timedelta(hours=9)), timezone(timedelta(hours=-9))
    for at in (NOON, NOON.astimezone(east), NOON.replace(hour=20).astimezone(east), NOON):
        add(history, at=at)
    add(history, at=NOON.replace(hour=2).astimezone(west))

    found = courses_of(history, WANTED)["blip"]

    assert (found.day - TODAY.toordinal()).tolist() == [0, 0, 1, 0, -1]
    assert found.place.tolist() == [1, 2, 1, 3, 1]


def test_days_come_in_order_with_what_counted(history: History) -> None:
    for days in (2, 0, 0, -40):
        add(history, at=NOON + timedelta(days=days))

    assert [(day.isoformat(), count) for day, count in practice_days(history)] == [
        *[("2024-04-07", 1), ("2024-05-17", 2), ("2024-05-19", 1)]
    ]


def test_the_repetitions_to_be_shown_count_and_have_a_trace(history: History) -> None:
    traced = record().trace
    trial = keep_new_trial(history, NOON, "a-blip", _arms(), 6, 1)
    add(history, trace=traced)
    add(history)
    add(history, trace=traced, feet=False)
    add(history, trace=traced, verdict=Verdict(Reason.GAP))
    add(history, "hold", trace=traced)
    add(history, trace=traced, why=Purpose.TRIAL, trial=trial, block=0)
    add(history, trace=traced, at=NOON + timedelta(days=6))
    add(history, trace=traced, at=NOON + timedelta(days=7))

    assert traced_numbers(history, "blip", TODAY, TODAY + timedelta(days=6)) == [1, 7]


@pytest.mark.parametrize(
    ("damage", "ask", "said"),
    [
        (
            "repetition SET at_utc = 'soon'",
            lambda history: courses_of(history, WANTED),
            "repetition 1: at_utc: expected a date, found None",
        ),
        (
            "measure SET value = 'deep' WHERE value = 1.5",
            lambda history: courses_of(history, WANTED),
            "repetition 1: measure: expected a number or nothing, found 'deep'",
        ),
        (
            "day SET day = 'Friday'",
            practice_days,
            "day 'Friday': day: expected a date, found 'Friday'",
        ),
        (
            "day SET counted = 'all'",
            practice_days,
            "day '2024-05-17': counted: expected a whole number from 0 to 1000000000, found 'all'",
        ),
    ],
)
def test_damage_is_said_with_its_place(
    tmp_path: Path, damage: str, ask: Callable[[History], object], said: str
) -> None:
    with open_history(tmp_path, []) as history:
        add(history)
    with closing(sqlite3.connect(tmp_path / FILE)) as other, other:
        other.execute(f"UPDATE {damage}")

    with open_history(tmp_path, []) as history, pytest.raises(StoreError) as refused:
        ask(history)

    assert str(refused.value) == f"{tmp_path / FILE}: {said}"


def _arms() -> tuple[SetUp, SetUp]:
    return SetUp("A"), SetUp("B")
