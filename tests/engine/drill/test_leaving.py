"""Leaving a set, sets without feet, and the sounds and faults at its end."""

from dataclasses import replace

import pytest

from drills.level import PassRule
from drills.phases import Phase
from drills.score import Reason, Verdict
from drills.trace import nanoseconds
from engine.drill.set import Played, end_set, run_set
from engine.drill.set_log import SetLog, set_tally
from engine.drill.tally import Missed, recent_repetitions
from engine.pedals.port import Source
from engine.stage.actions import Action
from engine.stage.headless import ManualClock
from engine.stage.scene import Flow, Scene
from engine.store import History
from engine.store.repetitions import add_repetition
from tests.engine.drill.sets import DATE, SHORT, SetPlayer, reasons
from tests.engine.walking import back, choose, sit_through, walk
from tests.fakes import MILLISECOND, Steady, Stuttering
from tests.loudspeaker import Loudspeaker
from tests.made import BLIP, record
from tests.stored import all_results


def run_until(playing: Flow[Played], session: SetPlayer, name: str) -> Scene:
    """Play a set until a screen called `name` is shown; return its scene."""
    for scene in playing:
        if scene.screen.name == name:
            return scene
        scene.screen.on_focus(True, session.clock())
        sit_through(scene, session.clock)
    raise AssertionError(f"no {name} came")


def test_escape_asks_before_it_ends_a_set_with_something_in_it(history: History) -> None:
    session = SetPlayer(Steady(clock := ManualClock(), 0.6), clock, history)
    playing = session.set_of(SHORT)
    run_until(playing, session, "reveal").screen.on_action(Action.GO)
    repetition = next(playing).screen

    back(repetition)
    menu = next(playing).screen
    choose(menu, "Go on")

    assert menu.name == "menu"
    assert next(playing).screen.name == "repetition"


def test_the_menu_leads_home_past_the_end_of_the_set(history: History) -> None:
    session = SetPlayer(Steady(clock := ManualClock(), 0.6), clock, history)

    played = session.play(SHORT, ("reveal", "menu"), ("menu", "Home"))

    assert played.home
    assert reasons(played.log.records) == [Reason.CLEAN]


@pytest.mark.parametrize("action", [Action.MENU, Action.BACK])
def test_feet_and_escape_open_the_menu_in_a_set_with_nothing_in_it(
    history: History, action: Action
) -> None:
    session = SetPlayer(Steady(clock := ManualClock(), 0.6), clock, history)
    playing = session.set_of(SHORT)

    next(playing).screen.on_action(action)

    assert next(playing).screen.name == "menu"
    assert list(all_results(history)) == []


def test_leaving_after_the_cue_counts_is_stored_and_opens_the_menu(history: History) -> None:
    session = SetPlayer(Steady(clock := ManualClock(), 0.6), clock, history)
    playing = session.set_of(replace(BLIP, repetitions=2))
    scene = next(playing)
    while not session.audience.transitions or (
        session.audience.transitions[-1].phase is not Phase.ACT
    ):
        clock.advance(MILLISECOND)
        scene.screen.on_sample(scene.rig.sample(), clock())

    back(scene.screen)
    following = next(playing).screen

    [(_, record)] = session.audience.records
    assert record.verdict == Verdict(Reason.WALKED_OUT, 0.0)
    assert following.name == "menu"
    assert [(result.clean, result.void) for result in all_results(history)] == [(False, False)]


def test_three_repetitions_lost_to_gaps_in_a_row_show_that_the_computer_is_busy(
    history: History,
) -> None:
    clock = ManualClock()
    source: Source = Steady(clock, 0.6)
    for at in (1.2, 4.0, 6.8):
        source = Stuttering(source, clock, nanoseconds(at), stall=60 * MILLISECOND)
    session = SetPlayer(source, clock, history)
    quick = replace(SHORT, repetitions=1)

    records = session.walk(quick, *[("reveal", "on")] * 3, ("busy", "Go on"), ("reveal", "on"))

    assert reasons(records) == [Reason.GAP] * 3 + [Reason.CLEAN]


def test_a_set_without_feet_is_not_stored_and_tallied_by_itself(history: History) -> None:
    clock = ManualClock()
    session = SetPlayer(Steady(clock, 0.6), clock, history)
    session.foot.counts = False
    setting = replace(session.setting, history=None)
    rule = PassRule(2, 2)

    played = walk(run_set(replace(SHORT, rule=rule), setting, 2), clock, [])
    tally = set_tally(played.log, lambda: DATE)

    assert list(all_results(history)) == []
    assert (tally.is_tryout, tally.passed, tally.clean_streak) == (True, True, 2)
    assert [place for place, _ in session.audience.records] == [1, 2]


@pytest.mark.parametrize(
    ("before", "heard"),
    [
        ([], ["passed"]),
        ([True, False], ["passed"]),
        ([True, True], []),
        ([False, False], ["passed"]),
    ],
)
def test_passing_a_level_is_heard_once(
    history: History, before: list[bool], heard: list[str]
) -> None:
    session = SetPlayer(Steady(clock := ManualClock(), 0.6), clock, history)
    rule = PassRule(2, 2)
    for clean in before:
        reason = Reason.CLEAN if clean else Reason.OVER_LIMIT
        add_repetition(history, record(level="a-hold", rule=rule, verdict=Verdict(reason, 50.0)))
    asked = replace(SHORT, rule=rule)

    log = session.play(asked).log
    walk(end_set(asked, asked, log, session.setting), clock, [("set end", "Home")])

    speaker = session.stage.speaker
    assert isinstance(speaker, Loudspeaker)
    assert [sound for sound in speaker.heard if sound in ("passed", "best")] == heard


def test_a_best_is_heard_if_it_does_not_pass_the_level(history: History) -> None:
    session = SetPlayer(Steady(clock := ManualClock(), 0.6), clock, history)
    rule = PassRule(8, 10)
    add_repetition(history, record(level="a-hold", rule=rule, verdict=Verdict(Reason.CLEAN, 50.0)))
    asked = replace(SHORT, rule=rule)

    log = session.play(asked).log
    walk(end_set(asked, asked, log, session.setting), clock, [("set end", "Home")])

    speaker = session.stage.speaker
    assert isinstance(speaker, Loudspeaker)
    assert [sound for sound in speaker.heard if sound in ("passed", "best")] == ["best"]


@pytest.mark.parametrize(
    ("verdicts", "missed"),
    [
        ([Verdict(Reason.CLEAN, 80.0)], None),
        ([Verdict(Reason.OVER_LIMIT, 40.0, ("dip", "settle"))], Missed("Dip", 1)),
        (
            [Verdict(Reason.OVER_LIMIT, 40.0, ("dip",)), *[Verdict(Reason.LIGHT, 0.0)] * 2],
            Missed("Light blip", 2),
        ),
        ([Verdict(Reason.GAP)], None),
    ],
)
def test_the_most_frequent_fault_is_a_limit_or_a_reason(
    verdicts: list[Verdict], missed: Missed | None
) -> None:
    log = SetLog(BLIP, None)
    for verdict in verdicts:
        log.add(record(verdict=verdict))

    assert set_tally(log, lambda: DATE).missed == missed


@pytest.mark.parametrize(
    ("scores", "middle"), [([0.0], 0.0), ([0.0, 0.0, 80.0], 0.0), ([40.0, 0.0, 80.0, 60.0], 50.0)]
)
def test_a_few_repetitions_are_summed_up_by_their_median_score(
    scores: list[float], middle: float
) -> None:
    records = [record(verdict=Verdict(Reason.OVER_LIMIT, score, ("dip",))) for score in scores]

    assert recent_repetitions(records).score == middle
