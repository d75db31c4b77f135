"""Clean repetitions in a row, and days practised in a row."""

from collections.abc import Iterable
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.practice.streaks import DayStreak, clean_streak
from tests.engine.practice.plain import day_streak, has_rest_left

TODAY = date(2024, 3, 31)


def days(marks: str, today: date = TODAY) -> list[date]:
    """The days practised: the last mark is today, X practised, . not."""
    return [
        today - timedelta(days=back) for back, mark in enumerate(reversed(marks)) if mark == "X"
    ]


def last(practised: Iterable[date]) -> DayStreak | None:
    """The last of these days, each following the one before."""
    streaks: DayStreak | None = None
    for day in sorted(practised):
        now = DayStreak(day)
        streaks = now if streaks is None else now.following(streaks)
    return streaks


def streak_on(today: date, practised: Iterable[date]) -> int:
    """The days in a row on a day."""
    streaks = last(practised)
    return 0 if streaks is None else streaks.streak_on(today)


@pytest.mark.parametrize(
    ("marks", "row"), [("", 0), ("+++", 3), ("++-", 0), ("+-++", 2), ("+--+", 1)]
)
def test_a_clean_streak_counts_from_the_last_repetition_that_was_not_clean(
    marks: str, row: int
) -> None:
    found = 0

    for mark in marks:
        found = clean_streak(found, mark == "+")

    assert found == row


@pytest.mark.parametrize(
    ("marks", "row"),
    [
        ("", 0),
        ("X", 1),
        ("XXX", 3),
        ("XXX.", 3),
        ("XXX.X", 4),
        ("XXX..", 3),
        ("XX..X", 1),
        ("XX...", 0),
        ("X.XXXXXX.X", 8),
        ("X.XXXXX.X", 6),
        ("XX.X.X", 2),
        ("X.XXXXXX.XXXXXX.X", 14),
        ("X.XXXXXX.XXXXXX.", 13),
        ("X.XXXXX.", 6),
        ("X.XXXXX..", 5),
        ("X.XXXXXX..", 7),
        ("X..XXXXXXXX", 8),
    ],
)
def test_one_rest_day_in_seven_does_not_break_the_days_in_a_row(marks: str, row: int) -> None:
    assert streak_on(TODAY, days(marks)) == row


@pytest.mark.parametrize("today", [date(2024, 3, 1), date(2024, 1, 1), date(2023, 10, 29)])
def test_days_are_counted_across_months_years_and_changes_of_the_clock(today: date) -> None:
    assert streak_on(today, days("XXXXXXXXXX", today)) == 10


def test_a_day_counts_its_repetitions_and_the_clean_ones_of_them() -> None:
    day = DayStreak(TODAY).plus(True).plus(False).plus(True)

    assert day == DayStreak(TODAY, counted=3, clean=2, row=1, unbroken=1)


def test_following_another_day_leaves_the_counts_alone() -> None:
    before = DayStreak(TODAY - timedelta(days=1), counted=9, clean=7, row=4, unbroken=2)

    day = DayStreak(TODAY, counted=3, clean=2).following(before)

    assert day == DayStreak(TODAY, counted=3, clean=2, row=5, unbroken=3)


BACK = st.sets(st.integers(0, 40))


@given(back=BACK, idle=st.integers(0, 4))
def test_the_day_streak_agrees_with_the_plain_rule(back: set[int], idle: int) -> None:
    practised = [TODAY - timedelta(days=one) for one in back]
    today = TODAY + timedelta(days=idle)

    assert streak_on(today, practised) == day_streak(practised, today)


@given(back=BACK, added=st.integers(0, 30))
def test_one_more_day_practised_never_shortens_the_days_in_a_row(
    back: set[int], added: int
) -> None:
    before = {TODAY - timedelta(days=one) for one in back}

    longer = streak_on(TODAY, before | {TODAY - timedelta(days=added)})

    assert longer >= streak_on(TODAY, before)


@given(back=BACK)
def test_the_days_in_a_row_are_never_more_than_the_days_practised(back: set[int]) -> None:
    assert 0 <= streak_on(TODAY, [TODAY - timedelta(days=one) for one in back]) <= len(back)


@given(back=BACK)
def test_practising_today_adds_exactly_one(back: set[int]) -> None:
    before = {TODAY - timedelta(days=one) for one in back - {0}}

    assert streak_on(TODAY, before | {TODAY}) == streak_on(TODAY, before) + 1


@pytest.mark.parametrize(
    ("marks", "left"),
    [
        ("X", True),
        ("X.", True),
        ("X..", False),
        ("XXX", True),
        ("XXX.", True),
        ("XXX..", False),
        ("X.XXXXX", False),
        ("X.XXXXXX", True),
        ("X.XXXXX.", False),
        ("X.XXXXXX.", True),
        ("X.XXXXXX..", False),
        ("XX.X.X", False),
    ],
)
def test_a_streak_has_a_rest_day_left_where_it_survives_missing_the_next_day(
    marks: str, left: bool
) -> None:
    row = last(days(marks))

    assert row is not None
    assert row.has_rest_left(TODAY) == left


@pytest.mark.parametrize(
    ("marks", "ended"),
    [
        ("XX", False),
        ("XX.", False),
        ("XX..", False),
        ("XX...", True),
        ("X.XXXX.", False),
        ("X.XXXX..", True),
        ("X.XXXXXX..", False),
    ],
)
def test_a_streak_has_ended_where_it_is_shorter_than_it_was(marks: str, ended: bool) -> None:
    row = last(days(marks))

    assert row is not None
    assert row.ended_by(TODAY) == ended


@given(back=BACK, idle=st.integers(0, 4))
def test_the_rest_day_left_agrees_with_the_plain_rule(back: set[int], idle: int) -> None:
    practised = [TODAY - timedelta(days=one) for one in back]
    today, row = TODAY + timedelta(days=idle), last(practised)

    left = row is not None and row.has_rest_left(today)

    assert left == has_rest_left(practised, today)


@given(back=BACK.filter(bool))
def test_missing_a_day_shortens_a_streak_only_without_a_rest_day_left(
    back: set[int],
) -> None:
    practised = {TODAY - timedelta(days=one) for one in back | {0}}
    row, after = streak_on(TODAY, practised), TODAY + timedelta(days=2)

    found = last(practised)

    assert found is not None
    assert found.has_rest_left(TODAY) == (streak_on(after, practised) == row)
    assert found.has_rest_left(TODAY) == (streak_on(after, practised | {after}) == row + 1)
