"""Clean repetitions in a row, and days practised in a row."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.practice.results import Result
from engine.practice.streaks import clean_streak, day_streak

TODAY = date(2024, 3, 31)


def days(marks: str, today: date = TODAY) -> list[date]:
    """The days practised: the last mark is today, X practised, . not."""
    return [
        today - timedelta(days=back) for back, mark in enumerate(reversed(marks)) if mark == "X"
    ]


def results(marks: str) -> list[Result]:
    """Results: + clean, - not clean, v void."""
    return [Result("one", TODAY, 50.0, m == "+", m == "v") for m in marks]


@pytest.mark.parametrize(
    ("marks", "streak"),
    [("", 0), ("+++", 3), ("++-", 0), ("+-++", 2), ("+-+v+v", 2), ("vv", 0), ("-v++v", 2)],
)
def test_clean_ones_in_a_row_are_counted_over_void_ones(marks: str, streak: int) -> None:
    assert clean_streak(results(marks)) == streak


@pytest.mark.parametrize(
    ("marks", "streak"),
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
        ("X..XXXXXXXX", 8),
    ],
)
def test_one_rest_day_in_seven_does_not_break_the_days_in_a_row(marks: str, streak: int) -> None:
    assert day_streak(days(marks), TODAY) == streak


@pytest.mark.parametrize("today", [date(2024, 3, 1), date(2024, 1, 1), date(2023, 10, 29)])
def test_days_are_counted_across_months_years_and_changes_of_the_clock(today: date) -> None:
    assert day_streak(days("XXXXXXXXXX", today), today) == 10


def test_days_to_come_and_days_told_twice_count_for_nothing() -> None:
    told = [*days("XX"), TODAY, TODAY + timedelta(days=1), TODAY + timedelta(days=2)]

    assert day_streak(told, TODAY) == 2


BACK = st.sets(st.integers(0, 30))


@given(back=BACK, added=st.integers(0, 30))
def test_one_more_day_practised_never_shortens_the_days_in_a_row(
    back: set[int], added: int
) -> None:
    before = [TODAY - timedelta(days=one) for one in back]

    longer = day_streak([*before, TODAY - timedelta(days=added)], TODAY)

    assert longer >= day_streak(before, TODAY)


@given(back=BACK)
def test_the_days_in_a_row_are_never_more_than_the_days_practised(back: set[int]) -> None:
    assert 0 <= day_streak([TODAY - timedelta(days=one) for one in back], TODAY) <= len(back)


@given(back=BACK)
def test_practising_today_adds_exactly_one(back: set[int]) -> None:
    before = [TODAY - timedelta(days=one) for one in back - {0}]

    assert day_streak([*before, TODAY], TODAY) == day_streak(before, TODAY) + 1
