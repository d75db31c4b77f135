"""Five minutes end on time, hold what can be played, and are the same for the same seed."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.trace import Pedal
from engine.five.pace import USUAL, pace_of
from engine.five.planner import DARK, Planned, following, plan
from engine.practice.passes import ALL_PEDALS, is_open
from engine.practice.results import Purpose
from engine.practice.retention import Retention
from tests.engine.five.planning import (
    BAND,
    BY_ID,
    EVERYTHING,
    LEVELS,
    MIDWAY,
    TODAY,
    TWO,
    a_player,
    ids,
    play,
    played,
    session,
)


@pytest.mark.parametrize("minutes", [1.0, 2.0, 5.0, 20.0])
@pytest.mark.parametrize("done", [frozenset(), MIDWAY, EVERYTHING], ids=["none", "midway", "all"])
def test_a_plan_of_any_length_fills_its_time(done: frozenset[str], minutes: float) -> None:
    player = a_player(done)

    found = plan(player, session(minutes))

    assert abs(sum(player.pace.of(one.level) for one in found) - 60 * minutes) <= 15
    assert sum(one.why is Purpose.DARK for one in found) in (DARK, DARK + 1)


@settings(max_examples=60, deadline=None)
@given(
    passed=st.integers(0, len(LEVELS)),
    minutes=st.sampled_from([1.0, 2.0, 5.0, 20.0]),
    due=st.integers(0, 6),
    share=st.floats(0, 1),
    seed=st.integers(0, 2**32 - 1),
)
def test_a_session_ends_within_fifteen_seconds_of_its_time(
    passed: int, minutes: float, due: int, share: float, seed: int
) -> None:
    done = [one.id for one in LEVELS[:passed]]
    player = a_player(frozenset(done), tuple(done[:due]))

    _, begun = play(player, session(minutes, seed), share, seed, uneven=0.1, void=0.05)

    assert abs(begun.left) <= 15
    assert sum(one.why is Purpose.DARK and not one.void for one in begun.results) >= DARK - 1


@settings(max_examples=40, deadline=None)
@given(
    done=st.frozensets(st.sampled_from(sorted(EVERYTHING))),
    pedals=st.sampled_from([ALL_PEDALS, TWO, frozenset({Pedal.BRAKE})]),
    seed=st.integers(0, 2**32 - 1),
)
def test_nothing_is_planned_that_is_closed_or_lacks_a_pedal(
    done: frozenset[str], pedals: frozenset[str], seed: int
) -> None:
    band = BAND if pedals.issuperset(BAND.pedals) else None
    player = a_player(done, tuple(sorted(done)[::2]), pedals=pedals, band=band)

    begun = session(2.0, seed)
    while (planned := following(player, begun)) is not None:
        assert pedals.issuperset(planned.level.pedals)
        is_known = planned.level.id in player.done or planned.level == band
        assert is_known or is_open(planned.level, player.done, pedals)
        result = played(planned, USUAL)
        player, begun = player.after(result), replace(begun, results=(*begun.results, result))


def test_steadiness_is_not_asked_without_its_pedals() -> None:
    found = plan(a_player(MIDWAY, pedals=frozenset({Pedal.BRAKE})), session())

    assert ids(found, Purpose.BAND) == []


@given(seed=st.integers(0, 2**32 - 1))
@settings(max_examples=10, deadline=None)
def test_the_same_seed_gives_the_same_plan(seed: int) -> None:
    player = a_player(MIDWAY, ("blip-1-first",))

    assert plan(player, session(seed=seed)) == plan(player, session(seed=seed))


def test_another_seed_reviews_other_levels() -> None:
    mixed = {tuple(ids(plan(a_player(MIDWAY), session(seed=k)), Purpose.MIX)) for k in range(8)}

    assert len(mixed) > 4


@pytest.mark.parametrize("most", [1, 5, 9, 14, 20, 30])
def test_an_interrupted_session_continues_the_plan(most: int) -> None:
    player = a_player(MIDWAY, ("blip-1-first",))
    whole = plan(player, session())

    later, begun = play(player, session(), most=most)

    assert plan(later, begun) == whole[most:]


def test_the_player_state_passes_a_level_by_its_pass_rule() -> None:
    planned = Planned(BY_ID["still-1-light"], Purpose.LEARN)
    player = a_player()
    for clean in [True] * 7 + [False]:
        player = player.after(played(planned, 9.0, clean))

    assert player.done == frozenset()
    assert player.after(played(planned, 9.0, void=True)).done == frozenset()
    assert player.after(played(planned, 9.0)).done == {"still-1-light"}
    assert player.after(played(planned, 9.0)).retention["still-1-light"] == Retention.passed(TODAY)


def test_a_level_retained_today_is_not_due_any_more() -> None:
    player, _ = play(a_player(MIDWAY, ("blip-1-first",)), session())

    assert player.due == []
    assert player.retention["blip-1-first"].is_retained


def test_a_slow_player_gets_fewer_repetitions() -> None:
    recent = [played(Planned(one, Purpose.LEARN), 18.0) for one in LEVELS]

    slow = plan(a_player(MIDWAY, pace=pace_of(recent)), session())

    assert 14 <= len(slow) <= 18
    assert len(plan(a_player(MIDWAY), session())) > 25
