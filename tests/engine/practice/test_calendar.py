"""Days in a row and what is due, by the calendar of where the player is.

The days are those of the IANA time zone database (RFC 6557) as `zoneinfo` reads it: across changes
of the clock in spring and autumn, over the date line and back, and where a clock was set back.
"""

from collections.abc import Iterator, Sequence
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo, available_timezones

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.score import Reason, Verdict
from engine.practice.results import Result
from engine.practice.retention import Retention
from engine.store import History, ledger
from engine.store.repetitions import add_repetition
from engine.store.retention import all_retention
from tests.engine.practice import plain
from tests.made import record
from tests.stored import all_results, in_memory

pytestmark = pytest.mark.skipif(not available_timezones(), reason="needs time zones by name")
CLEAN = Verdict(Reason.CLEAN, 90.0)
ZONES = (
    *("Europe/Berlin", "America/New_York", "America/Santiago", "Australia/Lord_Howe"),
    *("Asia/Kathmandu", "Pacific/Auckland", "Pacific/Honolulu", "Pacific/Kiritimati"),
)
CHANGES = [
    ("Europe/Berlin", date(2024, 3, 31)),
    ("Europe/Berlin", date(2024, 10, 27)),
    ("America/New_York", date(2024, 3, 10)),
    ("America/New_York", date(2024, 11, 3)),
    ("America/Santiago", date(2024, 9, 8)),
    ("America/Santiago", date(2024, 4, 6)),
    ("Australia/Lord_Howe", date(2024, 10, 6)),
    ("Australia/Lord_Howe", date(2024, 4, 7)),
]
"""Local days that do not have 24 hours; those of Santiago change at midnight."""


@pytest.fixture
def file() -> Iterator[History]:
    """A new history in memory."""
    with in_memory() as new:
        yield new


def at(zone: str, day: date, hour: int, minute: int) -> datetime:
    """A moment by the clock on the wall, as a program that asks for the time there is told it."""
    wall = datetime(day.year, day.month, day.day, hour, minute, tzinfo=ZoneInfo(zone))
    return wall.astimezone(UTC).astimezone(ZoneInfo(zone))


def play(file: History, moments: Sequence[datetime]) -> list[date]:
    """Keep a clean repetition at each moment; the local days they are kept on."""
    for moment in moments:
        made = record(at=moment, verdict=CLEAN, rule=plain.ONCE, trace=None, sampling=None)
        add_repetition(file, made)
    return [result.day for result in all_results(file)]


def hours_of(zone: str, day: date) -> float:
    """h, how long a local day is."""
    ends = [at(zone, day - timedelta(days=1), 12, 0), at(zone, day + timedelta(days=1), 12, 0)]
    return (ends[1].astimezone(UTC) - ends[0].astimezone(UTC)) / timedelta(hours=1) - 24


@pytest.mark.parametrize(("zone", "change"), CHANGES)
def test_the_days_of_a_clock_change_do_not_have_24_hours(zone: str, change: date) -> None:
    assert hours_of(zone, change) != 24


@pytest.mark.parametrize(("zone", "change"), CHANGES)
@pytest.mark.parametrize(("hour", "minute"), [(0, 10), (2, 15), (12, 0), (23, 50)])
def test_ten_days_around_a_change_of_the_clock_are_ten_in_a_row(
    file: History, zone: str, change: date, hour: int, minute: int
) -> None:
    days = [change + timedelta(days=number) for number in range(-5, 5)]

    kept = play(file, [at(zone, day, hour, minute) for day in days])

    streaks = ledger.streaks(file, days[-1])
    assert kept == days
    assert (streaks.days_streak, streaks.best_days_streak, streaks.began) == (10, 10, days[0])
    assert streaks.rest_left
    assert streaks.lost is None


@pytest.mark.parametrize(("zone", "change"), CHANGES)
def test_a_day_begins_and_ends_at_midnight_however_long_it_is(
    file: History, zone: str, change: date
) -> None:
    before, after = change - timedelta(days=1), change + timedelta(days=1)

    play(
        file,
        [
            *[at(zone, before, 23, 59), at(zone, change, 1, 1), at(zone, change, 12, 0)],
            *[at(zone, change, 22, 58), at(zone, after, 0, 1)],
        ],
    )

    counted = [ledger.streaks(file, day).today for day in (before, change, after)]
    assert counted == [1, 3, 1]


@pytest.mark.parametrize(("zone", "change"), CHANGES)
def test_a_level_passed_late_is_due_after_midnight_and_then_by_the_calendar(
    file: History, zone: str, change: date
) -> None:
    passed, last = change - timedelta(days=4), change + timedelta(days=7)
    shown = [change - timedelta(days=3), change]

    play(file, [at(zone, passed, 23, 59)])
    due = [all_retention(file)["a-blip"].due]
    for day in (*shown, last):
        play(file, [at(zone, day - timedelta(days=1), 23, 58)] * 4)
        play(file, [at(zone, day, 1, 2)] * 4)
        due.append(all_retention(file)["a-blip"].due)

    assert due == [*shown, last, last + timedelta(days=21)]


def test_a_day_that_comes_twice_on_the_way_west_over_the_date_line_counts_once(
    file: History,
) -> None:
    there = [at("Pacific/Auckland", date(2024, 5, day), 21, 0) for day in (15, 16, 17)]
    here = [at("Pacific/Honolulu", date(2024, 5, day), 20, 0) for day in (17, 18)]

    kept = play(file, [*there, *here])

    assert [day.day for day in kept] == [15, 16, 17, 17, 18]
    assert here[0] - there[-1] == timedelta(hours=21)
    assert ledger.streaks(file, date(2024, 5, 17)).today == 2
    assert ledger.streaks(file, date(2024, 5, 18)).days_streak == 4


def test_a_day_that_is_left_out_on_the_way_back_is_a_rest_day(file: History) -> None:
    here = [at("Pacific/Honolulu", date(2024, 5, day), 20, 0) for day in (15, 16, 17)]
    there = [at("Pacific/Auckland", date(2024, 5, day), 19, 0) for day in (19, 20)]

    kept = play(file, [*here, *there])

    streaks = ledger.streaks(file, date(2024, 5, 20))
    assert [day.day for day in kept] == [15, 16, 17, 19, 20]
    assert there[0] - here[-1] == timedelta(hours=25)
    assert (streaks.days_streak, streaks.began) == (5, date(2024, 5, 15))
    assert streaks.rest_left is False


def test_a_day_that_a_whole_country_left_out_is_a_rest_day(file: History) -> None:
    zone, first = "Pacific/Apia", datetime(2011, 12, 28, 22, 0, tzinfo=ZoneInfo("Pacific/Apia"))
    utc = [first.astimezone(UTC) + timedelta(days=number) for number in range(4)]

    kept = play(file, [moment.astimezone(ZoneInfo(zone)) for moment in utc])

    streaks = ledger.streaks(file, date(2012, 1, 1))
    assert [day.isoformat()[5:] for day in kept] == ["12-28", "12-29", "12-31", "01-01"]
    assert (streaks.days_streak, streaks.lost) == (4, None)


def test_no_flight_makes_a_level_due_before_its_day(file: History) -> None:
    passed = at("Pacific/Auckland", date(2024, 5, 17), 0, 30)
    landed = (passed + timedelta(hours=9)).astimezone(ZoneInfo("Pacific/Honolulu"))

    kept = play(file, [passed, *[landed] * 4])
    early = all_retention(file)["a-blip"]
    play(file, [at("Pacific/Honolulu", date(2024, 5, 18), 0, 5)] * 4)
    later = all_retention(file)["a-blip"]

    assert [day.day for day in kept] == [17, 16, 16, 16, 16]
    assert early == Retention(due=date(2024, 5, 18))
    assert (later.outlasted, later.due) == (1, date(2024, 5, 21))


def test_a_clock_that_is_set_back_over_midnight_goes_on_with_the_day_before(
    file: History,
) -> None:
    today, tomorrow = date(2024, 5, 17), date(2024, 5, 18)
    moments = [at("Europe/Berlin", today, 23, 50), at("Europe/Berlin", tomorrow, 0, 20)]

    play(file, [*moments, moments[1] - timedelta(hours=1)])

    counted = [ledger.streaks(file, day).today for day in (today, tomorrow)]
    assert counted == [2, 1]
    assert ledger.streaks(file, tomorrow).days_streak == 2


def test_a_clock_that_was_a_year_fast_costs_no_day_and_no_level(
    file: History,
) -> None:
    right = [at("Europe/Berlin", date(2024, 5, day), 20, 0) for day in (15, 16, 17, 18)]
    ahead = at("Europe/Berlin", date(2025, 5, 17), 20, 0)

    play(file, [*right[:2], *[ahead] * 4, *right[2:]])

    streaks = ledger.streaks(file, date(2024, 5, 18))
    assert (streaks.days_streak, streaks.best_days_streak, streaks.lost) == (4, 4, None)
    assert all_retention(file)["a-blip"].is_due(date(2024, 5, 18))


@given(
    st.lists(
        st.tuples(
            st.sampled_from(ZONES),
            st.sampled_from([0.1] * 5 + [3, 9, 23, 24, 25, 26, 48, 72, -1, -24, -50, -700]),
            st.sampled_from([True] * 4 + [False]),
        ),
        max_size=40,
    )
)
def test_wherever_the_player_goes_and_whatever_the_clock_does_the_local_day_counts(
    steps: list[tuple[str, float, bool]],
) -> None:
    moment, wanted = datetime(2024, 3, 9, 7, 30, tzinfo=UTC), []
    with in_memory() as history:
        for zone, hours, clean in steps:
            moment += timedelta(hours=hours)
            local = moment.astimezone(ZoneInfo(zone))
            verdict = CLEAN if clean else Verdict(Reason.NO_BLIP, 10.0)
            made = record(at=local, verdict=verdict, rule=plain.ONCE, trace=None, sampling=None)
            add_repetition(history, made)
            wanted.append(
                Result("a-blip", local.date(), verdict.score, clean, False, plain.ONCE, kind="blip")
            )
        found, kept = all_results(history), all_retention(history)
        today = moment.astimezone(ZoneInfo(ZONES[0])).date()
        streaks = ledger.streaks(history, today)

    assert found == wanted
    assert streaks == plain.streaks(wanted, today)
    assert kept == plain.retentions(wanted)
