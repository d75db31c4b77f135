"""The fault that is worked on: told, kept until it has halved, or taken over by another."""

from datetime import date, timedelta

import numpy as np
import pytest

from drills.fault import Fault
from engine.practice.diagnosis import FaultShare
from engine.practice.focus import Focus, FocusChange, Halved, focus_step

DAY = date(2024, 5, 17)
LATER = DAY + timedelta(days=9)
EARLY, DIP = Fault.EARLY_ROLL, Fault.DIP


def share(times: int, fault: Fault = EARLY) -> FaultShare:
    """A fault in so many of forty blips."""
    return FaultShare(fault, times, 40)


def blips(early: int, dip: int = 0) -> list[Fault | None]:
    """Forty blips, so many with each of two faults."""
    return [*[EARLY] * early, *[DIP] * dip, *[None] * (40 - early - dip)]


TOLD = Focus(share(22), share(22), DAY)


def test_nothing_is_worked_on_where_nothing_stands_out() -> None:
    assert focus_step(None, blips(5, 5), DAY).now is None
    assert focus_step(None, blips(5, 5), DAY).change is FocusChange.NONE


def test_a_fault_that_stands_out_is_worked_on_from_that_day() -> None:
    step = focus_step(None, blips(22), DAY)

    assert (step.change, step.now, step.over) == (FocusChange.TOLD, TOLD, None)


@pytest.mark.parametrize("early", [12, 22, 40])
def test_it_is_worked_on_as_long_as_it_has_not_halved(early: int) -> None:
    step = focus_step(TOLD, blips(early), LATER)

    assert (step.change, step.now) == (FocusChange.NONE, Focus(share(22), share(early), DAY))


@pytest.mark.parametrize("early", [0, 11])
def test_it_is_over_once_it_has_halved(early: int) -> None:
    step = focus_step(TOLD, blips(early, dip=20), LATER)

    assert (step.change, step.now) == (FocusChange.HALVED, None)
    assert step.over == Focus(share(22), share(early), DAY)


def test_half_is_that_of_the_share_where_fewer_blips_were_looked_at() -> None:
    few = Focus(FaultShare(EARLY, 10, 20), FaultShare(EARLY, 10, 20), DAY)

    assert focus_step(few, blips(11), LATER).now is not None
    assert focus_step(few, blips(10), LATER).now is None


@pytest.mark.parametrize(("dip", "takes_over"), [(28, True), (21, True), (20, False), (13, False)])
def test_another_fault_takes_over_where_it_is_clearly_more_frequent(
    dip: int, takes_over: bool
) -> None:
    step = focus_step(TOLD, blips(12, dip), LATER)

    assert (step.change is FocusChange.TAKEN_OVER) == takes_over
    if takes_over:
        assert step.now == Focus(share(dip, DIP), share(dip, DIP), LATER)
        assert step.over == Focus(share(22), share(12), DAY)


HALVED = Halved(EARLY, LATER)


@pytest.mark.parametrize(
    ("days", "change"), [(0, FocusChange.NONE), (13, FocusChange.NONE), (14, FocusChange.TOLD)]
)
def test_a_fault_that_halved_is_told_again_after_two_weeks_at_the_soonest(
    days: int, change: FocusChange
) -> None:
    step = focus_step(None, blips(22), LATER + timedelta(days=days), HALVED)

    assert step.change is change
    assert step.halved == HALVED


def test_another_fault_is_told_as_soon_as_it_stands_out() -> None:
    halving = focus_step(TOLD, blips(11, dip=20), LATER)

    step = focus_step(halving.now, blips(11, dip=25), LATER, halving.halved)

    assert halving.halved == HALVED
    assert (step.change, step.now) == (
        FocusChange.TOLD,
        Focus(share(25, DIP), share(25, DIP), LATER),
    )


def test_a_fault_that_halved_does_not_take_over_from_another_within_two_weeks() -> None:
    dip = Focus(share(20, DIP), share(20, DIP), LATER)

    soon = focus_step(dip, blips(28, dip=12), LATER + timedelta(days=5), HALVED)
    late = focus_step(dip, blips(28, dip=12), LATER + timedelta(days=14), HALVED)

    assert (soon.change, soon.halved) == (FocusChange.NONE, HALVED)
    assert (late.change, late.halved) == (FocusChange.TAKEN_OVER, HALVED)


def test_a_clock_that_ran_ahead_by_years_keeps_no_fault_back() -> None:
    ahead = Halved(EARLY, date(2099, 1, 1))

    assert focus_step(None, blips(22), DAY, ahead).change is FocusChange.TOLD


def test_too_few_blips_change_nothing() -> None:
    assert focus_step(TOLD, blips(0)[:19], LATER).now == TOLD
    assert focus_step(None, blips(19)[:19], LATER).now is None


def test_a_foot_that_stays_as_it_is_keeps_its_focus() -> None:
    rng = np.random.default_rng(3)
    played: list[Fault | None] = [EARLY if one < 0.5 else None for one in rng.random(900)]
    focus: Focus | None = None
    changes: list[FocusChange] = []
    for looked in range(20, 900, 15):
        step = focus_step(focus, played[:looked], DAY)
        focus, changes = step.now, [*changes, step.change]

    assert sum(change is not FocusChange.NONE for change in changes) <= 3
    assert focus is not None
