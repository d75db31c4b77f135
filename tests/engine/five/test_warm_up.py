"""The warm-up: what it is made of, and what it says of the foot of today."""

from dataclasses import replace

import pytest

from engine.five.day_end import Done
from engine.five.flow import warm_up
from engine.five.saved import begin_session, sessions_on, stored_blips
from engine.five.warm_up_plan import HOLDS, OWN, STILL
from engine.practice.results import Purpose, SessionKind
from engine.stage.scene import Attended
from engine.store import History
from engine.store.repetitions import add_repetition
from engine.store.retention import all_retention
from tests.engine.five.learning_foot import BY_ID, DATE, LEVELS, Learning, passes
from tests.engine.five.unattended import BAND, FIRST, LOOK, Minutes, Seen, attend, passed_on
from tests.engine.five.unattended import HOLDS as SHORT_HOLDS
from tests.made import record

PASSED = [one for one in LEVELS if one.id.startswith(("still", "blip", "quiet", "run-1", "run-2"))]
WITHOUT_COUNTING = [one for one in LEVELS if not one.kind.in_pairs]
"""Levels of a player whom no session of counting is offered in the warm-up's stead."""


def test_a_warm_up_is_holds_blips_eight_of_them_measured_and_one_run_at_the_players_own_level(
    history: History,
) -> None:
    passes(history, *PASSED)
    learning, seen = Learning(history, 0.9), list[Seen]()
    setting = replace(learning.setting, levels=WITHOUT_COUNTING)

    ended = attend(warm_up(setting, history, BAND), learning.clock, (), seen)

    [session] = sessions_on(history, DATE.date())
    assert ended is Done.LEAVE
    assert (session.what, session.over) == (SessionKind.WARM_UP, True)
    assert [one.level for one in session.results if not one.void] == [
        *["still-3-dark"] * HOLDS,
        *["blip-5-still"] * OWN,
        *[BAND.id] * 8,
        "run-2-three",
    ]
    assert {one.why for one in session.results} == {Purpose.WARM}
    assert 60 < session.spent < 180
    name, last = seen[-1]
    assert (name, last["heading"]) == ("warmed up", "Warmed up: not enough days yet")
    blips = stored_blips(history, BAND.id, Purpose.WARM, 8)
    assert {40 <= peak <= 80 for *_, peak in blips} == {True}
    scaled = [deviation * 60 / peak for _, _, deviation, peak in blips]
    assert last["today"] == pytest.approx(sum(scaled) / 8)
    *played, moment = [name for name, _ in seen[:-1]]
    assert (set(played), moment) == ({"repetition"}, "moment")


def test_a_player_who_does_not_blip_yet_holds_and_reads_nothing_of_days(history: History) -> None:
    minutes = Minutes(history, levels=SHORT_HOLDS)

    minutes.walk(warm_up(minutes.setting, history, BAND))

    [session] = sessions_on(history, DATE.date())
    [shown] = minutes.details_of("warmed up")
    assert [one.level for one in session.results] == ["first"] * STILL
    assert (shown["heading"], shown["today"], shown["usual"]) == ("Warmed up", None, None)


def test_a_warm_up_left_early_goes_on_when_it_is_chosen_again(history: History) -> None:
    minutes = Minutes(history, levels=[FIRST])

    def hold(screen: Attended) -> None:
        while screen.outcome is None:
            minutes.clock.advance(LOOK)
            screen.on_sample(minutes.setting.rig.sample(), minutes.clock())

    minutes.walk(
        warm_up(minutes.setting, history, BAND),
        ("repetition", hold),
        ("repetition", "menu"),
        ("menu", "Leave for now"),
    )
    [left] = sessions_on(history, DATE.date())
    minutes.walk(warm_up(minutes.setting, history, BAND))

    [session] = sessions_on(history, DATE.date())
    assert (left.over, len(left.results)) == (False, 1)
    assert (session.over, len(session.results)) == (True, STILL)
    assert [told["heading"] for told in minutes.details_of("warmed up")] == ["Warmed up"] * 2


def test_a_level_passed_in_between_takes_no_blip_from_a_resumed_warm_up(history: History) -> None:
    number = begin_session(history, SessionKind.WARM_UP, DATE, 3.0, 1)
    for _ in range(6):
        add_repetition(
            history,
            record(
                level="still-1-light",
                kind="hold",
                at=DATE,
                why=Purpose.WARM,
                session=number,
                took=5.0,
            ),
        )
    passes(history, BY_ID["still-1-light"], BY_ID["blip-1-first"])
    learning = Learning(history, 0.9)
    learning.setting = replace(learning.setting, levels=[*LEVELS])

    attend(warm_up(learning.setting, history, BAND), learning.clock)

    [session] = sessions_on(history, DATE.date())
    assert [one.level for one in session.results].count(BAND.id) == 8


@pytest.mark.parametrize(("days_before", "told"), [(1, True), (0, False)])
def test_a_level_that_the_warm_up_retained_is_named(
    history: History, days_before: int, told: bool
) -> None:
    passed_on(history, FIRST, days_before)
    minutes = Minutes(history, levels=[FIRST])

    minutes.walk(warm_up(minutes.setting, history, BAND))

    [shown] = minutes.details_of("warmed up")
    assert all_retention(history)[FIRST.id].is_retained == told
    assert ("Retained: First." in str(shown["said"])) == told
