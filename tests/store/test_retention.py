"""Retention of levels in the ledger, compared with the plain rule over the whole history."""

from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.score import Reason, Verdict
from engine.practice.results import Result
from engine.practice.retention import Retention
from engine.store import History, Record, open_history
from engine.store.repetitions import add_repetition
from engine.store.retention import all_retention
from tests.engine.practice import plain
from tests.made import record
from tests.stored import enter, in_memory, rebuild_from

FIRST = datetime(2024, 2, 26, 12, tzinfo=UTC)


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A new history."""
    with open_history(tmp_path, []) as new:
        yield new


def on(days: int, clean: bool = True) -> Record:
    """A repetition without trace and measures, so many days after the first."""
    verdict = Verdict(Reason.CLEAN, 90.0) if clean else Verdict(Reason.NO_BLIP, 10.0)
    at = FIRST + timedelta(days=days)
    return record(verdict=verdict, at=at, rule=plain.ONCE, trace=None, sampling=None)


def day(days: int) -> date:
    """The local day so many days after the first."""
    return FIRST.date() + timedelta(days=days)


@st.composite
def shown_again(draw: st.DrawFn) -> list[Result]:
    """Many repetitions of two levels that are soon passed, a few of them on each of some days."""
    today, done = FIRST.date(), []
    for _ in range(draw(st.integers(1, 12))):
        today += timedelta(days=draw(st.sampled_from([1, 1, 1, 2, 3, 7, 21, -1, -2, -25])))
        of_ten = draw(st.sampled_from([2, 7, 9, 10]))
        for mark in draw(st.lists(st.integers(1, 10), max_size=12)):
            level, void = draw(st.sampled_from("aab")), draw(st.sampled_from([False] * 9 + [True]))
            done.append(Result(level, today, None, mark <= of_ten, void, plain.ONCE))
    return done


@settings(max_examples=60)
@given(shown_again())
def test_the_ledger_tells_what_the_whole_history_tells_of_retention(results: list[Result]) -> None:
    with in_memory() as history:
        enter(history, *results)
        entered = all_retention(history)
        rebuild_from(history, results)
        rebuilt = all_retention(history)

    assert entered == plain.retentions(results)
    assert rebuilt == entered


def test_a_level_that_is_not_passed_is_not_there(history: History) -> None:
    add_repetition(history, on(0, clean=False))

    assert all_retention(history) == {}


def test_a_level_is_due_the_day_after_it_is_passed(history: History) -> None:
    add_repetition(history, on(0))
    add_repetition(history, on(0))

    assert all_retention(history) == {"a-blip": Retention(due=day(1))}


def test_what_was_begun_to_be_shown_is_there_after_opening_again(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        for one in (on(0), on(4), on(4, clean=False)):
            add_repetition(history, one)

    with open_history(tmp_path, []) as again:
        assert all_retention(again) == {
            "a-blip": Retention(day(1), 0, False, day(4), (True, False))
        }


def test_what_does_not_count_shows_nothing(history: History) -> None:
    add_repetition(history, on(0))
    void = record(verdict=Verdict(Reason.GAP), at=FIRST + timedelta(days=1), rule=plain.ONCE)
    tried = record(feet=False, at=FIRST + timedelta(days=1), rule=plain.ONCE)

    add_repetition(history, void)
    add_repetition(history, tried)

    assert all_retention(history) == {"a-blip": Retention(due=day(1))}


def test_a_level_that_is_kept_waits_longer_and_one_that_is_not_waits_a_day(
    history: History,
) -> None:
    for one in (on(0), *[on(1)] * 4, *[on(4, clean=False)] * 3):
        add_repetition(history, one)

    assert all_retention(history) == {
        "a-blip": Retention(day(5), 1, True, day(4), (False, False, False)),
    }
