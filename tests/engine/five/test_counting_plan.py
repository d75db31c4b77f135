"""When a session of counting takes the place of the warm-up, and which level it plays."""

from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.five.counting_plan import (
    APART,
    MINUTES,
    PAIRS,
    comes_today,
    counting_level,
    counting_rule,
)
from engine.five.player_state import PlayerState
from engine.practice.results import Purpose, Result, Session, SessionKind
from engine.practice.retention import Retention
from tests.engine.five.counting_levels import EASY, HARD
from tests.engine.five.unattended import DATE, FIRST

TODAY = DATE.date()
CLOSED = replace(EASY, needs=("first",))


def player(*done: str, day: date = TODAY) -> PlayerState:
    """A player on a day who has passed these levels."""
    return PlayerState(day, [FIRST, EASY, HARD], frozenset(done))


def session(*results: Result) -> Session:
    """A session of counting in which this was played."""
    return Session(1, SessionKind.COUNTING, DATE, MINUTES, 1, results)


def played(*, void: bool = False, took: float = 10.0) -> Result:
    """One repetition of the easy level."""
    return Result(EASY.id, TODAY, None if void else 60.0, not void, void, took=took)


def test_before_any_is_passed_the_first_open_level_is_played() -> None:
    assert counting_level(player()) == EASY


def test_the_hardest_passed_level_is_played_that_is_not_due() -> None:
    both = player(EASY.id, HARD.id)
    due = replace(both, retention={HARD.id: Retention(due=TODAY)})

    assert counting_level(player(EASY.id)) == EASY
    assert counting_level(both) == HARD
    assert counting_level(due) == EASY


def test_where_the_first_level_is_closed_or_there_is_none_the_warm_up_is_the_usual_one() -> None:
    shut = PlayerState(TODAY, [FIRST, CLOSED])
    none = PlayerState(TODAY, [FIRST])

    assert not comes_today(shut, None)
    assert not comes_today(none, None)
    assert comes_today(replace(shut, done=frozenset({"first"})), None)


@pytest.mark.parametrize(("days", "comes"), [(0, False), (APART - 1, False), (APART, True)])
def test_a_session_of_counting_comes_a_week_after_the_last(days: int, comes: bool) -> None:
    assert comes_today(player(), TODAY - timedelta(days=days)) is comes


@given(st.sets(st.integers(0, 200), min_size=1))
def test_no_seven_days_have_two_and_warm_ups_every_day_have_one_a_week(days: set[int]) -> None:
    came = list[date]()
    for number in sorted(days):
        day = TODAY + timedelta(days=number)
        if comes_today(player(day=day), came[-1] if came else None):
            came.append(day)

    gaps = [(after - before).days for before, after in pairwise(came)]
    assert came[0] == TODAY + timedelta(days=min(days))
    assert all(gap >= APART for gap in gaps)
    if days >= set(range(min(days), max(days) + 1)):
        assert set(gaps) <= {APART}


def test_a_session_is_six_pairs_and_a_void_repetition_is_none_of_them() -> None:
    following = counting_rule(EASY)
    almost = [played()] * (2 * PAIRS - 1)

    planned = following(player(), session(*almost, played(void=True)))

    assert planned is not None
    assert (planned.level, planned.why) == (EASY, Purpose.WARM)
    assert following(player(), session(*almost, played())) is None


@pytest.mark.parametrize(("left", "goes_on"), [(0.5, True), (0.0, False), (-20.0, False)])
def test_a_session_ends_with_its_time(left: float, goes_on: bool) -> None:
    slow = session(*[played(took=(60 * MINUTES - left) / 4)] * 4)

    assert slow.left == left
    assert (counting_rule(EASY)(player(), slow) is not None) is goes_on
