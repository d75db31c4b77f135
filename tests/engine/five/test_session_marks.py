"""Marks of a session's repetitions that stand at the foot of the next one's prompt."""

from datetime import date

import pytest

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


@pytest.mark.parametrize(
    ("why", "marks"),
    [
        (Purpose.DUE, (MISSED,)),
        (Purpose.LEARN, ()),
        (Purpose.MIX, (CLEAN, MISSED)),
        (Purpose.DARK, ()),
        (Purpose.BAND, None),
    ],
)
def test_only_what_belongs_with_the_next_repetition_is_shown(
    why: Purpose, marks: tuple[Mark, ...] | None
) -> None:
    assert marks_before(Planned(FIRST, why), SESSION) == marks


def test_void_repetitions_of_the_new_level_have_their_mark_too() -> None:
    assert marks_before(Planned(SECOND_ONE, Purpose.LEARN), SESSION) == (VOID, CLEAN)
