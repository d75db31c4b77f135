"""What is worth a moment, and which comes first where there are several."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from drills.level import PassRule
from drills.score import Reason, Verdict
from engine.drill.moment_rules import (
    Achievement,
    AchievementKind,
    Standing,
    achieved,
    best_of_set,
    days_row,
    greatest_first,
    next_row,
)
from engine.practice.passes import LevelProgress
from engine.practice.results import Purpose
from engine.practice.retention import Retention
from engine.store import Record
from tests.made import level, record

DAY = date(2024, 5, 17)
LEVEL = level(id="closer", title="Closer to the brake", rule=PassRule(8, 10))
PASSED = LevelProgress(passed=True)
DUE = Retention(due=DAY, day=DAY, first=(True, True, True))
CLEAN = record(verdict=Verdict(Reason.CLEAN, 90.0))


def did(before: Standing, after: Standing, played: Record = CLEAN) -> tuple[Achievement, ...]:
    """What a repetition of the level achieved on the day."""
    return achieved(LEVEL, before, after, played)


def test_a_repetition_that_passes_its_level_is_a_moment() -> None:
    before, after = Standing(), Standing(PASSED, Retention.passed(DAY))

    found = did(before, after)

    assert found == (
        Achievement(AchievementKind.PASSED, "Passed: Closer to the brake.", level="closer"),
    )
    assert did(after, after) == ()


@pytest.mark.parametrize(
    ("outlasted", "missed", "words", "note", "rings", "is_new"),
    [
        (0, False, "Retained: Closer to the brake.", "Next check-up in 3 days.", 1, True),
        (1, False, "Retained: Closer to the brake.", "Next check-up in 7 days.", 1, False),
        (2, False, "Well retained: Closer to the brake.", "Next check-up in 21 days.", 2, True),
        (3, False, "Well retained: Closer to the brake.", "Next check-up in 21 days.", 2, False),
        (1, True, "Retained: Closer to the brake.", "Next check-up in 3 days.", 1, False),
    ],
)
def test_a_repetition_that_decides_a_check_well_is_a_moment(
    outlasted: int, missed: bool, words: str, note: str, rings: int, is_new: bool
) -> None:
    retention = replace(DUE, outlasted=outlasted, missed=missed)
    before, after = Standing(PASSED, retention), Standing(PASSED, retention.after(DAY, True))

    found = did(before, after)

    assert found == (Achievement(AchievementKind.RETAINED, words, note, "closer", rings, is_new),)


def test_a_check_that_is_missed_or_undecided_is_no_moment() -> None:
    undecided = replace(DUE, first=(True,))
    missed = replace(DUE, first=(False, False))

    for retention, clean in ((undecided, True), (missed, False)):
        before, after = Standing(PASSED, retention), Standing(PASSED, retention.after(DAY, clean))
        assert before != after
        assert did(before, after) == ()


def test_rows_of_clean_repetitions_are_moments_at_round_lengths_only() -> None:
    rows = [
        row for row in range(1, 401) if did(Standing(clean_row=row - 1), Standing(clean_row=row))
    ]

    assert rows == [10, 25, 50, 100, 200, 300, 400]
    assert [next_row(row) for row in (0, 10, 25, 50, 99, 100)] == [10, 25, 50, 100, 100, 200]


@pytest.mark.parametrize(
    "changes",
    [
        {"verdict": Verdict(Reason.GAP)},
        {"verdict": Verdict(Reason.OVER_LIMIT, 40.0)},
        {"feet": False},
        {"why": Purpose.TRIAL},
    ],
)
def test_a_repetition_that_does_not_add_to_the_row_is_no_moment_of_it(
    changes: dict[str, Any],
) -> None:
    stands = Standing(clean_row=10)

    assert did(stands, stands) != ()
    assert did(stands, stands, replace(CLEAN, **changes)) == ()


def test_the_row_counts_repetitions_of_other_levels_since_the_level_was_last_played() -> None:
    [row] = did(Standing(clean_row=3), Standing(clean_row=10))

    assert (row.kind, row.words) == (AchievementKind.ROW, "10 clean in a row.")


def test_a_row_that_breaks_is_no_moment() -> None:
    missed = replace(CLEAN, verdict=Verdict(Reason.OVER_LIMIT, 40.0))

    assert did(Standing(clean_row=24), Standing(clean_row=0), missed) == ()


@pytest.mark.parametrize(
    ("before", "after", "words", "note"),
    [
        (
            (6, False),
            (7, False),
            "7 clean of 10: your best on this level.",
            "8 clean of 10 pass it.",
        ),
        ((8, True), (9, True), "9 clean of 10: your best on this level.", ""),
    ],
)
def test_a_set_that_beats_the_best_on_its_level_is_a_moment(
    before: tuple[int, bool], after: tuple[int, bool], words: str, note: str
) -> None:
    old, new = (LevelProgress(passed=passed, best=best) for best, passed in (before, after))

    assert best_of_set(LEVEL, old, new) == (Achievement(AchievementKind.BEST, words, note),)


@pytest.mark.parametrize(
    ("before", "after"),
    [((0, False), (5, False)), ((6, False), (6, False)), ((7, False), (8, True))],
)
def test_a_first_set_one_that_beats_nothing_and_one_that_passes_are_no_best(
    before: tuple[int, bool], after: tuple[int, bool]
) -> None:
    old, new = (LevelProgress(passed=passed, best=best) for best, passed in (before, after))

    assert best_of_set(LEVEL, old, new) == ()


@pytest.mark.parametrize(
    ("before", "now", "is_longest", "said"),
    [
        (6, 7, False, [(AchievementKind.ROW, "7 days in a row.", "Next: 30 days in a row.")]),
        (6, 8, False, [(AchievementKind.ROW, "8 days in a row.", "Next: 30 days in a row.")]),
        (7, 8, False, []),
        (
            4,
            5,
            True,
            [(AchievementKind.BEST, "5 days in a row, your longest.", "Next: 7 days in a row.")],
        ),
        (
            29,
            30,
            True,
            [(AchievementKind.BEST, "30 days in a row, your longest.", "Next: 100 days in a row.")],
        ),
        (364, 365, False, [(AchievementKind.ROW, "365 days in a row.", "")]),
    ],
)
def test_rows_of_days_are_moments_at_round_lengths_and_at_the_longest(
    before: int, now: int, is_longest: bool, said: list[tuple[AchievementKind, str, str]]
) -> None:
    found = days_row(before, now, is_longest=is_longest)

    assert [(one.kind, one.words, one.note) for one in found] == said


def test_the_greatest_comes_first_and_each_is_said_once() -> None:
    row, best = Achievement(AchievementKind.ROW, "row"), Achievement(AchievementKind.BEST, "best")
    passed = Achievement(AchievementKind.PASSED, "passed")
    retained = Achievement(AchievementKind.RETAINED, "retained")

    assert greatest_first([row, best, retained, passed, best]) == [passed, retained, best, row]


def test_a_level_passed_today_is_checked_tomorrow_and_not_retained_today() -> None:
    before, after = Standing(), Standing(PASSED, Retention.passed(DAY))

    later = after.retention.after(DAY, True)

    assert after.retention.due == DAY + timedelta(days=1)
    assert [one.kind for one in did(before, replace(after, retention=later))] == [
        AchievementKind.PASSED
    ]
