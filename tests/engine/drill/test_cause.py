"""The cause of a set's misses: told in place of a measure where it is behind most of them."""

from collections import Counter
from dataclasses import replace

import pytest

from drills.fault import Fault
from drills.score import Reason, Verdict
from engine.drill.set_end import SetEnd
from engine.drill.set_words import cause_words, fault_words, more_words
from engine.drill.summary import Summary
from engine.drill.tally import Missed, RecentRepetitions, Tally, cause_of, leading_cause
from engine.kit.base import Place
from engine.kit.repetition_marks import Mark
from engine.practice.diagnosis import FaultShare
from tests.engine.kit.recording_canvas import said
from tests.made import level, record

EARLY = FaultShare(Fault.EARLY_ROLL, 5, 10)
DIP = Missed("Dip", 5)
MARKS = (Mark.MISSED,) * 5 + (Mark.CLEAN,) * 5


def test_the_end_of_a_set_says_the_cause_and_no_measure() -> None:
    tally = Tally(10, 4, 0, 60.0, 0, 4, False, clean_to_pass=4, missed=DIP, cause=EARLY)

    texts = " ".join(said(SetEnd(level(), tally, level())))

    assert "Early roll in 5 of 10." in texts
    assert "Most often" not in texts


def test_without_a_cause_the_most_frequent_measure_is_said() -> None:
    tally = Tally(10, 4, 0, 60.0, 0, 4, False, clean_to_pass=4, missed=DIP)

    assert more_words(tally, level()) == "Most often: dip, 5 of 10."


@pytest.mark.parametrize(
    ("cause", "clean", "words"),
    [
        (EARLY, 4, "Early roll in 5 of 10."),
        (replace(EARLY, times=1), 9, "Not clean: early roll."),
        (replace(EARLY, times=1), 8, ""),
        (None, 4, ""),
    ],
)
def test_a_cause_that_came_once_is_said_only_of_one_miss(
    cause: FaultShare | None, clean: int, words: str
) -> None:
    assert cause_words(cause, 10, clean) == words


def test_a_cause_that_came_once_leaves_the_word_to_the_measure() -> None:
    once = replace(EARLY, times=1)

    assert fault_words(once, Missed("Dip", 2), 10, 8) == "Most often: dip, 2 of 10."


@pytest.mark.parametrize(
    ("causes", "missed", "times"),
    [
        ({Fault.EARLY_ROLL: 5, Fault.DIP: 1}, 6, 5),
        ({Fault.EARLY_ROLL: 3, Fault.DIP: 3}, 6, None),
        ({Fault.EARLY_ROLL: 2}, 6, None),
        ({}, 0, None),
    ],
)
def test_a_cause_leads_where_it_is_behind_more_than_half_of_the_misses(
    causes: dict[Fault, int], missed: int, times: int | None
) -> None:
    found = leading_cause(Counter(causes), 10, missed)

    assert (None if found is None else found.times) == times


def test_a_clean_or_void_repetition_has_no_cause() -> None:
    clean = record(verdict=Verdict(Reason.CLEAN, 90.0, (), {"dip": 2.0}))
    void = record(verdict=Verdict(Reason.UNPLUGGED))

    assert [cause_of(one) for one in (clean, void)] == [None, None]


def test_a_summary_leads_with_the_cause() -> None:
    recent = RecentRepetitions(MARKS, 60.0, (), DIP, EARLY)

    texts = said(Summary(level(), recent, (), Place(10, 10)))

    assert "Early roll in 5 of 10." in texts
