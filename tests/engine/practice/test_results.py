"""What a past repetition counts for, and how much of its time a session has left."""

from datetime import UTC, date, datetime

import pytest

from engine.practice.results import AWAY, Purpose, Result, Session, SessionKind

DAY = date(2024, 5, 17)


def result(
    *,
    void: bool = False,
    feet: bool = True,
    why: Purpose = Purpose.CHOSEN,
    took: float | None = 8.0,
) -> Result:
    """A clean repetition, unless it is void."""
    return Result("a", DAY, None if void else 90.0, not void, void, feet=feet, why=why, took=took)


def session(*seconds: float | None) -> Session:
    """Five minutes of repetitions that took so many seconds each."""
    results = tuple(result(took=time) for time in seconds)
    return Session(1, SessionKind.FIVE, datetime(2024, 5, 17, tzinfo=UTC), 5.0, 1, results)


@pytest.mark.parametrize(
    ("past", "counts", "is_practice"),
    [
        (result(), True, True),
        (result(void=True), False, False),
        (result(feet=False), False, False),
        (result(why=Purpose.TRIAL), False, True),
        (result(why=Purpose.TRIAL, void=True), False, False),
    ],
)
def test_feet_make_a_day_practised_and_all_but_trials_count(
    past: Result, counts: bool, is_practice: bool
) -> None:
    assert (past.counts, past.is_practice) == (counts, is_practice)


@pytest.mark.parametrize(
    ("seconds", "spent"),
    [((), 0.0), ((8.0, 7.0), 15.0), ((AWAY,), 90.0), ((AWAY + 0.1, 1.0), 91.0), ((None, 2.0), 2.0)],
)
def test_a_repetition_uses_up_at_most_ninety_seconds_of_a_session(
    seconds: tuple[float | None, ...], spent: float
) -> None:
    begun = session(*seconds)

    assert begun.spent == spent
    assert begun.left == 300.0 - spent
