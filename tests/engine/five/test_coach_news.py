"""What the coach tells: a fault once when it is found, and once that it has halved."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from drills.fault import Fault
from engine.five.coach_news import News, keep_told, news_of, told_before
from engine.practice.diagnosis import FaultShare
from engine.practice.focus import Focus, FocusChange, FocusStep
from engine.store import History
from engine.store.rigs import USED
from tests.engine.five.coach_pictures import focus
from tests.stored import in_memory

EARLY = focus(Fault.EARLY_ROLL, was=22, now=22)
HALVED = replace(EARLY, now=FaultShare(Fault.EARLY_ROLL, 11, 40))
DIP = replace(focus(Fault.DIP), since=EARLY.since + timedelta(days=9))
FOUND = FocusStep(FocusChange.TOLD, EARLY)
OVER = FocusStep(FocusChange.HALVED, None, HALVED)


def told_in_turn(history: History, *steps: FocusStep) -> list[News]:
    """What is told after each of some steps, once what came before was told."""
    told = []
    for step in steps:
        news = news_of(told_before(history), step)
        keep_told(history, news)
        told.append(news)
    return told


def test_a_fault_is_told_once() -> None:
    with in_memory() as history:
        told = told_in_turn(history, FOUND, FOUND, FocusStep(FocusChange.NONE, HALVED))

    assert told == [News(EARLY), News(), News()]


def test_that_it_has_halved_is_told_once() -> None:
    with in_memory() as history:
        told = told_in_turn(history, FOUND, OVER, OVER)

    assert told == [News(EARLY), News(halved=HALVED), News()]


def test_a_fault_that_was_never_told_is_not_told_as_halved() -> None:
    with in_memory() as history:
        assert told_in_turn(history, OVER) == [News()]


def test_another_fault_that_takes_over_is_told() -> None:
    less = replace(EARLY, now=FaultShare(Fault.EARLY_ROLL, 16, 40))

    with in_memory() as history:
        told = told_in_turn(history, FOUND, FocusStep(FocusChange.TAKEN_OVER, DIP, less))

    assert told == [News(EARLY), News(DIP)]


def test_a_fault_found_after_another_has_halved_is_told_beside_it_unseen_till_then() -> None:
    with in_memory() as history:
        told = told_in_turn(history, FOUND, FocusStep(FocusChange.TOLD, DIP, HALVED))

    assert told == [News(EARLY), News(DIP, HALVED)]


def test_the_same_fault_on_a_later_day_is_told_again() -> None:
    later = Focus(EARLY.was, EARLY.now, EARLY.since + timedelta(days=30))

    with in_memory() as history:
        told = told_in_turn(history, FOUND, OVER, FocusStep(FocusChange.TOLD, later))

    assert told[-1] == News(later)


def test_each_rig_has_its_own() -> None:
    with in_memory() as history:
        history.keep_setting(USED, 1)
        keep_told(history, News(EARLY))
        history.keep_setting(USED, 2)
        other = told_before(history)
        history.keep_setting(USED, 1)
        own = told_before(history)

    assert (other, own) == (None, (Fault.EARLY_ROLL, EARLY.since))


@pytest.mark.parametrize(
    "stored", [None, 7, "early", [], ["early"], ["odd", "2024-05-06"], ["early", 3], {"a": 1}]
)
def test_a_setting_that_is_not_as_it_is_written_is_none(stored: object) -> None:
    with in_memory() as history:
        history.keep_setting("coach", stored)

        assert told_before(history) is None


def test_what_was_told_is_read_as_it_was_stored() -> None:
    with in_memory() as history:
        keep_told(history, News(DIP))

        assert told_before(history) == (Fault.DIP, date(2024, 5, 15))
