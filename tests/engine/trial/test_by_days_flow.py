"""Trials by days: begun, played beside practice day by day, and told at the end."""

from collections.abc import Iterator
from datetime import timedelta

import pytest

from drills.trace import SECOND
from engine.five.day_end import Done
from engine.five.flow import warm_up
from engine.five.player_history import steadiness_blips
from engine.practice.results import Purpose
from engine.stage.actions import Action
from engine.stage.scene import Attended
from engine.store import History, ledger, open_history
from engine.trial.by_days_flow import five_minutes_in_trial
from engine.trial.by_days_saved import day_blips
from engine.trial.randomisation import order
from engine.trial.screen_words import NO_BLIPS
from engine.trial.trial import DAY_BLIPS, DAY_PAIRS, Arm, Trial
from tests.engine.five.unattended import BAND, attend
from tests.engine.trial.trying_by_days import HOME, MINUTES, READY, SEED, Days
from tests.engine.trial.two_positions import toes
from tests.engine.walking import Step, back
from tests.fakes import MILLISECOND

ARMS = order(SEED, DAY_PAIRS)
CALM = {Arm.A: 12.0, Arm.B: 6.0}
BEGIN: tuple[str, Step] = ("about trial", "Begin by days")


def goes_on(screen: Attended) -> None:
    """Take the first choice."""
    screen.on_action(Action.GO)


@pytest.fixture
def days(history: History) -> Days:
    """A player whose trial by days has just begun."""
    made = Days(history)
    made.begin()
    return made


@pytest.fixture(scope="module")
def story(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Days]:
    """Two sessions on the first day of a trial and one on the second."""
    with open_history(tmp_path_factory.mktemp("days"), []) as history:
        made = Days(history)
        made.begin()
        made.play(READY, HOME)
        made.play(READY, HOME)
        made.next_day()
        made.play(READY, HOME)
        yield made


def test_a_day_keeps_its_set_up_and_the_next_has_the_next(story: Days) -> None:
    assert story.todays == [
        *((1, ARMS[0].value, False), (1, ARMS[0].value, True), (2, ARMS[1].value, False)),
    ]


def test_the_steadiness_blips_and_nothing_else_belong_to_the_trial(story: Days) -> None:
    with story.history.reading() as db:
        found = db.execute("SELECT why, trial, block, sitting FROM repetition").fetchall()

    blocks = {1: 0, 2: 0, 3: 1}
    number = story.trial.number
    assert {(why, trial, block) for why, trial, block, _ in found} >= {("learning", None, None)}
    for why, trial, block, session in found:
        expected = (number, blocks[session]) if why == Purpose.BAND else (None, None)
        assert (trial, block) == expected
    assert len(story.trial.repetitions) >= 3 * DAY_BLIPS


def test_its_blips_count_for_practice_as_always(story: Days) -> None:
    blips = steadiness_blips(story.history, BAND, Purpose.BAND)
    tried = [one for one in day_blips(story.history, story.trial.number) if not one.void]

    assert [one.deviation for one in blips] == [one.deviation for one in tried]
    assert len(story.results) > DAY_BLIPS
    counted = sum(result.counts for result in story.results)
    assert ledger.streaks(story.history, story.now().date()).today == counted


def test_no_screen_tells_anything_of_the_trial_before_its_end(story: Days) -> None:
    of_trial = {name for name in story.names if "trial" in name}

    assert of_trial == {"trial today"}


def test_not_today_is_practice_without_the_trial(days: Days) -> None:
    days.play(("trial today", "Not today"), HOME)
    days.next_day()
    days.play(("trial today", back))

    assert days.trial.repetitions == ()
    assert days.todays == [(1, ARMS[0].value, False)] * 2


def test_the_warm_up_is_no_part_of_the_trial(days: Days) -> None:
    attend(warm_up(days.setting, days.history, BAND), days.clock, seen=days.seen)

    assert Purpose.WARM in {result.why for result in days.results}
    assert "trial today" not in days.names
    assert days.trial.repetitions == ()


def test_going_back_begins_no_session(days: Days) -> None:
    ended = days.play(("trial today", "Back"))

    assert ended is Done.HOME
    assert days.names == ["trial today"]
    assert days.results == []


def test_after_a_kill_the_day_goes_on_with_its_set_up(days: Days) -> None:
    flow = five_minutes_in_trial(days.setting, days.history, BAND, MINUTES)
    for scene in flow:
        screen = scene.screen
        screen.on_focus(True, days.clock())
        if screen.name == "trial today":
            goes_on(screen)
        while screen.outcome is None and len(days.trial.repetitions) < 2:
            days.clock.advance(10 * MILLISECOND)
            screen.on_sample(scene.rig.sample(), days.clock())
        if len(days.trial.repetitions) == 2:
            break
    flow.close()

    days.play(READY, HOME)

    assert days.todays == [(1, ARMS[0].value, True)]
    assert {one.block for one in days.trial.repetitions} == {0}


def test_a_session_over_midnight_keeps_its_set_up_until_the_next_day_is_over(days: Days) -> None:
    midnight = days.began.replace(hour=23, minute=59, second=40)
    days.began = midnight - timedelta(seconds=days.clock() / SECOND)
    days.play(READY, HOME)

    days.play(READY, HOME)

    assert len({one.day for one in days.trial.repetitions}) == 2
    assert {one.block for one in days.trial.repetitions} == {0}
    assert days.todays == [(1, ARMS[0].value, False), (1, ARMS[0].value, True)]


def test_after_the_last_day_the_result_is_told_and_the_trial_is_over(days: Days) -> None:
    days.store_days(14, CALM)
    days.play(READY, HOME)
    days.next_day()

    days.play(READY, HOME, ("trial by days result", "The curves"), ("trial curves", "Done"))
    days.play(HOME)
    days.menu(
        ("about trial", "Past trials"),
        ("past trials", goes_on),
        ("trial by days result", "Done"),
        ("past trials", back),
        ("about trial", "Back"),
    )

    assert days.trial.over
    assert days.todays == [(15, ARMS[14].value, False), (16, ARMS[15].value, False)]
    said = [details["said"] for name, details in days.seen if name == "trial by days result"]
    assert said[0] == said[1]
    assert "is steadier by" in str(said[0])


def test_a_trial_whose_last_day_is_full_is_told_before_the_next_session(days: Days) -> None:
    days.store_days(16, CALM)

    days.play(("trial by days result", "Done"), HOME)

    assert days.trial.over
    assert days.todays == []


def test_the_menu_tells_a_full_trial(days: Days) -> None:
    days.store_days(16, CALM)

    days.menu(("trial by days result", "Done"))

    assert days.names == ["trial by days result"]


def test_a_player_without_steadiness_blips_is_asked_for_no_set_up(history: History) -> None:
    days = Days(history, blips=False)
    days.begin()

    days.play(HOME)

    assert "trial today" not in days.names
    assert days.trial.repetitions == ()


def test_a_trial_by_days_is_begun_from_the_menu(history: History) -> None:
    days = Days(history)

    days.menu(
        BEGIN,
        ("set-up", "Go on"),
        ("set-up", toes),
        ("trial by days", "Back"),
        *(("set-up", "Go on"), ("set-up", "Go on"), ("trial by days", "Begin")),
    )

    begun = days.trial
    assert begun == Trial(
        *(begun.number, begun.began, BAND.id, begun.a, begun.b, DAY_PAIRS, begun.seed),
        by_days=True,
    )
    assert (begun.a.name, begun.b.name) == ("ball of the foot", "toes")
    assert days.names == [
        "about trial",
        *["set-up", "set-up", "trial by days"] * 2,
    ]


def test_without_steadiness_blips_none_is_begun(history: History) -> None:
    days = Days(history, blips=False)

    days.menu(BEGIN, ("no trial", back), ("about trial", "Back"))

    assert [details["why"] for name, details in days.seen if name == "no trial"] == [NO_BLIPS]


@pytest.mark.parametrize("at_once", [False, True])
def test_while_it_is_under_way_it_can_only_be_given_up(days: Days, at_once: bool) -> None:
    days.store_days(4, CALM)

    days.menu(
        ("trial by days under way", "Give it up"),
        ("give up", "Give it up"),
        ("given up", back),
        ("about trial", "Past trials"),
        ("past trials", goes_on),
        ("given up", back),
        ("past trials", back),
        ("about trial", "Back"),
        at_once=at_once,
    )

    assert days.trial.over
    [said] = [details for name, details in days.seen if name == "trial by days under way"]
    assert said["choices"] == ["Back", "Give it up"]
    assert said["far"] == "2 of 8 pairs of days are done"
