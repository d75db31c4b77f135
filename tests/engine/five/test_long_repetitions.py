"""Braking zones and counting take longer than a blip: sessions end on time, and each has a turn."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.five.pace import USUAL, PlayerPace
from engine.five.planner import DARK, LONG, following, plan
from engine.practice.passes import ALL_PEDALS, SOUND
from engine.practice.results import Purpose
from tests.engine.five.planning import BY_ID, EVERYTHING, LEVELS, a_player, ids, play, session

NEW = {"braking zones", "by itself"}
OTHERS = frozenset(level.id for level in LEVELS if level.stage not in NEW)
SLOW = PlayerPace(kinds={"zone": 13.0, "counting": 13.0})
"""A usual pace, as tests/bench/learner_day.py has it."""
SLOWER = PlayerPace(kinds={"zone": 18.0, "counting": 18.0, "blip": 12.0})


@settings(max_examples=40, deadline=None)
@given(
    passed=st.integers(len(OTHERS) - 5, len(LEVELS)),
    due=st.integers(0, 9),
    share=st.floats(0, 1),
    seed=st.integers(0, 2**32 - 1),
    pace=st.sampled_from([SLOW, SLOWER]),
)
def test_a_session_of_long_repetitions_ends_within_fifteen_seconds_of_its_time(
    passed: int, due: int, share: float, seed: int, pace: PlayerPace
) -> None:
    done = [level.id for level in LEVELS[:passed]]
    player = a_player(frozenset(done), tuple(done[-due:] if due else ()), pace=pace)

    _, begun = play(player, session(5.0, seed), share, seed, uneven=0.1, void=0.05)

    assert abs(begun.left) <= 15
    last = [one for one in begun.results if one.why is Purpose.DARK and not one.void]
    assert len(last) >= DARK - 1
    assert all(pace.of(BY_ID[one.level]) <= LONG for one in last)


@pytest.mark.parametrize("pace", [SLOW, SLOWER])
def test_what_is_planned_fills_the_time_of_who_is_slow(pace: PlayerPace) -> None:
    found = plan(a_player(EVERYTHING, pace=pace), session())

    assert abs(sum(pace.of(one.level) for one in found) - 300) <= 15


def test_who_passed_everything_else_learns_zones_and_counting_in_turn() -> None:
    played = {one.level.id for one in plan(a_player(OTHERS, pace=SLOW), session())}

    assert {"zone-1-gatehouse", "count-1-easy"} <= played


def test_without_sound_zones_have_their_turn_and_nothing_is_counted() -> None:
    player = a_player(OTHERS, pace=SLOW, pedals=ALL_PEDALS - {SOUND})

    found = plan(player, session())

    learned = ids(found, Purpose.LEARN)
    assert learned[0] == "zone-1-gatehouse"
    assert {BY_ID[name].kind.name for name in learned} == {"zone"}
    assert "counting" not in {one.level.kind.name for one in found}


def test_a_first_zone_that_takes_longer_than_was_expected_ends_the_session_on_time() -> None:
    player, begun = a_player(OTHERS), session()

    while (planned := following(player, begun)) is not None:
        took = SLOW.of(planned.level)
        one = play(player, begun, most=len(begun.results) + 1)[1].results[-1]
        one = replace(one, took=took)
        player, begun = player.after(one), replace(begun, results=(*begun.results, one))

    assert player.pace.of(BY_ID["zone-1-gatehouse"]) == USUAL
    assert abs(begun.left) <= 15
