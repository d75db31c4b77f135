"""The end of a set: one sentence, one figure, one picture, and no word that contradicts another."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import numpy as np
import pytest

from drills.deviation import Bound, Deviation
from drills.level import Feedback, Level
from drills.score import Reason
from engine.drill.set_end import SetEnd, Then
from engine.drill.set_words import (
    WHY_VOID,
    figure_words,
    lead_words,
    missed_words,
    more_words,
    void_words,
)
from engine.drill.summary import Summary
from engine.drill.tally import Missed, RecentRepetitions, Tally
from engine.kit.base import Place
from engine.kit.repetition_marks import Mark
from engine.practice.passes import LevelProgress
from engine.practice.retention import Retention
from engine.practice.sense import ErrorAt, Estimate
from engine.stage.actions import Action
from tests.engine.kit.recording_canvas import recorded, said
from tests.made import level

DAY = date(2024, 5, 17)
LEVEL = level()
RULE = LEVEL.rule


def tally(**changes: Any) -> Tally:
    """Tally of a set of ten with seven clean, of which one more passes, with some changes."""
    usual = Tally(10, 7, 0, 70.0, 2, 7, False, clean_to_pass=1)
    return replace(usual, **changes)


def checked(days: int, *, missed: bool = False, outlasted: int = 1) -> Retention:
    """Retention after a check of today, whose next one comes in some days."""
    return Retention(DAY + timedelta(days=days), outlasted, missed, DAY)


@pytest.mark.parametrize(
    ("changes", "lead", "more"),
    [
        ({}, "One more clean passes it.", ""),
        ({"clean_to_pass": 4}, "Four more clean in a row pass it.", ""),
        (
            {"passed": True, "passed_now": True},
            "Passed.",
            "From tomorrow a check-up shows whether it lasts.",
        ),
        ({"passed": True}, "Passed before: it stays passed.", ""),
        ({"passed": True, "clean": 8}, "Passed before, and again now.", ""),
        ({"passed": True, "clean": 8, "counted": 9}, "Passed before: it stays passed.", ""),
        (
            {"passed": True, "shown": checked(3)},
            "Check-up: retained.",
            "Next check-up in 3 days.",
        ),
        (
            {"passed": True, "shown": checked(21, outlasted=3)},
            "Check-up: well retained.",
            "Next check-up in 21 days.",
        ),
        (
            {"passed": True, "shown": checked(1, missed=True)},
            "Check-up: not today, it stays passed.",
            "Next check-up tomorrow.",
        ),
        ({"is_tryout": True}, "Only feet on pedals count.", ""),
        ({"is_tryout": True, "passed": True, "passed_now": True}, "With feet this would pass.", ""),
        (
            {"counted": 0, "clean": 0, "void": 10, "given_up": True},
            "Given up: too many in a row were not judged.",
            "Ten were not judged.",
        ),
        (
            {"tires": True},
            "One more clean passes it.",
            "Your scores fell over the last twelve: tired?",
        ),
        (
            {"best": 7, "best_before": 6},
            "One more clean passes it.",
            "Your best on this level so far.",
        ),
        (
            {"best": 9, "best_before": 6},
            "One more clean passes it.",
            "Your best on this level: 9 clean of 10.",
        ),
        (
            {"missed": Missed("Extra blip", 3)},
            "One more clean passes it.",
            "Most often: extra blip, 3 of 10.",
        ),
    ],
)
def test_the_end_of_a_set_says_what_matters_and_what_to_know_besides(
    changes: dict[str, Any], lead: str, more: str
) -> None:
    ended = tally(**changes)

    assert (lead_words(ended, LEVEL), more_words(ended, LEVEL)) == (lead, more)
    texts = said(SetEnd(LEVEL, ended, LEVEL))
    assert texts.count(lead) == 1
    assert more in " ".join(texts)


def test_after_squeezes_an_error_that_is_sure_is_told() -> None:
    fault = ErrorAt(75.0, Estimate(-5.2, -7.0, -3.4))

    assert more_words(tally(sense=fault), LEVEL) == "At 75 you press 5 too little."


def test_no_more_than_three_sentences_stand_below_the_lead() -> None:
    full = tally(
        tires=True, best=9, best_before=8, missed=Missed("Dip", 3), void=2, guessed_off=4.0
    )

    assert more_words(full, level(guess=True)) == (
        "Your scores fell over the last twelve: tired? Your guesses are 4.0 points off. "
        "Your best on this level: 9 clean of 10."
    )


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({}, "of 10 clean, 8 to pass"),
        ({"counted": 9}, "of 9 clean"),
        ({"counted": 20}, "of 20 clean"),
    ],
)
def test_the_large_figure_names_the_pass_rule_only_of_a_whole_set(
    changes: dict[str, Any], words: str
) -> None:
    ended = tally(**changes)

    assert figure_words(ended, LEVEL) == words
    assert {"7", words} <= set(said(SetEnd(LEVEL, ended, LEVEL)))


@pytest.mark.parametrize(
    ("missed", "clean", "words"),
    [
        (None, 10, ""),
        (Missed("Dip", 1), 9, "Not clean: dip."),
        (Missed("Dip", 1), 7, ""),
        (Missed("Extra blip", 3), 7, "Most often: extra blip, 3 of 10."),
    ],
)
def test_what_was_missed_most_often_is_said_only_where_it_is_known(
    missed: Missed | None, clean: int, words: str
) -> None:
    assert missed_words(missed, 10, clean) == words


@pytest.mark.parametrize("reason", [reason for reason in Reason if reason.void])
def test_a_repetition_that_does_not_count_has_its_reason_said(reason: Reason) -> None:
    words = void_words(1, reason)

    assert words == f"One was not judged: {WHY_VOID[reason]}."
    assert len(words.split()) <= 12


def test_repetitions_void_for_several_reasons_are_only_counted() -> None:
    assert void_words(3, None) == "Three were not judged."
    assert void_words(0, None) == ""


@pytest.mark.parametrize(
    ("latest", "passed", "wanted"),
    [
        ("", False, 8),
        ("+" * 7, False, 1),
        ("-" * 10, False, 8),
        ("+++++++---", False, 8),
        ("---+++++++", False, 1),
        ("-+++++++-+", False, 1),
        ("+-+++++-+-", False, 2),
        ("++++++++++", True, 0),
    ],
)
def test_so_many_clean_in_a_row_pass_the_level_and_no_fewer(
    latest: str, passed: bool, wanted: int
) -> None:
    progress = LevelProgress(tuple(mark == "+" for mark in latest), passed)

    assert progress.clean_to_pass(RULE) == wanted
    for played in range(wanted + 1):
        assert progress.passed is (played == wanted)
        progress = progress.after(True, RULE)


@pytest.mark.parametrize(("changes", "first"), [({}, True), ({"tires": True}, False)])
def test_home_is_selected_where_the_player_tires(changes: dict[str, Any], first: bool) -> None:
    screen = SetEnd(LEVEL, tally(**changes), LEVEL)

    screen.on_action(Action.GO)

    assert (screen.outcome == LEVEL) is first
    assert (screen.outcome is Then.HOME) is not first


def test_the_choices_keep_their_places_whatever_is_selected() -> None:
    ends = [SetEnd(LEVEL, tally(), LEVEL, home_first=first) for first in (False, True)]

    assert [end.details()["choices"] for end in ends] == [["Once more", "Home"]] * 2
    assert [end.details()["selected"] for end in ends] == [0, 1]


def test_a_mark_is_drawn_for_each_repetition_and_none_is_lost_in_a_long_set() -> None:
    marks = (Mark.CLEAN, Mark.MISSED) * 30
    canvas = recorded(SetEnd(LEVEL, tally(counted=60, clean=30, marks=marks), LEVEL))

    assert len({centre for centre, _ in canvas.discs}) == 60


def test_the_marks_of_a_long_set_end_before_what_the_picture_is_typical_of() -> None:
    marks = (Mark.CLEAN,) * 60
    time = np.arange(-500, 1500) / 1000
    limit = Bound("dip 15 allowed", -15.0, None, (0.0, 1.0))
    picture = Deviation(time, np.zeros(time.size), (-0.5, 1.5), bounds=(limit,))
    end = SetEnd(LEVEL, tally(counted=60, clean=60, marks=marks), LEVEL, [picture, picture])

    canvas = recorded(end)

    [caption] = [text for text in canvas.texts if text.text == "typical of 2"]
    assert max(x for (x, _), _ in canvas.discs) < caption.ink.left


def summary_of(*clean: bool, missed: Missed | None = None) -> Summary:
    """Summary of some repetitions, each clean or not, with dips of 4, 5 and so on."""
    marks = tuple(Mark.CLEAN if one else Mark.MISSED for one in clean)
    measures = tuple({"dip": 4.0 + number} for number in range(len(clean)))
    summed: Level = replace(LEVEL, limits={"dip": 15.0}, feedback=Feedback.SUMMARY)
    recent = RecentRepetitions(marks, 60.0, measures, missed)
    return Summary(summed, recent, (), Place(5, 10))


@pytest.mark.parametrize(
    ("screen", "lead"),
    [
        (summary_of(True, True, True), "All clean."),
        (summary_of(True, False, True, missed=Missed("Dip", 1)), "Not clean: dip."),
        (summary_of(False, False, True, missed=Missed("Dip", 2)), "Most often: dip, 2 of 3."),
        (
            summary_of(False, False, True, missed=Missed("Dip", 1)),
            "Each miss was of another kind.",
        ),
    ],
)
def test_a_summary_says_what_was_missed_and_the_typical_measure(screen: Summary, lead: str) -> None:
    texts = said(screen)

    assert lead in texts
    assert "Typical dip: 5 points, 15 allowed." in texts
    assert "of the last 3 clean" in texts
