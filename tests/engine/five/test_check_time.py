"""How much of a session retention checks take: where much is due, and on the first day back."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import timedelta

import pytest

from drills.level import PassRule
from engine.five.check_time import (
    BACK_SHARE,
    CATCH_UP_SHARE,
    DUE_SHARE,
    MORE_SHARE,
    MUCH_DUE,
    NEARLY_DAILY,
    PRESSING_SHARE,
    WAITED,
    WEEKS_OF_REST,
)
from engine.five.pace import PlayerPace
from engine.five.planner import Planned, plan
from engine.five.player_state import PlayerState
from engine.practice.results import Purpose
from engine.practice.retention import Retention
from tests.engine.five.planning import (
    BAND,
    BY_ID,
    EVERYTHING,
    LEVELS,
    TODAY,
    a_player,
    ids,
    played,
    session,
    whys,
)

FIVE = 300.0
"""Seconds of a session."""
EACH = 6.0
"""Seconds of a repetition."""
EVEN = PlayerPace({level.id: EACH for level in [*LEVELS, BAND]})
DAY = timedelta(days=1)
ALL = tuple(level.id for level in LEVELS)
LAST = ALL[-1]
"""The hardest level: checks come to it first."""


def fitting(share: float) -> int:
    """Levels whose checks, of four clean repetitions each, begin in a share of a session."""
    return sum(place * 4 * EACH + 2 * EACH <= share * FIVE for place in range(len(LEVELS)))


def checked(player: PlayerState) -> list[str]:
    """Levels that a session checks, in order."""
    return list(dict.fromkeys(ids(plan(player, session()), Purpose.DUE)))


def rested(days: int, due: Iterable[str] = ALL, pace: PlayerPace = EVEN) -> PlayerState:
    """A player who has passed everything and then rested for so many days."""
    last = replace(
        played(Planned(BY_ID["blip-3-good"], Purpose.MIX), EACH),
        day=TODAY - timedelta(days=days + 1),
    )
    return a_player(EVERYTHING, tuple(due), recent=[last], pace=pace)


@pytest.mark.parametrize(
    ("done", "due", "share"),
    [
        (EVERYTHING, MUCH_DUE + 6, CATCH_UP_SHARE),
        (EVERYTHING - {LAST}, MUCH_DUE + 6, MORE_SHARE),
    ],
    ids=["nothing left to learn", "one left to learn"],
)
def test_checks_take_more_time_where_nothing_is_left_to_learn(
    done: frozenset[str], due: int, share: float
) -> None:
    never = [*LEVELS[:-1], replace(LEVELS[-1], rule=PassRule(100, 100))]
    player = a_player(done, ALL[:due], pace=EVEN, levels=never)

    assert len(checked(player)) == fitting(share)


@pytest.mark.parametrize(
    ("waited", "last", "due", "share"),
    [
        (WAITED, 1, MUCH_DUE + 6, PRESSING_SHARE),
        (WEEKS_OF_REST - 1, 1, MUCH_DUE + 6, PRESSING_SHARE),
        (WAITED, NEARLY_DAILY + 1, MUCH_DUE + 6, PRESSING_SHARE),
        (WAITED - 1, 1, MUCH_DUE + 6, MORE_SHARE),
        (WEEKS_OF_REST, 1, MUCH_DUE + 6, MORE_SHARE),
        (WAITED, NEARLY_DAILY + 2, MUCH_DUE + 6, MORE_SHARE),
        (WAITED - 1, 1, MUCH_DUE, DUE_SHARE),
        (WAITED, 1, MUCH_DUE, PRESSING_SHARE),
    ],
)
def test_checks_take_more_time_where_one_has_waited_for_most_of_a_week(
    waited: int, last: int, due: int, share: float
) -> None:
    never = [*LEVELS[:-1], replace(LEVELS[-1], rule=PassRule(100, 100))]
    overdue = dict.fromkeys(ALL[:due], Retention(due=TODAY - waited * DAY))
    before = replace(played(Planned(LEVELS[0], Purpose.MIX), EACH), day=TODAY - last * DAY)
    done = EVERYTHING - {LAST}
    player = a_player(done, pace=EVEN, levels=never, recent=[before])

    now = replace(player, retention={**player.retention, **overdue})

    assert len(checked(now)) == min(due, fitting(share))


@pytest.mark.parametrize(
    ("days", "share"), [(WEEKS_OF_REST - 1, CATCH_UP_SHARE), (WEEKS_OF_REST, BACK_SHARE)]
)
def test_the_first_day_back_shows_what_is_still_there(days: int, share: float) -> None:
    assert len(checked(rested(days))) == fitting(share)


def test_the_first_day_back_goes_on_with_steadiness_and_ends_with_nothing_shown() -> None:
    found = whys(plan(rested(40), session()))

    assert found[:2] == [Purpose.DUE, Purpose.BAND]
    assert found[-1] is Purpose.DARK


def test_on_the_second_day_back_checks_take_no_more_than_on_other_days() -> None:
    back = rested(40)
    today = replace(back.recent[0], day=TODAY - timedelta(days=1))

    assert len(checked(replace(back, recent=[*back.recent, today]))) == fitting(CATCH_UP_SHARE)


def test_a_long_level_waits_behind_quicker_ones_on_the_first_day_back() -> None:
    slow = PlayerPace({**EVEN.levels, LAST: 29.0})

    assert checked(rested(0, pace=slow))[0] == LAST
    assert LAST not in checked(rested(40, pace=slow))
    assert checked(rested(40, (LAST,), slow)) == [LAST]


def test_a_level_that_is_missed_every_day_does_not_keep_the_others_waiting() -> None:
    player = a_player(EVERYTHING, ALL, pace=EVEN)
    missing, seen = set(ALL[-6:]), set[str]()
    for day in range(7):
        player = replace(player, day=TODAY + timedelta(days=day))
        for name in checked(player):
            seen.add(name)
            clean = name not in missing
            for _ in range(4):
                result = played(Planned(BY_ID[name], Purpose.DUE), EACH, clean)
                player = player.after(replace(result, day=player.day))

    assert seen == EVERYTHING


def test_where_all_levels_are_due_a_check_goes_on_after_its_share_of_the_time() -> None:
    only = [replace(BY_ID["blip-3-good"], needs=())]
    retention = {only[0].id: Retention(due=TODAY)}
    player = replace(a_player(frozenset({only[0].id}), pace=EVEN), levels=only, retention=retention)

    long = replace(player, pace=PlayerPace({**EVEN.levels, only[0].id: 50.0}))

    assert set(whys(plan(long, session()))) <= {Purpose.DUE, Purpose.BAND, Purpose.DARK}
