"""The ledger beside the repetitions, against the plain rules over the whole history."""

import tempfile
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.level import PassRule
from drills.score import Reason, Verdict
from engine.practice.passes import LevelProgress
from engine.practice.results import Purpose, Streaks
from engine.practice.retention import Retention
from engine.store import History, Record, ledger, open_history
from engine.store.repetitions import add_repetition
from engine.store.retention import all_retention
from tests.engine.practice import plain
from tests.made import record
from tests.stored import all_results, rebuild_ledger

LEVELS = ("a", "b", "c")
START = datetime(2024, 2, 26, 12, tzinfo=UTC)
REASONS = (Reason.CLEAN, Reason.CLEAN, Reason.CLEAN, Reason.OVER_LIMIT, Reason.GAP)


def bare(
    level: str, reason: Reason, at: datetime, rule: PassRule, score: float = 50.0, **more: Any
) -> Record:
    """A repetition without trace and measures."""
    verdict = Verdict(reason, None if reason.void else score)
    made = {"level": level, "verdict": verdict, "at": at, "rule": rule} | more
    return record(**made, trace=None, sampling=None)


@st.composite
def histories(draw: st.DrawFn) -> list[Record]:
    """Repetitions of some levels: days and gaps forward, now and then back, and time zones."""
    at, kept = START, []
    for _ in range(draw(st.integers(0, 30))):
        hours = draw(st.sampled_from([0, 1, 12, 24, 24, 24, 24, 48, 72, -24, -30, -96, -400]))
        at += timedelta(hours=hours)
        zone = timezone(timedelta(minutes=draw(st.sampled_from([0, 0, 120, -480, 345]))))
        of = draw(st.integers(1, 6))
        rule = PassRule(draw(st.integers(1, of)), of)
        level, reason = draw(st.sampled_from(LEVELS)), draw(st.sampled_from(REASONS))
        feet = draw(st.sampled_from([True, True, True, False]))
        score = draw(st.sampled_from([0.0, 12.5, 50.0, 99.75]))
        why = draw(st.sampled_from([Purpose.CHOSEN, Purpose.CHOSEN, Purpose.DUE, Purpose.TRIAL]))
        more = {"feet": feet, "why": why}
        kept.append(bare(level, reason, at.astimezone(zone), rule, score, **more))
    return kept


@dataclass(frozen=True)
class Told:
    """All that a ledger tells."""

    standings: list[Streaks]
    levels: list[LevelProgress]
    passed: frozenset[str]
    retentions: dict[str, Retention]


def days_around(records: list[Record]) -> list[date]:
    """Every day from before the first repetition to after the last."""
    days = [one.at.date() for one in records] or [START.date()]
    span = (max(days) - min(days)).days
    return [min(days) + timedelta(days=number) for number in range(-2, span + 5)]


def look_up(history: History, days: list[date]) -> Told:
    """What the ledger of a history tells of some days."""
    levels = [ledger.level_progress(history, level) for level in LEVELS]
    standings = [ledger.streaks(history, day) for day in days]
    return Told(standings, levels, ledger.passed(history), all_retention(history))


def told_plainly(history: History, days: list[date]) -> Told:
    """What the whole history tells of them."""
    results = all_results(history)
    levels = [plain.level_progress(results, level) for level in LEVELS]
    standings = [plain.streaks(results, day) for day in days]
    return Told(standings, levels, plain.passed(results), plain.retentions(results))


@settings(max_examples=30)
@given(histories())
def test_the_ledger_tells_what_the_whole_history_tells(records: list[Record]) -> None:
    days = days_around(records)
    with tempfile.TemporaryDirectory() as folder, open_history(Path(folder), []) as history:
        for one in records:
            add_repetition(history, one)

        entered = look_up(history, days)
        plainly = told_plainly(history, days)
        rebuild_ledger(history)
        rebuilt = look_up(history, days)

    assert entered == plainly
    assert rebuilt == plainly


def test_a_new_history_stands_at_nothing(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        found = look_up(history, [START.date()])

    assert found == Told([Streaks(0, 0, 0, 0)], [LevelProgress()] * 3, frozenset(), {})


def test_each_level_is_passed_by_its_own_repetitions_under_its_own_rule(tmp_path: Path) -> None:
    rules = {"a": PassRule(3, 3), "b": PassRule(2, 4)}
    with open_history(tmp_path, []) as history:
        for level, reason in [
            *[("a", Reason.CLEAN), ("b", Reason.CLEAN), ("a", Reason.CLEAN), ("b", Reason.GAP)],
            *[("b", Reason.NO_BLIP), ("b", Reason.CLEAN), ("a", Reason.NO_BLIP)],
        ]:
            add_repetition(history, bare(level, reason, START, rules[level]))

        found = look_up(history, [START.date()])

    assert found == Told(
        [
            Streaks(
                6,
                4,
                0,
                1,
                3,
                best_days_streak=1,
                began=START.date(),
                rest_left=True,
                practised=True,
            )
        ],
        [
            LevelProgress((True, True, False), best=2, top=50.0),
            LevelProgress((True, False, True), passed=True, best=2, top=50.0),
            LevelProgress(),
        ],
        frozenset({"b"}),
        {"b": Retention(START.date() + timedelta(days=1))},
    )


@pytest.mark.parametrize(
    ("today", "row"), [(-1, 0), (0, 2), (1, 2), (2, 4), (3, 5), (4, 5), (5, 5), (6, 0)]
)
def test_a_day_that_is_told_late_joins_the_days_around_it(
    tmp_path: Path, today: int, row: int
) -> None:
    with open_history(tmp_path, []) as history:
        for day in (0, 2, 3, -1):
            add_repetition(
                history, bare("a", Reason.CLEAN, START + timedelta(days=day), PassRule())
            )
        before = ledger.streaks(history, START.date() + timedelta(days=today))
        add_repetition(history, bare("a", Reason.CLEAN, START + timedelta(days=1), PassRule()))

        after = ledger.streaks(history, START.date() + timedelta(days=today))

    assert before.days_streak == {-1: 1, 0: 2, 1: 2, 2: 3, 3: 4, 4: 4, 5: 2, 6: 0}[today]
    assert after.days_streak == {-1: 1, 0: 2, 1: 3}.get(today, row)


@pytest.mark.parametrize(("today", "longest"), [(-1, 4), (3, 3), (4, 4)])
def test_the_longest_row_of_days_before_today_leaves_out_that_of_today(
    tmp_path: Path, today: int, longest: int
) -> None:
    with open_history(tmp_path, []) as history:
        for day in (-1, 1, 2, 3):
            moment = START + timedelta(days=day)
            add_repetition(history, bare("a", Reason.CLEAN, moment, PassRule()))

        found = ledger.best_days_before(history, START.date() + timedelta(days=today))

    assert found == longest


def test_the_levels_that_placing_sets_went_past_are_kept_together(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        assert ledger.placed(history) == frozenset()

        ledger.keep_placed(history, ["b", "a"])
        ledger.keep_placed(history, ["c", "a"])

        assert ledger.placed(history) == {"a", "b", "c"}


@pytest.mark.parametrize(
    ("kept", "understood"), [("a", set()), (7, set()), (["a", 7], {"a"}), ({"a": 1}, set())]
)
def test_of_placed_levels_only_ids_in_a_list_are_understood(
    tmp_path: Path, kept: object, understood: set[str]
) -> None:
    with open_history(tmp_path, []) as history:
        history.keep_setting("placed", kept)

        assert ledger.placed(history) == understood
