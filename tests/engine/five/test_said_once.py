"""What the end of a day says is of that session, whatever else was played on the day."""

from datetime import timedelta

from engine.practice.results import Purpose
from engine.store import History
from engine.store.repetitions import add_repetition
from tests.engine.five.test_moments import REVEALED, sometimes
from tests.engine.five.unattended import DATE, Minutes
from tests.made import record

LONGEST = "3 days in a row, your longest."


def practised(history: History, days_ago: int) -> None:
    """Store a repetition of a day before, or of today before the session."""
    add_repetition(history, record(at=DATE - timedelta(days=days_ago, minutes=5)))


def told(minutes: Minutes) -> list[str]:
    """All that the moments said."""
    return [f"{one['words']} {one['line']}" for one in minutes.details_of("moment")]


def test_a_second_session_of_a_day_does_not_say_again_what_the_first_one_passed(
    history: History,
) -> None:
    minutes = Minutes(history, sometimes, levels=REVEALED)

    minutes.play(minutes=2.0)
    minutes.play(minutes=1.0)

    first, second = minutes.details_of("day end")
    assert first["passed"] == ("First",)
    assert "First" not in str(second["passed"])
    assert second["lead"] != first["lead"]


def test_what_was_passed_before_an_interruption_is_said_at_the_end_of_the_same_session(
    history: History,
) -> None:
    minutes = Minutes(history, sometimes, levels=REVEALED)

    minutes.play(("moment", "menu"), ("menu", "Home"), minutes=2.0)
    minutes.play(minutes=2.0)

    assert "First" in str(minutes.details_of("day end")[0]["passed"])
    assert minutes.session.results[0].why is Purpose.LEARN


def test_the_longest_row_of_days_is_said_once_also_after_a_warm_up_or_a_set_of_the_day(
    history: History,
) -> None:
    for days_ago in (2, 1, 0):
        practised(history, days_ago)
    minutes = Minutes(history, sometimes, levels=REVEALED)

    minutes.play(minutes=1.0)
    first = told(minutes)
    minutes.play(minutes=1.0)

    assert sum(LONGEST in one for one in first) == 1
    assert sum(LONGEST in one for one in told(minutes)) == 1


def test_a_row_of_days_as_long_as_one_before_is_not_the_longest(history: History) -> None:
    for days_ago in (12, 11, 10, 2, 1, 0):
        practised(history, days_ago)
    minutes = Minutes(history, sometimes, levels=REVEALED)

    minutes.play(minutes=1.0)

    assert not any("days in a row" in one for one in told(minutes))
