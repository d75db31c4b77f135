"""The check of a level that a repetition decided: its marks, its curves, and what was missed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta

import pytest

from drills.fault import Fault
from drills.score import Reason, Verdict
from engine.drill.set_log import SetLog
from engine.five.player_state import PlayerState
from engine.five.retention_screen import RetentionCheck, check_of
from engine.kit.repetition_marks import Mark
from engine.practice.diagnosis import FaultShare
from engine.practice.results import Result
from engine.practice.retention import CheckOutcome, Retention
from engine.store import Record
from tests.made import HOLD, record

DAY = date(2024, 5, 17)
DUE = Retention(due=DAY, day=DAY, first=(False, False))
MISSED = record(verdict=Verdict(Reason.OVER_LIMIT, 40.0, over=("dip",)))
TODAY = replace(MISSED, at=datetime(2024, 5, 17, 20, 15).astimezone())
YESTERDAY = replace(TODAY, at=TODAY.at - timedelta(days=1))


class Played(SetLog):
    """Log of a set with these records of repetitions that counted."""

    def __init__(self, records: Sequence[Record]) -> None:
        super().__init__(HOLD, None)
        self._played = list(records)

    @property
    def counting(self) -> list[Record]:
        """The records."""
        return self._played


def player(retention: Retention, *earlier: Result) -> PlayerState:
    """A player today with this retention of the hold, after earlier repetitions."""
    return PlayerState(DAY, [HOLD], retention={HOLD.id: retention}, recent=earlier)


def decided(records: Sequence[Record]) -> RetentionCheck | None:
    """The check that a third miss decided today, after these repetitions."""
    return check_of(HOLD, Played(records), player(DUE), DUE.after(DAY, False))


def test_a_check_has_a_mark_for_each_repetition_and_the_days_until_the_next() -> None:
    check = decided([TODAY] * 3)

    assert check is not None
    assert (check.title, check.outcome) == (HOLD.title, CheckOutcome.NOT_TODAY)
    assert check.marks == (Mark.MISSED,) * 3
    assert check.due_days == 1


@pytest.mark.parametrize(
    ("records", "drawn"),
    [
        ([TODAY] * 3, 3),
        ([YESTERDAY, *[TODAY] * 3], 3),
        ([TODAY] * 2, 0),
        ([YESTERDAY, *[TODAY] * 2], 0),
    ],
)
def test_curves_and_misses_are_told_only_where_all_repetitions_of_today_are_at_hand(
    records: Sequence[Record], drawn: int
) -> None:
    check = decided(records)

    assert check is not None
    assert check.drawn == drawn
    assert (check.missed is not None) == (drawn > 0)


def test_a_check_names_the_fault_behind_most_of_its_misses() -> None:
    early = Verdict(Reason.OVER_LIMIT, 40.0, ("dip",), {"dip": 16.0, "lead": 0.2, "early": 8.0})
    of_blip = replace(TODAY, kind="blip", verdict=early)

    check, of_holds = decided([of_blip, of_blip, TODAY]), decided([TODAY] * 3)

    assert check is not None
    assert of_holds is not None
    assert check.cause == FaultShare(Fault.EARLY_ROLL, 2, 3)
    assert of_holds.cause is None


def test_a_check_that_is_not_decided_or_did_not_change_is_none() -> None:
    begun = replace(DUE, first=())
    log = Played([TODAY])

    assert check_of(HOLD, log, player(begun), begun.after(DAY, True)) is None
    assert check_of(HOLD, log, player(DUE), DUE) is None
    assert check_of(HOLD, log, player(DUE), None) is None


@pytest.mark.parametrize(
    ("due", "missed", "rested", "heading"),
    [
        (7, False, 0, "Check-up: Hold, 8 days later"),
        (0, True, 0, "Check-up again: Hold, missed yesterday"),
        (34, False, 30, "Still there? Hold, 5 weeks later"),
    ],
)
def test_the_heading_says_how_long_after_it_was_checked(
    due: int, missed: bool, rested: int, heading: str
) -> None:
    before = Retention(DAY - timedelta(days=due), missed=missed, day=DAY, first=(False, False))
    last = Result(HOLD.id, DAY - timedelta(days=rested + 1), 50.0, True, False)
    hold = replace(HOLD, title="Hold")

    check = check_of(hold, Played([TODAY]), player(before, last), before.after(DAY, False))

    assert check is not None
    assert check.heading == heading
