"""Moments in sets: which, when, and each exactly once, with one sound."""

from dataclasses import replace

import pytest

from drills.level import Feedback, Level, PassRule
from drills.score import Reason, Verdict
from engine.drill.moment_rules import Achievement, AchievementKind
from engine.drill.moments import Moments
from engine.drill.set import Played, end_set, run_set
from engine.drill.set_log import SetLog
from engine.stage.earcon import Earcon
from engine.stage.scene import Flow
from engine.store import History
from engine.store.repetitions import add_repetition
from tests.engine.drill.test_mixed_set import MIX, POOL, learner
from tests.engine.five.learning_foot import passes
from tests.engine.five.unattended import FIRST, SECOND_ONE, Minutes, Seen, attend
from tests.loudspeaker import Loudspeaker
from tests.made import record

EVERY = replace(FIRST, feedback=Feedback.EVERY)
REVEALED = ["repetition", "reveal"]
MOMENTS = {earcon.value for earcon in (Earcon.PASSED, Earcon.RETAINED, Earcon.BEST, Earcon.ROW)}
MISSES = 8.0
"""Amount in % by which a hold is not clean."""


def heard(minutes: Minutes) -> list[str]:
    """Sounds of moments, in order."""
    speaker = minutes.setting.stage.speaker
    assert isinstance(speaker, Loudspeaker)
    return [sound for sound in speaker.heard if sound in MOMENTS]


def said(minutes: Minutes) -> list[tuple[object, object]]:
    """Sentence and quiet line of each moment, in order."""
    return [(one["words"], one["line"]) for one in minutes.details_of("moment")]


def set_of(level: Level, minutes: Minutes, repetitions: int = 10) -> Flow[Played]:
    """Set of a level."""
    return run_set(level, minutes.setting, repetitions)


def test_the_reveal_of_the_repetition_that_passes_is_followed_by_the_moment(
    history: History,
) -> None:
    minutes = Minutes(history, levels=[EVERY, SECOND_ONE])

    minutes.walk(set_of(EVERY, minutes))

    assert minutes.names == [*REVEALED * 8, "moment", *REVEALED * 2, "moment"]
    assert said(minutes) == [
        ("Passed: First.", "Next: Second."),
        ("10 clean in a row.", "Next: 25 in a row."),
    ]
    assert heard(minutes) == ["passed", "row"]


@pytest.mark.parametrize("feedback", [Feedback.NONE, Feedback.OUTSIDE])
def test_where_feedback_is_withheld_one_moment_at_the_end_says_all(
    history: History, feedback: Feedback
) -> None:
    minutes = Minutes(history, levels=[FIRST, SECOND_ONE])

    minutes.walk(set_of(replace(FIRST, feedback=feedback), minutes))

    assert minutes.names == [*["repetition"] * 10, "moment"]
    assert said(minutes) == [("Passed: First.", "10 clean in a row.")]
    assert heard(minutes) == ["passed"]


def test_a_level_with_summaries_is_passed_with_the_summary(history: History) -> None:
    minutes, five = Minutes(history), ["repetition"] * 5
    summed = replace(FIRST, feedback=Feedback.SUMMARY, summary=5)

    minutes.walk(set_of(summed, minutes, 15))

    assert minutes.names == [*five, "summary", *five, "summary", "moment", *five, "summary"]
    assert said(minutes) == [("Passed: First.", "10 clean in a row.")]


def test_a_level_is_passed_once_over_sets(history: History) -> None:
    minutes = Minutes(history)

    for _ in range(3):
        minutes.walk(set_of(EVERY, minutes, 6))

    assert said(minutes) == [
        ("Passed: First.", "Next: Second."),
        ("10 clean in a row.", "Next: 25 in a row."),
    ]
    assert minutes.names.index("moment") == len(REVEALED) * 8


def test_the_end_of_a_set_plays_no_sound_again(history: History) -> None:
    minutes = Minutes(history)
    played = minutes.walk(set_of(EVERY, minutes, 8))

    minutes.walk(end_set(EVERY, EVERY, played.log, minutes.setting), ("set end", "Home"))

    assert heard(minutes) == ["passed"]


def test_a_set_that_beats_the_best_on_its_level_ends_with_a_moment(history: History) -> None:
    verdict = Verdict(Reason.CLEAN, 50.0)
    add_repetition(history, record(level=FIRST.id, kind="hold", rule=FIRST.rule, verdict=verdict))
    minutes = Minutes(history, lambda number: MISSES * (number % 2))

    minutes.walk(set_of(EVERY, minutes, 5))

    assert minutes.names == [*REVEALED * 5, "moment"]
    assert said(minutes) == [("4 clean of 10: your best on this level.", "8 clean of 10 pass it.")]
    assert heard(minutes) == ["best"]


def test_going_home_with_a_pass_that_was_held_back_shows_it_first(history: History) -> None:
    minutes = Minutes(history)
    summed = replace(FIRST, feedback=Feedback.SUMMARY, summary=9, rule=PassRule(8, 10))
    steps = [("summary", "menu"), ("moment", "on"), ("menu", "Home")]

    played = minutes.walk(set_of(summed, minutes), *steps)

    assert played.home
    assert heard(minutes) == ["passed"]


def test_a_moment_is_left_for_the_menu_and_is_over_then(history: History) -> None:
    minutes = Minutes(history)

    minutes.walk(set_of(EVERY, minutes), ("moment", "menu"), ("menu", "Go on"))

    assert minutes.names == [*REVEALED * 8, "moment", "menu", *REVEALED * 2, "moment"]
    assert heard(minutes) == ["passed", "row"]


@pytest.mark.parametrize("stores", [True, False])
def test_a_try_out_has_no_moments(history: History, stores: bool) -> None:
    minutes = Minutes(history)
    minutes.foot.counts = False
    minutes.setting = replace(minutes.setting, history=history if stores else None)

    played = minutes.walk(set_of(EVERY, minutes))
    minutes.walk(end_set(EVERY, EVERY, played.log, minutes.setting), ("set end", "Home"))

    assert "moment" not in minutes.names
    assert heard(minutes) == []


def test_a_mixed_set_passes_its_own_level(history: History) -> None:
    passes(history, *POOL)
    learning, seen = learner(history), list[Seen]()
    mixed = replace(MIX, rule=PassRule(2, 8))

    attend(run_set(mixed, learning.setting, 8), learning.clock, (), seen)

    [moment] = [details for name, details in seen if name == "moment"]
    assert (moment["what"], moment["level"]) == ("passed", mixed.id)
    assert seen[-1][0] == "moment"


def test_two_logs_of_one_level_tell_its_pass_once(history: History) -> None:
    rule = PassRule(1, 1)
    level, clean = replace(FIRST, rule=rule), Verdict(Reason.CLEAN, 90.0)
    logs = [SetLog(level, history) for _ in range(2)]
    moments = Moments(Minutes(history).setting, lambda: None)

    for log in logs:
        log.add(record(level=level.id, kind="hold", rule=rule, verdict=clean))
        moments.take(log)

    assert [[one.kind for one in log.achieved] for log in logs] == [[AchievementKind.PASSED]] * 2
    assert [one.kind for one in moments.waiting] == [AchievementKind.PASSED]


def test_a_longer_row_takes_the_place_of_one_that_waits_whatever_else_is_achieved(
    history: History,
) -> None:
    minutes = Minutes(history, levels=[FIRST])
    moments, log = Moments(minutes.setting, lambda: None), SetLog(FIRST, None)
    row = AchievementKind.ROW
    ten, more = Achievement(row, "10 in a row"), Achievement(row, "25 in a row")
    passed = Achievement(AchievementKind.PASSED, "Passed", level="first")

    for achieved in ((ten,), (passed, more)):
        log.achieved = achieved
        moments.take(log)

    assert moments.waiting == (passed, more)
