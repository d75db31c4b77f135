"""What five minutes do that are left, interrupted, given up, stopped, or go past midnight."""

import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest

from drills.level import Feedback
from drills.trace import nanoseconds
from engine.drill.interruptions import SmallMenu
from engine.drill.lesson_saved import SEEN_KEY, Lessons
from engine.drill.lesson_words import SHOW_MOVEMENT
from engine.drill.moment import STAY
from engine.five.day_end import Done
from engine.five.flow import five_minutes
from engine.five.saved import sessions_on
from engine.kit.timed_screen import TOP
from engine.stage.actions import Action
from engine.stage.scene import Attended, Scene
from engine.store import History, open_history
from engine.store.history import FILE
from engine.store.trouble import Trouble
from tests.engine.five.unattended import BAND, DATE, FIRST, HOLDS, LOOK, STALLED, Minutes, passed_on
from tests.engine.kit.recording_canvas import recorded
from tests.engine.walking import Step, back, sit_through
from tests.fakes import Unplugged

REVEALED = [replace(level, feedback=Feedback.EVERY) for level in HOLDS]


@pytest.fixture
def three(history: History) -> Minutes:
    """Five minutes whose first levels are passed, but not due, and whose reveals are shown."""
    passed_on(history, HOLDS[0], 0, took=4.0)
    return Minutes(history, levels=REVEALED)


def test_five_minutes_left_by_the_menu_show_the_day_and_are_not_over(three: Minutes) -> None:
    ended = three.play(("reveal", "menu"), ("menu", "Leave for now"), ("day end", "Home"))

    [said] = three.details_of("day end")
    assert ended is Done.HOME
    assert (said["early"], said["counted"]) == (True, 1)
    assert not three.session.over
    assert three.names[-3:] == ["reveal", "menu", "day end"]


def test_home_from_the_menu_goes_past_the_day(three: Minutes) -> None:
    ended = three.play(("reveal", "menu"), ("menu", "Home"))

    assert ended is Done.HOME
    assert "day end" not in three.names
    assert len(three.session.results) == 1


def test_five_minutes_chosen_again_resume_with_what_is_left(three: Minutes) -> None:
    three.play(("reveal", "menu"), ("menu", "Home"))
    first = three.session

    three.play()

    assert three.session.number == first.number
    assert three.session.results[:1] == first.results
    assert three.session.over
    assert abs(three.session.left) < 15
    [said] = three.details_of("day end")
    assert (said["counted"], said["early"]) == (len(three.session.results), False)


def test_killed_five_minutes_resume_with_what_is_left(three: Minutes) -> None:
    playing = five_minutes(three.setting, three.history, BAND, 1.0)
    for _ in range(4):
        scene = next(playing)
        scene.screen.on_focus(True, three.clock())
        sit_through(scene, three.clock, LOOK)
    playing.close()
    killed = three.session

    three.play()

    assert len(killed.results) == 2
    assert three.session.results[:2] == killed.results
    assert abs(three.session.left) < 15


def test_a_pause_takes_nothing_of_the_time(three: Minutes) -> None:
    def tea(screen: Attended) -> None:
        three.clock.advance(nanoseconds(600.0))
        back(screen)

    three.play(("reveal", "menu"), ("menu", tea))

    took = [one.took or 0.0 for one in three.session.results]
    assert max(took) < 15
    assert abs(60 - sum(took)) < 15
    after = STAY if three.names[-2] == "moment" else 0.0
    assert sum(took) == pytest.approx(three.clock() / 1e9 - 600 - after, abs=0.1)


def test_a_locked_history_takes_nothing_of_the_time(tmp_path: Path) -> None:
    folder = tmp_path / "locked"
    open_history(folder, []).close()

    with closing(sqlite3.connect(folder / FILE, isolation_level=None)) as other:

        def wait(_: Trouble) -> bool:
            minutes.clock.advance(nanoseconds(600.0))
            other.execute("ROLLBACK")
            return True

        def lock(screen: Attended) -> None:
            other.execute("BEGIN EXCLUSIVE")
            sit_through(Scene(screen, minutes.setting.rig, minutes.setting.stage), minutes.clock)

        with open_history(folder, [], 0.0, wait) as history:
            passed_on(history, HOLDS[0], 0, took=4.0)
            minutes = Minutes(history, levels=REVEALED)
            minutes.play(("reveal", lock))
            took = [one.took or 0.0 for one in minutes.session.results]

    assert minutes.clock() > nanoseconds(600.0)
    assert max(took) < 15
    assert abs(60 - sum(took)) < 15


def test_the_menu_shows_how_much_of_the_time_is_left(three: Minutes) -> None:
    shares: list[float] = []

    def measure(screen: Attended) -> None:
        assert isinstance(screen, SmallMenu)
        whole, left = (
            end[0] - start[0] for start, end in recorded(screen).lines if start[1] == TOP
        )
        shares.append(left / whole)
        back(screen)

    steps: list[tuple[str, Step]] = [("reveal", "menu"), ("menu", measure)]

    three.play(*steps * 3)

    took = [one.took or 0.0 for one in three.session.results]
    assert shares == pytest.approx([1 - sum(took[:number]) / 60 for number in (1, 2, 3)])


@pytest.mark.parametrize(("worse", "suggested"), [(0.15, 1), (0.0, 0)])
def test_scores_that_fall_over_five_minutes_suggest_to_stop(
    history: History, worse: float, suggested: int
) -> None:
    minutes = Minutes(history, lambda number: worse * number)

    minutes.play(minutes=3.0)

    assert minutes.names.count("tires") == suggested
    assert minutes.session.over


def test_pedals_unplugged_in_the_middle_are_waited_for_and_take_nothing_of_the_time(
    three: Minutes,
) -> None:
    at, back_at = nanoseconds(15.0), nanoseconds(315.0)
    three.read_through(lambda inner, clock: Unplugged(inner, clock, at, back_at))

    def plug_in(screen: Attended) -> None:
        three.clock.advance(back_at - three.clock())
        screen.on_devices(cut=False)

    three.play(("unplugged", plug_in))

    assert three.session.over
    assert [one.void for one in three.session.results].count(True) == 1
    assert abs(three.session.left) < 15
    assert sum(one.took or 0.0 for one in three.session.results) < 75


def test_pedals_that_stay_away_leave_the_rest_for_later(three: Minutes) -> None:
    three.read_through(lambda inner, clock: Unplugged(inner, clock, nanoseconds(15.0)))

    three.play(("unplugged", "Leave the set"))

    assert not three.session.over
    assert three.details_of("day end")[0]["early"]


def test_a_repetition_left_alone_uses_up_ninety_seconds_at_most(three: Minutes) -> None:
    def away(screen: Attended) -> None:
        screen.on_focus(False, three.clock())
        three.clock.advance(nanoseconds(1200.0))
        screen.on_focus(True, three.clock())

    three.play(("repetition", away), minutes=2.0)

    assert max(one.took or 0.0 for one in three.session.results) > 1200
    assert abs(three.session.left) < 15
    assert three.details_of("day end")[0]["seconds"] == three.session.spent
    assert len(three.session.results) > 4


def test_a_session_without_repetitions_stores_none(three: Minutes) -> None:
    ended = three.play(("repetition", back), ("menu", "Home"))

    assert ended is Done.HOME
    assert three.names == ["repetition", "menu"]
    assert three.session.results == ()
    assert not three.session.over


def test_a_session_without_repetitions_can_be_begun_with_another_length(three: Minutes) -> None:
    three.play(("repetition", back), ("menu", "Home"), minutes=3.0)

    three.play()

    assert three.session.minutes == 1.0
    assert abs(three.session.left) < 15


def test_ten_void_repetitions_in_a_row_leave_the_rest_for_later(history: History) -> None:
    minutes = Minutes(history, lambda number: STALLED if number < 10 else 0.0)

    minutes.play(minutes=2.0)

    [said] = minutes.details_of("day end")
    assert [one.void for one in minutes.session.results] == [True] * 10
    assert minutes.names.count("busy") == 3
    assert (said["early"], said["counted"]) == (True, 0)
    assert not minutes.session.over

    minutes.play(minutes=2.0)

    assert minutes.session.over
    assert [one.void for one in minutes.session.results[10:13]] == [False] * 3


def test_the_next_day_begins_a_new_session(three: Minutes) -> None:
    three.play(("reveal", "menu"), ("menu", "Home"))
    three.began += timedelta(days=1)

    three.play()

    assert three.session.began.date() == date(2024, 5, 18)
    assert len(sessions_on(three.history, DATE.date())[0].results) == 1


def test_midnight_in_the_middle_ends_nothing_and_loses_nothing(history: History) -> None:
    passed_on(history, FIRST, 1)
    minutes = Minutes(history, began=datetime(2024, 5, 17, 23, 59, 20, tzinfo=DATE.tzinfo))

    minutes.play()

    [session] = sessions_on(history, date(2024, 5, 17))
    [said] = minutes.details_of("day end")
    assert {one.day for one in session.results} == {date(2024, 5, 17), date(2024, 5, 18)}
    assert session.over
    assert abs(session.left) < 15
    assert said["counted"] == len(session.results)
    assert said["kept"] == ("First",)


def last_moment(five: Minutes) -> float:
    """Seconds of the moment after the last repetition, whose time no repetition took."""
    return STAY if five.names[-2] == "moment" else 0.0


def test_a_lesson_takes_nothing_of_the_time(three: Minutes) -> None:
    three.history.keep_setting(SEEN_KEY, [])
    three.setting = replace(three.setting, lessons=Lessons(three.history))

    def watch(screen: Attended) -> None:
        three.clock.advance(nanoseconds(600.0))
        screen.on_action(Action.GO)

    three.play(("lesson", watch))

    took = [one.took or 0.0 for one in three.session.results]
    assert three.names[0] == "lesson"
    assert three.names.count("lesson") == 1
    assert max(took) < 15
    assert sum(took) == pytest.approx(three.clock() / 1e9 - 600 - last_moment(three), abs=0.1)


def test_a_movement_that_is_shown_in_a_pause_takes_nothing_of_the_time(three: Minutes) -> None:
    def watch(screen: Attended) -> None:
        three.clock.advance(nanoseconds(600.0))
        screen.on_action(Action.GO)

    three.play(("reveal", "menu"), ("menu", SHOW_MOVEMENT), ("lesson", watch), ("menu", "Go on"))

    took = [one.took or 0.0 for one in three.session.results]
    assert sum(took) == pytest.approx(three.clock() / 1e9 - 600 - last_moment(three), abs=0.1)
