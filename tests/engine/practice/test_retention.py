"""What keeps a level that was passed: every outcome of a day, the intervals, misses and clocks."""

from datetime import date, timedelta
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binom

from engine.practice.results import Result
from engine.practice.retention import INTERVALS, CheckOutcome, Retention, check_outcome
from tests.engine.practice import plain

DAY = timedelta(days=1)
PASSED = date(2024, 5, 17)
TENS = list(product((True, False), repeat=10))
KEEPS = "++++"
MISSES = "---"


def marked(marks: str) -> list[bool]:
    """Repetitions: + clean, - not clean."""
    return [mark == "+" for mark in marks]


def played(retention: Retention, day: date, marks: str) -> Retention:
    """After some repetitions on a day."""
    for clean in marked(marks):
        retention = retention.after(day, clean)
    return retention


def kept(times: int) -> Retention:
    """Of a level that was kept so many times, each on the day it was due."""
    retention = Retention.passed(PASSED)
    for _ in range(times):
        retention = played(retention, due(retention), KEEPS)
    return retention


def due(retention: Retention) -> date:
    """The day from which it is to be shown."""
    assert retention.due is not None
    return retention.due


def told(outcomes: tuple[bool, ...]) -> tuple[CheckOutcome, int]:
    """What outcomes show as soon as they show anything, and after how many."""
    for count in range(1, len(outcomes) + 1):
        found = check_outcome(outcomes[:count])
        if found is not CheckOutcome.OPEN:
            return found, count
    return CheckOutcome.OPEN, len(outcomes)


def test_all_sets_of_ten_repetitions_have_the_outcome_of_the_plain_rule() -> None:
    for ten in TENS:
        wanted = CheckOutcome.RETAINED if plain.is_retained(ten) else CheckOutcome.NOT_TODAY

        assert told(ten)[0] is wanted


def test_a_check_takes_exactly_as_many_repetitions_as_it_needs() -> None:
    for ten in TENS:
        count = told(ten)[1]

        assert plain.is_decided(ten[:count])
        assert not any(plain.is_decided(ten[:fewer]) for fewer in range(count))


def test_all_sets_of_ten_repetitions_of_a_day_agree_with_the_plain_rule() -> None:
    passing = Result("a", PASSED, None, True, False, plain.ONCE)
    day = PASSED + DAY
    for ten in TENS:
        retention = Retention.passed(PASSED)
        for clean in ten:
            retention = retention.after(day, clean)

        results = [Result("a", day, None, clean, False, plain.ONCE) for clean in ten]
        assert retention == plain.retention([passing, *results], "a")


@pytest.mark.parametrize(
    ("marks", "wanted", "count"),
    [
        ("++++", CheckOutcome.RETAINED, 4),
        ("-++++", CheckOutcome.RETAINED, 5),
        ("++-++", CheckOutcome.RETAINED, 5),
        ("--++++++++", CheckOutcome.RETAINED, 10),
        ("+-+-++++++", CheckOutcome.RETAINED, 10),
        ("--+++++++-", CheckOutcome.NOT_TODAY, 10),
        ("---", CheckOutcome.NOT_TODAY, 3),
        ("++---", CheckOutcome.NOT_TODAY, 5),
        ("--+-", CheckOutcome.NOT_TODAY, 4),
        ("+++--", CheckOutcome.OPEN, 5),
        ("+++", CheckOutcome.OPEN, 3),
        ("", CheckOutcome.OPEN, 0),
    ],
)
def test_four_of_the_first_five_retain_a_level_else_eight_of_the_first_ten(
    marks: str, wanted: CheckOutcome, count: int
) -> None:
    assert told(tuple(marked(marks))) == (wanted, count)


@pytest.mark.parametrize(("share", "chance"), [(0.5, 0.1973), (0.8, 0.8044), (0.9, 0.9616)])
def test_the_chance_to_be_retained_agrees_with_the_binomial_distribution(
    share: float, chance: float
) -> None:
    at_once = binom.sf(3, 5, share)
    in_the_end = sum(binom.pmf(k, 5, share) * binom.sf(7 - k, 5, share) for k in range(4))

    found = sum(
        share ** sum(ten) * (1 - share) ** (10 - sum(ten))
        for ten in TENS
        if told(ten)[0] is CheckOutcome.RETAINED
    )

    assert found == pytest.approx(at_once + in_the_end, abs=1e-12)
    assert found == pytest.approx(chance, abs=5e-5)


@pytest.mark.parametrize(
    ("times", "days", "is_retained", "well"),
    [
        (0, 1, False, False),
        (1, 3, True, False),
        (2, 7, True, False),
        (3, 21, True, True),
        (4, 21, True, True),
        (9, 21, True, True),
    ],
)
def test_a_level_is_due_again_after_one_three_seven_and_then_every_twenty_one_days(
    times: int, days: int, is_retained: bool, well: bool
) -> None:
    retention = kept(times)

    last = retention.day or PASSED
    assert due(retention) - last == timedelta(days=days)
    assert [retention.is_due(last + timedelta(days=one)) for one in range(days)] == [False] * days
    assert retention.is_due(last + timedelta(days=days))
    assert (retention.is_retained, retention.is_well_retained) == (is_retained, well)


@pytest.mark.parametrize("times", range(5))
def test_a_miss_is_due_tomorrow_and_takes_nothing_away(times: int) -> None:
    before = kept(times)
    day = due(before)

    missed = played(before, day, MISSES)

    assert missed.outcome_on(day) is CheckOutcome.NOT_TODAY
    assert missed.due == day + DAY
    assert (missed.outlasted, missed.is_retained) == (times, before.is_retained)
    assert missed.is_well_retained == before.is_well_retained


@pytest.mark.parametrize(("times", "days"), [(0, 3), (1, 3), (2, 7), (3, 21), (4, 21)])
@pytest.mark.parametrize("misses", [1, 2, 5])
def test_after_misses_the_interval_not_outlasted_is_repeated(
    times: int, days: int, misses: int
) -> None:
    retention = kept(times)
    for _ in range(misses):
        retention = played(retention, due(retention), MISSES)
    day = due(retention)

    again = played(retention, day, KEEPS)
    after = played(again, due(again), KEEPS)

    assert due(again) - day == timedelta(days=days)
    assert again.outlasted == max(times, 1)
    assert after.outlasted == again.outlasted + 1


def test_an_undecided_check_leaves_the_level_due_and_starts_over_the_next_day() -> None:
    first = due(kept(1))

    few = played(kept(1), first, "-+++")
    later = played(few, first + DAY, "+++")

    assert few.outcome_on(first) is CheckOutcome.OPEN
    assert few.is_due(first)
    assert few.is_due(first + DAY)
    assert few.outcome_on(first + DAY) is None
    assert later.outcome_on(first + DAY) is CheckOutcome.OPEN
    assert later.first == (True, True, True)
    assert played(later, first + DAY, "+").outcome_on(first + DAY) is CheckOutcome.RETAINED


@pytest.mark.parametrize("marks", [KEEPS, MISSES])
def test_repetitions_after_a_decided_check_change_nothing_that_day(marks: str) -> None:
    day = due(kept(2))
    shown_today = played(kept(2), day, marks)

    assert played(shown_today, day, "+-+-+-----++++++++") == shown_today


@pytest.mark.parametrize("times", range(4))
def test_before_it_is_due_nothing_changes(times: int) -> None:
    retention = kept(times)

    assert played(retention, due(retention) - DAY, "----++++++++") == retention


def test_a_level_that_is_not_passed_has_no_retention() -> None:
    retention = played(Retention(), PASSED, "++++++++")

    assert retention == Retention()
    assert not retention.is_due(PASSED)


@pytest.mark.parametrize("late", [1, 30, 400])
def test_the_interval_after_a_late_check_counts_from_the_day_of_the_check(late: int) -> None:
    day = due(kept(1)) + timedelta(days=late)

    retention = played(kept(1), day, KEEPS)

    assert retention.due == day + timedelta(days=7)


@pytest.mark.parametrize("back", [1, 2, 5])
def test_a_clock_set_back_some_days_makes_nothing_due_and_takes_nothing_away(back: int) -> None:
    retention = kept(2)
    assert retention.day is not None

    earlier = retention.day - timedelta(days=back)

    assert played(retention, earlier, "++++----") == retention
    assert retention.is_due(due(retention))


@pytest.mark.parametrize("years", [1, 5, 70])
def test_a_check_set_by_a_clock_years_fast_is_due_once_the_clock_is_right(years: int) -> None:
    ahead = PASSED + timedelta(days=365 * years)
    retention = played(Retention.passed(PASSED), ahead, KEEPS)

    right = PASSED + DAY

    assert retention.is_due(right)
    assert played(retention, right, KEEPS).due == right + timedelta(days=7)


def test_a_day_that_comes_twice_over_the_date_line_makes_no_level_due() -> None:
    retention = kept(4)
    assert retention.day is not None

    assert due(retention) - retention.day == timedelta(days=max(INTERVALS))
    assert not retention.is_due(retention.day - DAY)
    assert retention.is_due(retention.day - 2 * DAY)


@given(
    st.lists(
        st.tuples(st.sampled_from([0] * 12 + [1, 1, 2, 3, 7, 21, -1, -2, -30, 900]), st.booleans()),
        max_size=80,
    )
)
def test_retention_agrees_with_the_plain_rule_over_any_history(
    steps: list[tuple[int, bool]],
) -> None:
    day, retention = PASSED, Retention.passed(PASSED)
    results = [Result("a", PASSED, None, True, False, plain.ONCE)]
    for days, clean in steps:
        day += timedelta(days=days)
        retention = retention.after(day, clean)
        results.append(Result("a", day, None, clean, False, plain.ONCE))

    assert retention == plain.retention(results, "a")
