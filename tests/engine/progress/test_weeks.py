"""The first week of practice and the current one, which the history lays side by side."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from engine.progress.bins import DateRange, two_weeks

DAY = timedelta(days=1)
BEGAN = date(2026, 3, 4)
FIRST = DateRange(BEGAN, date(2026, 3, 10))


def practised(*after: int) -> list[date]:
    """Days practised, as numbers of days after the first."""
    return [BEGAN + days * DAY for days in after]


def test_the_first_seven_days_and_the_last_seven_up_to_today_are_the_two() -> None:
    found = two_weeks(practised(0, 1, 40, 58), BEGAN + 60 * DAY)

    assert found == (FIRST, DateRange(date(2026, 4, 27), date(2026, 5, 3)))


def test_after_a_pause_the_second_ends_on_the_newest_practised_day() -> None:
    found = two_weeks(practised(0, 1, 40), BEGAN + 47 * DAY)

    assert found == (FIRST, DateRange(date(2026, 4, 7), date(2026, 4, 13)))


def test_a_week_with_one_day_of_practice_is_still_this_week() -> None:
    found = two_weeks(practised(0, 1, 40), BEGAN + 46 * DAY)

    assert found == (FIRST, DateRange(date(2026, 4, 13), date(2026, 4, 19)))


def test_before_the_fourteenth_day_there_is_only_the_first_week() -> None:
    assert two_weeks(practised(0, 12), BEGAN + 12 * DAY) == (FIRST,)
    assert two_weeks(practised(0, 12), BEGAN + 13 * DAY) == (
        FIRST,
        DateRange(date(2026, 3, 11), date(2026, 3, 17)),
    )


def test_a_foot_that_stopped_after_its_first_week_has_no_second() -> None:
    assert two_weeks(practised(0, 3, 6), BEGAN + 400 * DAY) == (FIRST,)


def test_without_practice_there_are_no_weeks() -> None:
    assert two_weeks([], BEGAN) == ()


def test_a_day_of_another_time_zone_after_today_is_in_this_week() -> None:
    found = two_weeks(practised(0, 21), BEGAN + 20 * DAY)

    assert found == (FIRST, DateRange(date(2026, 3, 19), date(2026, 3, 25)))


@given(
    after=st.sets(st.integers(1, 400), max_size=20).map(sorted),
    waited=st.integers(0, 400),
)
def test_the_two_weeks_never_overlap_and_each_has_practice(after: list[int], waited: int) -> None:
    days = practised(0, *after)

    found = two_weeks(days, days[-1] + waited * DAY)

    assert all(any(week.first <= day <= week.last for day in days) for week in found)
    assert all((week.last - week.first).days == 6 for week in found)
    assert len(found) < 2 or found[0].last < found[1].first
