"""What home says of the five minutes to come: today's, what is left of them, or done."""

from datetime import timedelta

import pytest

from drills.score import Reason, Verdict
from engine.five.forecast import forecast, forecast_words
from engine.five.plan_words import plan_words
from engine.five.planner import Planned, plan, seed_of
from engine.five.saved import begin_session, end_session
from engine.practice.passes import ALL_PEDALS
from engine.practice.results import Purpose, SessionKind
from engine.store import History
from engine.store.repetitions import add_repetition
from tests.engine.five.learning_foot import BY_ID, LEVELS, passes
from tests.engine.five.unattended import (
    BAND,
    DATE,
    FIRST,
    HOLDS,
    SECOND_ONE,
    Minutes,
    passed_on,
    whys,
)
from tests.engine.walking import Step, back
from tests.made import record

ONE_OF_TWO = "1 of 2 check-ups, then personal limit"


def said(history: History, minutes: float = 5.0) -> str:
    """What home says of five minutes of a few holds."""
    return forecast_words(Minutes(history).setting, history, BAND, minutes)


def begun(history: History, *took: float, over: bool = False, days: int = 0) -> int:
    """Keep five minutes whose repetitions took so many s each; their number."""
    at = DATE - timedelta(days=days)
    number = begin_session(history, SessionKind.FIVE, at, 5.0, 1)
    for one in took:
        add_repetition(
            history,
            record(level="first", kind="hold", at=at, why=Purpose.LEARN, session=number, took=one),
        )
    if over:
        end_session(history, number)
    return number


def test_a_new_player_reads_which_level_is_learned(history: History) -> None:
    assert said(history) == "next: First"


def test_retention_checks_are_counted_and_named_first(history: History) -> None:
    passed_on(history, FIRST, 1)
    passed_on(history, SECOND_ONE, 1)

    assert said(history) == "next: 2 check-ups, then Third"


def test_the_steadiness_band_is_named_once_there_are_blips(history: History) -> None:
    passes(history, BY_ID["still-1-light"], BY_ID["blip-1-first"])
    setting = Minutes(history, levels=LEVELS).setting

    assert (
        forecast_words(setting, history, BAND)
        == f"next: steadiness, then {BY_ID['still-2-firm'].title}"
    )


@pytest.mark.parametrize(
    ("whys_and_levels", "words"),
    [
        ([], ""),
        ([(Purpose.LEARN, 0)] * 3 + [(Purpose.DARK, 0)], "First"),
        (
            [(Purpose.DUE, 0), (Purpose.DUE, 0), (Purpose.DUE, 1), (Purpose.LEARN, 2)],
            "2 check-ups, then Third",
        ),
        ([(Purpose.DUE, 0), (Purpose.LEARN, 2)], "1 of 2 check-ups, then Third"),
        ([(Purpose.DUE, 0), (Purpose.DARK, 1)], "1 of 2 check-ups, nothing shown"),
        ([(Purpose.DARK, 0)], "nothing shown"),
        ([(Purpose.DUE, 0), (Purpose.OWN, 1), (Purpose.MIX, 2)], f"{ONE_OF_TWO}: Second"),
        ([(Purpose.DUE, 0), (Purpose.OWN, 1), (Purpose.OWN, 2)], f"{ONE_OF_TWO}s"),
        ([(Purpose.OWN, 1), (Purpose.LEARN, 2)], "personal limit: Second, then Third"),
        ([(Purpose.FAULT, 1), (Purpose.LEARN, 2)], "Third"),
        ([(Purpose.FAULT, 1)], "for a fault"),
    ],
)
def test_plan_words_name_the_parts_in_order(
    whys_and_levels: list[tuple[Purpose, int]], words: str
) -> None:
    planned = [Planned(HOLDS[place], why) for why, place in whys_and_levels]

    assert plan_words(planned, 2) == words


@pytest.mark.parametrize("whys", [[Purpose.FAULT, Purpose.LEARN], [Purpose.LEARN, Purpose.FAULT]])
def test_practice_for_a_fault_is_named_before_the_new_level(whys: list[Purpose]) -> None:
    planned = [Planned(HOLDS[0], why) for why in (Purpose.BAND, *whys)]

    assert plan_words(planned, 0, "for the dip") == "steadiness, for the dip, then First"


def test_after_weeks_of_rest_the_check_ups_are_what_home_tells(history: History) -> None:
    for level, days in ((FIRST, 15), (SECOND_ONE, 15)):
        passed_on(history, level, days)

    assert said(history) == "Let's see what is still there: 2 of 2 today"


def test_after_a_shorter_rest_home_tells_the_plan(history: History) -> None:
    passed_on(history, FIRST, 14)

    assert said(history) == "next: 1 check-up, then Second"


@pytest.mark.parametrize(
    ("spent", "left"),
    [
        ([10.0], "5 minutes"),
        ([60.0, 40.0], "3 minutes"),
        ([60.0] * 3 + [50.0], "1 minute"),
        ([60.0] * 4 + [18.0], "40 seconds"),
        ([60.0] * 4 + [4.0], "1 minute"),
    ],
)
def test_a_session_under_way_shows_the_time_left(
    history: History, spent: list[float], left: str
) -> None:
    begun(history, *spent)

    assert said(history) == f"{left} left today"


def test_a_session_without_repetitions_is_still_to_come_today(history: History) -> None:
    begun(history)

    assert said(history) == "next: First"


@pytest.mark.parametrize("over", [True, False])
def test_a_session_with_nothing_left_is_done_for_today(history: History, over: bool) -> None:
    begun(history, *[58.0] * 5, 20.0, over=over)

    coming = forecast(history, HOLDS, BAND, ALL_PEDALS, DATE, 5.0)

    assert said(history) == "done for today: it goes on tomorrow"
    tomorrow = DATE.date() + timedelta(days=1)
    assert (coming.done, coming.player.day) == (True, tomorrow)
    assert (coming.session.results, coming.session.seed) == ((), seed_of(tomorrow))


def test_a_warm_up_or_another_days_session_does_not_count_as_todays(history: History) -> None:
    begun(history, 60.0, over=True, days=1)
    end_session(history, begin_session(history, SessionKind.WARM_UP, DATE, 3.0, 1))
    end_session(history, begin_session(history, SessionKind.FIVE, DATE, 5.0, 1))

    assert not forecast(history, HOLDS, BAND, ALL_PEDALS, DATE, 5.0).done


def test_the_forecast_is_what_is_played(history: History) -> None:
    passed_on(history, FIRST, 1, took=3.0)
    minutes = Minutes(history)
    words = forecast_words(minutes.setting, history, BAND, 1.0)

    minutes.play()

    assert words == "next: 1 check-up, then Second"
    assert list(dict.fromkeys(whys(minutes.session)))[:2] == [Purpose.DUE, Purpose.LEARN]
    assert (
        forecast_words(minutes.setting, history, BAND, 1.0) == "done for today: it goes on tomorrow"
    )


def test_a_player_too_slow_for_any_repetition_can_still_begin_a_session(
    history: History,
) -> None:
    for _ in range(10):
        add_repetition(
            history,
            record(level="first", kind="hold", verdict=Verdict(Reason.GAP), at=DATE, took=50.0),
        )
    add_repetition(history, record(level="first", kind="hold", at=DATE, took=50.0))
    minutes = Minutes(history, levels=HOLDS[:1])

    words = forecast_words(minutes.setting, history, BAND, 1.0)
    leaves: list[tuple[str, Step]] = [("repetition", back), ("menu", "Home")]
    minutes.play(*(leaves if words == "next: First" else []))

    assert words
    assert not minutes.session.over


def test_what_is_planned_is_played_by_a_foot_of_the_expected_pace(history: History) -> None:
    passed_on(history, FIRST, 1, took=3.1)
    for level in HOLDS[1:]:
        add_repetition(history, record(level=level.id, kind="hold", at=DATE, took=3.1))
    minutes = Minutes(history)
    coming = forecast(history, HOLDS, BAND, ALL_PEDALS, DATE, 1.0)
    planned = [(one.level.id, one.why) for one in plan(coming.player, coming.session)]

    minutes.play()

    played = [(one.level, one.why) for one in minutes.session.results]
    assert abs(len(planned) - len(played)) <= 2
    assert played[:12] == planned[:12]
    assert {Purpose.DUE, Purpose.LEARN, Purpose.MIX} == {why for _, why in planned[:12]}
