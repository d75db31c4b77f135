"""Moments in five minutes: between repetitions or at the day's end, once, and within the time."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import timedelta

import pytest

from drills.level import Feedback
from drills.score import Reason, Verdict
from engine.drill.moment import STAY
from engine.five.flow import five_minutes
from engine.practice.results import Purpose
from engine.stage.actions import Action
from engine.store import History
from engine.store.repetitions import add_repetition
from tests.engine.drill.test_moments import MISSES, MOMENTS, heard, said
from tests.engine.five.unattended import (
    BAND,
    DATE,
    FIRST,
    HOLDS,
    LOOK,
    Minutes,
    passed_on,
    whys,
)
from tests.engine.walking import choose, sit_through
from tests.loudspeaker import Loudspeaker
from tests.made import record

REVEALED = [replace(level, feedback=Feedback.EVERY) for level in HOLDS]
OFTEN_MISSED = 4
"""Of so many holds one is missed where there is to be no row of ten clean ones."""


def sometimes(number: int) -> float:
    """Amount in % by which a hold is off: every 4th is missed, after the first eight."""
    return MISSES if number >= 8 and number % OFTEN_MISSED == 0 else 0.0


def of(minutes: Minutes, what: str) -> list[Mapping[str, object]]:
    """Details of the moments of one sort."""
    return [one for one in minutes.details_of("moment") if one["what"] == what]


def test_a_level_is_passed_between_two_repetitions_and_not_again_at_the_end(
    history: History,
) -> None:
    minutes = Minutes(history, sometimes, levels=REVEALED)

    minutes.play(minutes=2.0)

    place = minutes.names.index("moment")
    assert minutes.names[place - 2 : place + 2] == ["repetition", "reveal", "moment", "repetition"]
    assert said(minutes)[0] == ("Passed: First.", "Next: Second.")
    assert [one["level"] for one in of(minutes, "passed")] == ["first"]
    assert heard(minutes).count("passed") == 1
    assert minutes.details_of("day end")[0]["passed"] == ("First",)


def test_a_level_whose_feedback_is_withheld_is_passed_at_the_end_of_the_day(
    history: History,
) -> None:
    minutes = Minutes(history, sometimes, levels=HOLDS)

    minutes.play()

    assert minutes.names.count("moment") == 1
    assert minutes.names[-2:] == ["moment", "day end"]
    assert said(minutes)[0][0] == "Passed: First."
    assert heard(minutes) == ["passed"]


def test_a_pass_before_an_interruption_is_not_celebrated_again(history: History) -> None:
    minutes = Minutes(history, sometimes, levels=REVEALED)

    minutes.play(("moment", "menu"), ("menu", "Home"), minutes=2.0)
    minutes.play(minutes=2.0)

    assert len(minutes.details_of("day end")) == 1
    assert minutes.details_of("day end")[0]["passed"] == ("First",)
    assert len(of(minutes, "passed")) == heard(minutes).count("passed") == 1


def test_a_check_up_is_retained_with_a_moment_before_its_screen(history: History) -> None:
    passed_on(history, REVEALED[0], 1, took=4.0)
    minutes = Minutes(history, sometimes, levels=REVEALED)

    minutes.play()

    checked = whys(minutes.session).count(Purpose.DUE)
    assert minutes.names[: checked + 2] == [*["repetition"] * checked, "moment", "shown"]
    assert said(minutes)[0] == ("Retained: First.", "Next check-up in 3 days.")
    assert of(minutes, "retained")[0]["level"] == "first"
    assert heard(minutes).count("retained") == 1


def test_a_check_up_that_is_not_retained_today_is_no_moment(history: History) -> None:
    passed_on(history, FIRST, 1, took=4.0)
    minutes = Minutes(history, lambda _: MISSES, levels=[FIRST])

    minutes.play()

    assert "shown" in minutes.names
    assert "moment" not in minutes.names
    assert heard(minutes) == []


def test_the_menu_that_is_asked_for_over_a_check_up_comes_next(history: History) -> None:
    passed_on(history, FIRST, 1, took=4.0)
    minutes = Minutes(history, lambda _: MISSES, levels=[FIRST])

    minutes.play(("shown", "menu"), ("menu", "Leave for now"), ("day end", "Home"))

    assert minutes.names[-3:] == ["shown", "menu", "day end"]


def test_a_moment_counts_as_practice_and_the_session_ends_on_time(history: History) -> None:
    minutes = Minutes(history, sometimes, levels=REVEALED)

    minutes.play(minutes=2.0)

    took = [result.took or 0.0 for result in minutes.session.results]
    at_the_end = STAY if minutes.names[-2] == "moment" else 0.0
    assert len(minutes.details_of("moment")) > bool(at_the_end)
    assert sum(took) == pytest.approx(minutes.clock() / 1e9 - at_the_end, abs=0.1)
    assert abs(120 - sum(took)) < 15


@pytest.mark.parametrize(("days", "words"), [(6, "7 days in a row."), (5, "")])
def test_the_seventh_day_in_a_row_is_a_moment_at_the_first_end_of_the_day(
    history: History, days: int, words: str
) -> None:
    # An older and longer row, so that this one is not the longest ever.
    for ago in [*range(days, 0, -1), *range(40, 30, -1)]:
        passed_on(history, FIRST, ago, took=4.0, score=99.9)
    minutes = Minutes(history, lambda _: MISSES, levels=[FIRST])

    minutes.play()
    minutes.play()

    rows = [one["words"] for one in minutes.details_of("moment")]
    assert rows == ([words] if words else [])
    assert minutes.names.count("day end") == 2


def test_the_longest_row_of_days_is_a_best(history: History) -> None:
    for ago in (3, 2, 1):
        passed_on(history, FIRST, ago, took=4.0, score=99.9)
    minutes = Minutes(history, lambda _: MISSES, levels=[FIRST])

    minutes.play()

    assert said(minutes) == [("4 days in a row, your longest.", "Next: 7 days in a row.")]
    assert heard(minutes) == ["best"]


def test_the_longest_row_of_days_is_a_best_once_though_a_set_was_played_before(
    history: History,
) -> None:
    for ago in (3, 2, 1, 0):
        passed_on(history, FIRST, ago, took=4.0, score=99.9)
    minutes = Minutes(history, lambda _: MISSES, levels=[FIRST])

    minutes.play()
    minutes.play()

    assert said(minutes) == [("4 days in a row, your longest.", "Next: 7 days in a row.")]


def test_a_best_score_is_a_moment_at_the_end_of_the_day(history: History) -> None:
    passed_on(history, FIRST, 0, score=60.0)
    minutes = Minutes(history, lambda number: MISSES * (number % 2), levels=[FIRST])

    minutes.play()

    assert minutes.names[-2:] == ["moment", "day end"]
    assert said(minutes) == [("Best score yet: 99 at First.", "")]
    assert heard(minutes) == ["best"]


def test_a_session_without_feet_has_no_moments(history: History) -> None:
    minutes = Minutes(history, levels=REVEALED)
    minutes.foot.counts = False

    minutes.play()

    speaker = minutes.setting.stage.speaker
    assert isinstance(speaker, Loudspeaker)
    assert "moment" not in minutes.names
    assert MOMENTS.isdisjoint(speaker.heard)


def test_a_day_later_nothing_of_yesterday_is_celebrated(history: History) -> None:
    first = Minutes(history, sometimes, levels=REVEALED)
    first.play()

    second = Minutes(history, lambda _: MISSES, levels=REVEALED, began=DATE + timedelta(days=1))
    second.play()

    assert heard(first).count("passed") == 1
    assert said(second) == []


def test_going_home_with_a_pass_that_was_held_back_shows_it_and_never_again(
    history: History,
) -> None:
    for _ in range(7):
        verdict = Verdict(Reason.CLEAN, 60.0)
        add_repetition(history, record(level="first", kind="hold", at=DATE, verdict=verdict))
    minutes, names = Minutes(history, sometimes, levels=HOLDS), list[str]()

    for scene in five_minutes(minutes.setting, history, BAND, 1.0):
        screen = scene.screen
        names.append(screen.name)
        screen.on_focus(True, minutes.clock())
        if screen.name == "menu":
            choose(screen, "Home")
        elif names == ["repetition", "repetition"]:
            screen.on_action(Action.MENU)
        else:
            sit_through(scene, minutes.clock, LOOK)
    minutes.play()

    assert names == ["repetition", "repetition", "menu", "moment"]
    assert [one["level"] for one in of(minutes, "passed")] == ["second"]
    assert heard(minutes).count("passed") == 2


def test_the_longest_row_ever_stands_for_the_round_lengths_on_its_way(history: History) -> None:
    passed_on(history, FIRST, 0, score=99.9)
    minutes = Minutes(history, levels=[FIRST])

    minutes.play()

    [(words, line)] = said(minutes)
    row = len(minutes.session.results) + 1
    assert row > 10
    assert (words, line) == (f"{row} clean in a row, your best yet.", "")
