"""The session of counting: offered before the warm-up, played and told, and no part of others."""

from dataclasses import replace
from datetime import timedelta

from drills.score import Reason, Verdict
from engine.five.counting_plan import MINUTES, PAIRS
from engine.five.counting_today import counting_today
from engine.five.day_end import Done
from engine.five.flow import warm_up
from engine.five.player_state import PlayerState
from engine.five.saved import begin_session, sessions_on
from engine.five.warm_up_plan import STILL
from engine.pedals.rig import TWO
from engine.practice.counting_cost import LEAST
from engine.practice.results import Purpose, SessionKind
from engine.stage.scene import Attended
from engine.store import History
from engine.store.repetitions import add_repetition
from tests.engine.five.counting_levels import EASY, HeldCounting
from tests.engine.five.unattended import BAND, DATE, FIRST, LOOK, Minutes
from tests.made import record

TODAY = DATE.date()


class InSilence(HeldCounting):
    """The made-up kind, closed without sound."""

    needs_sound = True


def play_pairs(history: History, pairs: int) -> None:
    """Store pairs of blips whose cost is 5 points, in the weeks before today."""
    for number in range(2 * pairs):
        counts = number % 2 == 1
        measures: dict[str, float | None] = {
            "dip": 13.0 + number // 2 % 3 if counts else 9.0,
            "peak": 60.0,
            "settle": 0.3,
        }
        answer = {"knocks": 5.0, "counted": 5.0} if counts else {}
        verdict = Verdict(Reason.CLEAN, 90.0, (), measures | answer)
        at = DATE - timedelta(weeks=1 + (2 * pairs - 1 - number) // 12)
        add_repetition(history, record(level=EASY.id, kind=EASY.kind.name, verdict=verdict, at=at))


def kinds_of_sessions(history: History) -> list[tuple[SessionKind, int, bool]]:
    """Kind of each session of today, its repetitions, and whether it is over."""
    return [(one.what, len(one.results), one.over) for one in sessions_on(history, TODAY)]


def test_six_pairs_are_played_in_the_warm_ups_stead_and_the_cost_is_told(history: History) -> None:
    play_pairs(history, LEAST)
    minutes = Minutes(history, levels=[FIRST, EASY])

    ended = minutes.walk(warm_up(minutes.setting, history, BAND))

    [told] = minutes.details_of("counted")
    assert ended is Done.LEAVE
    assert kinds_of_sessions(history) == [(SessionKind.COUNTING, 2 * PAIRS, True)]
    assert str(told["lead"]).startswith("Counting costs you 5.0 points, likely ")
    assert minutes.names[0] == "counting offer"
    assert "warmed up" not in minutes.names
    [session] = sessions_on(history, TODAY)
    assert {one.why for one in session.results} == {Purpose.WARM}


def test_the_usual_warm_up_can_be_chosen_and_the_session_is_offered_again(history: History) -> None:
    minutes = Minutes(history, levels=[FIRST, EASY])

    minutes.walk(warm_up(minutes.setting, history, BAND), ("counting offer", "Usual warm-up"))

    assert kinds_of_sessions(history) == [(SessionKind.WARM_UP, STILL, True)]
    assert "warmed up" in minutes.names
    assert counting_today(history, PlayerState(TODAY, [EASY])) == EASY


def test_home_can_be_chosen_and_nothing_is_played(history: History) -> None:
    minutes = Minutes(history, levels=[FIRST, EASY])

    ended = minutes.walk(warm_up(minutes.setting, history, BAND), ("counting offer", "Home"))

    assert ended is Done.HOME
    assert sessions_on(history, TODAY) == []


def test_the_week_after_it_the_warm_up_is_the_usual_one(history: History) -> None:
    minutes = Minutes(history, levels=[FIRST, EASY])
    minutes.walk(warm_up(minutes.setting, history, BAND))

    minutes.walk(warm_up(minutes.setting, history, BAND))

    week = [TODAY + timedelta(days=days) for days in range(8)]
    comes = [counting_today(history, PlayerState(day, [EASY])) is not None for day in week]
    assert comes == [False] * 7 + [True]
    assert [kind for kind, _, _ in kinds_of_sessions(history)] == [
        SessionKind.COUNTING,
        SessionKind.WARM_UP,
    ]


def test_a_session_that_was_left_goes_on_and_keeps_its_pairs(history: History) -> None:
    minutes = Minutes(history, levels=[FIRST, EASY])
    play_one = ("counting offer", "Begin")
    minutes.walk(
        warm_up(minutes.setting, history, BAND),
        play_one,
        ("repetition", lambda screen: _sit(minutes, screen)),
        ("repetition", "menu"),
        ("menu", "Leave for now"),
    )
    left = kinds_of_sessions(history)

    minutes.walk(warm_up(minutes.setting, history, BAND))

    assert left == [(SessionKind.COUNTING, 1, False)]
    assert kinds_of_sessions(history) == [(SessionKind.COUNTING, 2 * PAIRS, True)]


def test_a_session_that_was_left_waits_while_its_level_cannot_be_played(history: History) -> None:
    began = begin_session(history, SessionKind.COUNTING, DATE, MINUTES, 1)
    add_repetition(history, record(level=EASY.id, kind=EASY.kind.name, session=began, at=DATE))
    silent = replace(EASY, kind=InSilence())

    with_sound = counting_today(history, PlayerState(TODAY, [silent]))
    without = counting_today(history, PlayerState(TODAY, [silent], pedals=TWO))

    assert with_sound == silent
    assert without is None


def test_a_session_whose_level_was_removed_does_not_go_on(history: History) -> None:
    began = begin_session(history, SessionKind.COUNTING, DATE, MINUTES, 1)
    add_repetition(history, record(level="mine", kind=EASY.kind.name, session=began, at=DATE))

    assert counting_today(history, PlayerState(TODAY, [EASY])) is None


def test_a_warm_up_that_was_left_goes_on_as_such(history: History) -> None:
    minutes = Minutes(history, levels=[FIRST, EASY])
    minutes.walk(
        warm_up(minutes.setting, history, BAND),
        ("counting offer", "Usual warm-up"),
        ("repetition", lambda screen: _sit(minutes, screen)),
        ("repetition", "menu"),
        ("menu", "Leave for now"),
    )
    begun = len(minutes.names)

    minutes.walk(warm_up(minutes.setting, history, BAND))

    assert "counting offer" not in minutes.names[begun:]
    assert kinds_of_sessions(history) == [(SessionKind.WARM_UP, STILL, True)]


def _sit(minutes: Minutes, screen: Attended) -> None:
    """Play one repetition to its end."""
    while screen.outcome is None:
        minutes.clock.advance(LOOK)
        screen.on_sample(minutes.setting.rig.sample(), minutes.clock())
