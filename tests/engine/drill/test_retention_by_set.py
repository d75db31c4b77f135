"""A set of a level that is due is a retention check, whose result is told at its end."""

import json
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from drills.score import Reason, Verdict
from engine.drill.set_end import SetEnd
from engine.drill.set_log import SetLog, set_tally
from engine.store import History, Record
from tests.engine.kit.recording_canvas import said
from tests.made import BLIP, record

PASSED = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
NEXT_DAY = PASSED + timedelta(days=1)


def record_of(at: datetime, *, clean: bool) -> Record:
    """Record of one repetition of the level."""
    reason, score = (Reason.CLEAN, 70.0) if clean else (Reason.OVER_LIMIT, 30.0)
    verdict = Verdict(reason, score, () if clean else ("dip",), {"dip": 5.0})
    return replace(record(verdict=verdict, at=at, trace=None), level=BLIP.id)


def played(history: History, marks: str, at: datetime) -> SetEnd:
    """End of a set at a time; `marks` has + for a clean repetition and - for another."""
    log = SetLog(BLIP, history)
    for mark in marks:
        log.add(record_of(at, clean=mark == "+"))
    return SetEnd(BLIP, set_tally(log, lambda: at), BLIP)


@pytest.mark.parametrize(
    ("marks", "words"),
    [
        ("++++", "Check-up: retained."),
        ("-+-++++++++", "Check-up: retained."),
        ("-+-+-", "Check-up: not today, it stays passed."),
        ("+++-", "Passed before: it stays passed."),
    ],
)
def test_a_set_on_a_later_day_tells_whether_the_level_is_retained(
    history: History, marks: str, words: str
) -> None:
    played(history, "+" * 10, PASSED)

    end = played(history, marks, NEXT_DAY)

    assert [text for text in said(end) if text.startswith(words)]
    assert json.dumps(end.details())


def test_a_check_is_told_once_and_on_its_own_day(history: History) -> None:
    played(history, "+" * 10, PASSED)
    played(history, "++++", NEXT_DAY)

    again = played(history, "++++", NEXT_DAY)

    assert not [text for text in said(again) if text.startswith("Check-up")]


def test_the_day_on_which_a_level_is_passed_checks_no_retention(history: History) -> None:
    end = played(history, "+" * 10, PASSED)

    assert [text for text in said(end) if text.startswith("Passed.")]
