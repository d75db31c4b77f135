"""Trials on real files: what is kept of one, and that it enters nothing but the days in a row."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, date, datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import pytest

from drills.calibration import Calibration, Range
from drills.level import PassRule
from drills.score import Reason, Verdict
from engine.practice.results import Purpose, Streaks
from engine.store import History, StoreError, ledger, open_history
from engine.store.courses import courses_of
from engine.store.days import practice_days
from engine.store.history import FILE
from engine.store.repetitions import add_repetition, recent_results
from engine.trial.by_days import DayBlip
from engine.trial.by_days_saved import day_blips
from engine.trial.saved import all_trials, end_trial, keep_new_trial, trial_under_way
from engine.trial.trial import Ball, Heel, SetUp, Shoes, Spacing, Trial, TrialRepetition
from tests.made import SCALE, record
from tests.stored import rebuild_ledger

WEST = timezone(timedelta(hours=-5))
EVENING = datetime(2024, 5, 17, 21, 30, 15, 250_000, tzinfo=WEST)
TODAY = date(2024, 5, 17)
BALL = SetUp("as ever")
TOES = SetUp(
    'toes, "light"', Ball.TOES, Heel.FLOATING, Shoes.BARE, Spacing.CLOSER, "heel on a book\nü"
)
CLEAN = Verdict(Reason.CLEAN, 90.0, (), {"dip": 1.5, "rebound": 0.5, "settle": 0.25, "surge": 1.0})
LEDGER = ("progress", "keeping", "day", "clean_row")


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A new history."""
    with open_history(tmp_path, []) as new:
        yield new


def begun(history: History, seed: int = 7) -> int:
    """A trial that begins."""
    return keep_new_trial(history, EVENING, "a-blip", (BALL, TOES), 8, seed)


def of_trial(trial: int | None, block: int | None = 0, **changes: object) -> dict[str, Any]:
    """What sets a repetition of a trial apart."""
    made = {"trial": trial, "block": block, "why": Purpose.TRIAL, "at": EVENING, "verdict": CLEAN}
    return made | {"rule": PassRule(1, 1), "trace": None} | changes


def ledger_rows(folder: Path) -> dict[str, list[tuple[object, ...]]]:
    """All that the ledger holds, by table."""
    with closing(sqlite3.connect(folder / FILE)) as other:
        return {
            table: other.execute(f"SELECT * FROM {table} ORDER BY 1").fetchall() for table in LEDGER
        }


def test_a_trial_that_begins_is_under_way_with_both_set_ups(history: History) -> None:
    number = begun(history, 2**62)

    found = trial_under_way(history)

    assert found == Trial(number, EVENING, "a-blip", BALL, TOES, 8, 2**62)
    assert found.began.utcoffset() == timedelta(hours=-5)


def test_a_trial_by_days_is_kept_as_one(history: History) -> None:
    begun(history)
    keep_new_trial(history, EVENING, "a-band", (BALL, TOES), 8, 7, by_days=True)

    found = all_trials(history)

    assert [trial.by_days for trial in found] == [False, True]
    assert [trial.fills for trial in found] == [5, 4]


def test_its_steadiness_blips_enter_the_ledger_as_practice(history: History) -> None:
    trial = keep_new_trial(history, EVENING, "a-band", (BALL, TOES), 8, 7, by_days=True)
    peaked = Verdict(Reason.CLEAN, 90.0, (), {"dip": 1.5, "surge": 2.5, "peak": 62.0})
    for verdict in (peaked, Verdict(Reason.WALKED_OUT, 0.0), Verdict(Reason.GAP)):
        add_repetition(history, record(**of_trial(trial, 3, why=Purpose.BAND, verdict=verdict)))

    found = day_blips(history, trial)

    assert found == [
        DayBlip(3, Reason.CLEAN, 2.5, 62.0),
        DayBlip(3, Reason.WALKED_OUT, None, None),
        DayBlip(3, Reason.GAP, None, None),
    ]
    assert practice_days(history) == [(TODAY, 2)]
    assert len(recent_results(history, 5)) == 3


def test_the_newest_that_is_not_over_is_under_way(history: History) -> None:
    numbers = [begun(history) for _ in range(3)]
    end_trial(history, numbers[2])

    found = trial_under_way(history)

    assert found is not None
    assert found.number == numbers[1]
    assert [trial.over for trial in all_trials(history)] == [False, False, True]


def test_where_every_trial_is_over_none_is_under_way(history: History) -> None:
    end_trial(history, begun(history))

    assert trial_under_way(history) is None


def test_its_repetitions_are_found_with_what_was_measured(history: History) -> None:
    other = Calibration(Range(0.0, 1.0), Range(0.0, 1.0))
    trial, another = begun(history), begun(history)
    kept = [
        record(**of_trial(trial)),
        record(**of_trial(another)),
        record(),
        record(**of_trial(trial, 1, verdict=Verdict(Reason.GAP), calibration=other)),
        record(**of_trial(trial, 1, verdict=Verdict(Reason.WALKED_OUT, 0.0))),
    ]
    traced = record().trace
    kept += [record(**of_trial(trial, 15, trace=traced, calibration=one)) for one in (SCALE, None)]
    for one in kept:
        add_repetition(history, one)

    found = all_trials(history)[0].repetitions

    usual = 1.5, 0.5, 0.25
    assert found == (
        TrialRepetition(1, 0, TODAY, Reason.CLEAN, *usual, None),
        TrialRepetition(4, 1, TODAY, Reason.GAP, None, None, None, None),
        TrialRepetition(5, 1, TODAY, Reason.WALKED_OUT, None, None, None, None),
        TrialRepetition(6, 15, TODAY, Reason.CLEAN, *usual, 1),
        TrialRepetition(7, 15, TODAY, Reason.CLEAN, *usual, None),
    )
    assert [one.void for one in found] == [False, True, False, False, False]


def test_a_trial_enters_nothing_but_the_days_in_a_row(history: History, tmp_path: Path) -> None:
    before = EVENING - timedelta(days=1)
    add_repetition(history, record(at=before, verdict=CLEAN, rule=PassRule(1, 1), trace=None))
    practised = ledger_rows(tmp_path)
    recent = recent_results(history, 5)

    for reason in (Reason.CLEAN, Reason.OVER_LIMIT, Reason.CLEAN):
        add_repetition(history, record(**of_trial(begun(history), verdict=Verdict(reason, 99.0))))

    after = ledger_rows(tmp_path)
    assert after["day"] == [*practised["day"], ("2024-05-17", 0, 0, 2, 2)]
    assert {**after, "day": practised["day"]} == practised
    assert recent_results(history, 5) == recent
    assert courses_of(history, {"blip": "dip"})["blip"].number.tolist() == [1]


def test_a_day_of_a_trial_alone_is_told_as_practised_with_nothing_counted(
    history: History,
) -> None:
    add_repetition(history, record(**of_trial(begun(history))))

    found = ledger.streaks(history, TODAY)

    assert found == Streaks(
        0, 0, 0, 1, best_days_streak=1, began=TODAY, rest_left=True, practised=True
    )
    assert practice_days(history) == [(TODAY, 0)]


@pytest.mark.parametrize("changes", [{"feet": False}, {"verdict": Verdict(Reason.GAP)}])
def test_a_trial_by_no_feet_or_a_void_one_is_no_practice(
    history: History, changes: dict[str, Any]
) -> None:
    add_repetition(history, record(**(of_trial(begun(history)) | changes)))

    assert practice_days(history) == []
    assert ledger.streaks(history, TODAY).days_streak == 0


def test_practice_after_a_trial_counts_on_its_day(history: History) -> None:
    add_repetition(history, record(**of_trial(begun(history))))

    add_repetition(history, record(at=EVENING, verdict=CLEAN, trace=None))

    assert practice_days(history) == [(TODAY, 1)]


def test_a_ledger_made_anew_is_the_one_that_was_entered(history: History, tmp_path: Path) -> None:
    trial = begun(history)
    for hours, more in enumerate(({}, of_trial(trial), of_trial(trial, feet=False), {}, {})):
        at = EVENING.astimezone(UTC) + timedelta(hours=17 * hours)
        add_repetition(
            history, record(**{"verdict": CLEAN, "rule": PassRule(1, 1), "trace": None, **more})
        )
        add_repetition(history, record(**{"trace": None, **more, "at": at}))
    entered = ledger_rows(tmp_path)

    rebuild_ledger(history)

    assert ledger_rows(tmp_path) == entered
    assert all(entered.values())


def test_a_trial_that_is_not_there_is_named(history: History, tmp_path: Path) -> None:
    with pytest.raises(StoreError) as refused:
        end_trial(history, 41)

    assert str(refused.value) == f"{tmp_path / FILE}: no trial 41"


def test_a_repetition_of_a_trial_that_was_lost_is_stored_without_it(history: History) -> None:
    add_repetition(history, record(**of_trial(41)))

    with history.reading() as db:
        found = db.execute("SELECT trial FROM repetition").fetchall()
    assert found == [(None,)]


@pytest.mark.parametrize(
    "damage",
    [
        "trial SET began_utc = 'soon'",
        "trial SET offset = 1440",
        "trial SET level = x'00'",
        "trial SET a = '{'",
        "trial SET b = '[]'",
        "trial SET b = '{}'",
        "trial SET a = json_set(a, '$.ball', 'arch')",
        "trial SET a = json_set(a, '$.heel', 5)",
        "trial SET pairs = 5",
        "trial SET seed = -1",
        "trial SET over = 2",
        "trial SET by_days = 2",
        "repetition SET block = 32",
        "repetition SET block = NULL",
        "measure SET value = 'deep' WHERE value = 1.5",
    ],
)
def test_a_trial_that_cannot_be_understood_is_left_out(tmp_path: Path, damage: str) -> None:
    with open_history(tmp_path, []) as history:
        add_repetition(history, record(**of_trial(begun(history))))
        other = begun(history)
    with closing(sqlite3.connect(tmp_path / FILE)) as db, db:
        where = "id = 1" if damage.startswith("trial") else "1"
        db.execute(f"UPDATE {damage}" + ("" if "WHERE" in damage else f" WHERE {where}"))

    with open_history(tmp_path, []) as history:
        found = all_trials(history)
        under_way = trial_under_way(history)

    assert [trial.number for trial in found] == [other]
    assert under_way is not None
    assert under_way.number == other
