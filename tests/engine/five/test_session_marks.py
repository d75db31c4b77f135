"""Marks of a session's repetitions that stand at the foot of the next one's prompt."""

from dataclasses import replace
from datetime import date

import pytest

from drills.level import Feedback
from engine.five.planner import Planned
from engine.five.session_marks import mark_of_result, marks_before
from engine.kit.repetition_marks import Mark
from engine.practice.results import Purpose, Result
from tests.engine.five.unattended import FIRST, SECOND_ONE

CLEAN, MISSED, VOID = Mark.CLEAN, Mark.MISSED, Mark.VOID
DAY = date(2024, 5, 17)


def result(level: str, why: Purpose, mark: Mark = CLEAN) -> Result:
    """Result of one repetition with this mark."""
    is_void = mark is VOID
    return Result(level, DAY, None if is_void else 60.0, mark is CLEAN, is_void, why=why, took=5.0)


@pytest.mark.parametrize("mark", Mark)
def test_each_result_has_the_mark_of_how_it_went(mark: Mark) -> None:
    assert mark_of_result(result(FIRST.id, Purpose.LEARN, mark)) is mark


SESSION = [
    result(FIRST.id, Purpose.DUE, MISSED),
    result(SECOND_ONE.id, Purpose.DUE),
    result("steadiness-band", Purpose.BAND, MISSED),
    result(SECOND_ONE.id, Purpose.LEARN, VOID),
    result(SECOND_ONE.id, Purpose.LEARN),
    result(FIRST.id, Purpose.MIX),
    result(SECOND_ONE.id, Purpose.MIX, MISSED),
]


EVERY = replace(SECOND_ONE, feedback=Feedback.EVERY)


@pytest.mark.parametrize(
    ("why", "marks"),
    [(Purpose.LEARN, (VOID, CLEAN)), (Purpose.MIX, (MISSED,)), (Purpose.DUE, None)],
)
def test_marks_are_those_of_the_level_for_its_purpose_and_none_in_a_check_up(
    why: Purpose, marks: tuple[Mark, ...] | None
) -> None:
    assert marks_before(Planned(EVERY, why), SESSION) == marks


@pytest.mark.parametrize("why", [Purpose.DARK, Purpose.WARM])
def test_where_nothing_is_shown_no_mark_is(why: Purpose) -> None:
    assert marks_before(Planned(EVERY, why), SESSION) is None


@pytest.mark.parametrize("feedback", [Feedback.SUMMARY, Feedback.OUTSIDE, Feedback.NONE])
def test_no_mark_tells_what_a_level_holds_back(feedback: Feedback) -> None:
    level = replace(EVERY, feedback=feedback)

    assert marks_before(Planned(level, Purpose.LEARN), SESSION) is None
