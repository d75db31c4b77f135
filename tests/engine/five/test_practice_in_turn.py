"""What the learning time holds: practice against a fault, and levels in hand in turn."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta
from itertools import groupby, pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.fault import Fault
from drills.level import Level
from drills.trace import Pedal
from engine.five.fault_practice import FAULT_SHARE
from engine.five.planner import Planned, following, plan
from engine.five.player_state import PlayerState
from engine.five.rotation import FEWEST, MOST, TURN, distance, own_turn, worn
from engine.five.time_spent import PRACTICE
from engine.practice.diagnosis import FaultShare
from engine.practice.focus import Focus
from engine.practice.passes import ALL_PEDALS
from engine.practice.personal_limit import PersonalLimit
from engine.practice.results import Purpose, Result, Session
from engine.practice.retention import Retention
from engine.practice.steadiness import WINDOW
from tests.engine.five.planning import (
    BAND,
    BY_ID,
    EVERYTHING,
    LATER,
    LEVELS,
    MIDWAY,
    TODAY,
    TWO,
    a_player,
    ids,
    played,
    session,
)

ANSWERS = ("blip-0-roll", "blip-2-closer", "blip-3-good", "run-1-two", "quiet-guess")
NO_ANSWER: Sequence[Level] = [replace(level, answers=()) for level in LEVELS]
ANSWERING: Sequence[Level] = [
    replace(level, answers=(Fault.EARLY_ROLL,)) if level.id in ANSWERS else level
    for level in NO_ANSWER
]
FOCUS = Focus(FaultShare(Fault.EARLY_ROLL, 22, 40), FaultShare(Fault.EARLY_ROLL, 14, 40), TODAY)
DAY = timedelta(days=1)
RETAINED = {name: Retention(due=LATER, outlasted=1) for name in EVERYTHING}


def limit(factor: float) -> PersonalLimit:
    """A personal limit that is known."""
    return PersonalLimit((factor,) * WINDOW, factor)


def in_hand(**changes: Any) -> PlayerState:
    """A player who retains every level, and has nothing left to learn."""
    return replace(replace(a_player(EVERYTHING), retention=RETAINED), **changes)


def purposes(planned: Sequence[Planned]) -> set[Purpose]:
    """Every purpose of a plan."""
    return {one.why for one in planned}


@st.composite
def players(draw: st.DrawFn) -> PlayerState:
    """Players of any progress, with any levels due, of any rig, with or without a fault."""
    passed = draw(st.integers(0, len(LEVELS)))
    rng = np.random.default_rng(draw(st.integers(0, 2**32 - 1)))
    done = [level.id for level in LEVELS[:passed]]
    share = draw(st.sampled_from([0.0, 0.2, 0.7, 1.0]))
    retention = {
        name: Retention(
            due=TODAY - timedelta(days=int(rng.integers(0, 30))) if rng.random() < share else LATER,
            outlasted=int(rng.integers(0, 4)),
        )
        for name in done
    }
    personal = {name: limit(float(rng.uniform(0.3, 3))) for name in done if rng.random() < 0.5}
    last = TODAY - timedelta(days=draw(st.sampled_from([1, 3, 20, 60])))
    recent = [
        replace(played(Planned(LEVELS[int(place)], Purpose.LEARN), 9.0), day=last)
        for place in rng.integers(0, max(passed, 1), size=draw(st.sampled_from([0, 1, 100, 300])))
    ]
    return PlayerState(
        TODAY,
        ANSWERING,
        frozenset(done),
        retention,
        recent,
        band=BAND,
        pedals=draw(st.sampled_from([ALL_PEDALS, TWO, frozenset({Pedal.BRAKE})])),
        personal=personal,
        focus=draw(st.sampled_from([None, FOCUS])),
    )


@settings(max_examples=60, deadline=None)
@given(player=players(), seed=st.integers(0, 2**32 - 1), rate=st.sampled_from([0.0, 0.6, 1.0]))
def test_a_session_of_any_player_keeps_the_rules(
    player: PlayerState, seed: int, rate: float
) -> None:
    rng, begun = np.random.default_rng(seed), session(seed=seed)
    while (planned := following(player, begun)) is not None:
        why, level = planned.why, planned.level
        if why in (Purpose.OWN, Purpose.FAULT, Purpose.MIX):
            assert not player.is_due(level)
            assert level.id in player.done
            assert player.pedals.issuperset(level.pedals)
        if why is Purpose.OWN:
            assert player.is_retained(level)
            assert level.id not in worn(player)
        if why is Purpose.FAULT:
            assert player.focus is not None
            assert player.focus.fault in level.answers
        result = played(planned, player.pace.of(level), bool(rng.random() < rate))
        player, begun = player.after(result), replace(begun, results=(*begun.results, result))
        assert seconds(begun, Purpose.FAULT) <= FAULT_SHARE * seconds(begun, *PRACTICE) + 1e-6

    turns = [result.level for result in begun.results if result.why is Purpose.OWN]
    assert all(len(list(turn)) <= TURN for _, turn in groupby(turns))
    assert abs(begun.left) <= 15


@settings(max_examples=15, deadline=None)
@given(player=players(), seed=st.integers(0, 2**32 - 1), most=st.integers(0, 25))
def test_what_is_planned_is_what_is_played_from_wherever_it_goes_on(
    player: PlayerState, seed: int, most: int
) -> None:
    whole = plan(player, session(seed=seed))

    begun = session(seed=seed)
    for planned in whole[:most]:
        assert following(player, begun) == planned
        result = played(planned, player.pace.of(planned.level))
        player, begun = player.after(result), replace(begun, results=(*begun.results, result))

    assert plan(player, begun) == whole[most:]


@pytest.mark.parametrize("seed", range(5))
def test_personal_limits_that_change_while_it_is_played_change_nothing_of_the_plan(
    seed: int,
) -> None:
    player, begun = in_hand(personal={name: limit(1.0) for name in EVERYTHING}), session(seed=seed)
    whole = plan(player, begun)

    for planned in whole:
        assert following(player, begun) == planned
        result = played(planned, player.pace.of(planned.level))
        player, begun = player.after(result), replace(begun, results=(*begun.results, result))
        player = replace(player, personal={**player.personal, planned.level.id: limit(3.0)})

    assert ids(whole, Purpose.OWN)


def seconds(begun: Session, *whys: Purpose) -> float:
    """Seconds of a session for these purposes."""
    return sum(result.took or 0.0 for result in begun.results if result.why in whys)


def test_a_third_of_the_learning_time_goes_to_the_fault_and_is_spread() -> None:
    player = a_player(MIDWAY, levels=ANSWERING, focus=FOCUS)

    practice = [one for one in plan(player, session()) if one.why in PRACTICE]

    against = [one.why is Purpose.FAULT for one in practice]
    takes = [player.pace.of(one.level) for one in practice]
    spent = sum(time for time, one in zip(takes, against, strict=True) if one)
    assert 0.25 <= spent / sum(takes) <= 1 / 3
    assert not any(one and other for one, other in pairwise(against))
    assert set(ids(practice, Purpose.FAULT)) <= set(ANSWERS) & MIDWAY


def test_a_level_against_the_fault_comes_with_the_feedback_it_has() -> None:
    player = a_player(MIDWAY, levels=ANSWERING, focus=FOCUS)

    against = next(one for one in plan(player, session()) if one.why is Purpose.FAULT)

    assert against.as_played == against.level


@pytest.mark.parametrize(
    ("levels", "focus"), [(NO_ANSWER, FOCUS), (ANSWERING, None)], ids=["no answer", "no fault"]
)
def test_without_a_fault_or_a_level_that_answers_it_nothing_is_for_a_fault(
    levels: Sequence[Level], focus: Focus | None
) -> None:
    found = plan(a_player(MIDWAY, levels=levels, focus=focus), session())

    assert Purpose.FAULT not in purposes(found)
    assert Purpose.LEARN in purposes(found)


def test_levels_in_hand_come_only_where_nothing_is_left_to_learn() -> None:
    last = EVERYTHING - {"mix-3-nothing"}

    assert Purpose.OWN not in purposes(plan(in_hand(done=last), session()))
    assert {Purpose.OWN, Purpose.MIX} <= purposes(plan(in_hand(), session()))
    assert Purpose.LEARN not in purposes(plan(in_hand(), session()))


def test_nothing_is_left_to_learn_where_the_rest_lacks_a_pedal() -> None:
    done = frozenset(level.id for level in LEVELS if Pedal.CLUTCH not in level.pedals)

    assert Purpose.OWN in purposes(plan(in_hand(done=done, pedals=TWO), session()))
    assert Purpose.LEARN in purposes(plan(in_hand(done=done), session()))


def test_a_level_passed_but_not_retained_comes_as_revision() -> None:
    passed = {name: Retention.passed(TODAY) for name in EVERYTHING}

    found = plan(in_hand(retention=passed), session())

    assert Purpose.OWN not in purposes(found)
    assert len(set(ids(found, Purpose.MIX))) > 6


def test_a_level_comes_the_more_often_the_further_it_is_from_the_best_feet() -> None:
    personal = {level.id: limit(level.reach) for level in LEVELS}
    personal["run-3-even"] = limit(4 * BY_ID["run-3-even"].reach)
    player = in_hand(personal=personal)

    firsts = Counter(
        level.id for seed in range(300) if (level := own_turn(player, session(seed=seed)))
    )

    # Each of the others weighs 0.1, the smallest distance; log(4) is 1.39: 14 times that.
    share = distance(player, BY_ID["run-3-even"]) / (1.386 + 0.1 * (len(LEVELS) - 1))
    assert distance(player, BY_ID["run-3-even"]) == pytest.approx(1.386, abs=1e-3)
    assert firsts["run-3-even"] / 300 == pytest.approx(share, abs=0.09)
    assert len(firsts) > 20


def test_a_retained_level_has_a_turn_of_five_and_then_another_one_comes() -> None:
    turns = [list(turn) for _, turn in groupby(ids(plan(in_hand(), session()), Purpose.OWN))]

    assert len(turns) > 2
    assert {len(turn) for turn in turns[:-1]} == {5}
    assert len({turn[0] for turn in turns}) == len(turns)


def test_where_every_level_had_its_share_the_one_being_learned_is_reviewed() -> None:
    only = replace(BY_ID["blip-1-first"], needs=())
    often = [replace(played(Planned(only, Purpose.OWN), 9.0), day=TODAY - DAY)] * 60
    player = in_hand(levels=[only], done=frozenset({only.id}), recent=often, band=None)

    planned = plan(player, session())

    assert {one.level.id for one in planned} == {only.id}
    assert purposes(planned) == {Purpose.MIX, Purpose.DARK}


def test_a_level_that_had_its_share_of_the_newest_month_makes_room() -> None:
    worked, often = BY_ID["run-3-even"], int(MOST * FEWEST)
    today = played(Planned(worked, Purpose.OWN), 9.0)
    old = replace(today, day=TODAY - timedelta(days=30))

    def left_out(results: list[Result]) -> frozenset[str]:
        return worn(in_hand(recent=results))

    assert left_out([today] * often) == {worked.id}
    assert left_out([today] * (often - 1)) == frozenset()
    assert left_out([old, *[today] * (often - 1)]) == frozenset()
    assert left_out([replace(today, feet=False), *[today] * (often - 1)]) == frozenset()


def test_a_new_level_that_had_its_share_leaves_its_place_to_levels_in_hand() -> None:
    worked = "mix-3-nothing"
    yesterday = [
        replace(played(Planned(BY_ID[worked], Purpose.LEARN), 9.0, clean), day=TODAY - DAY)
        for clean in (True, False) * int(MOST * FEWEST / 2)
    ]

    def learns(recent: list[Result]) -> bool:
        player = in_hand(done=EVERYTHING - {worked}, recent=recent)
        return purposes(plan(player, session())) >= {Purpose.LEARN}

    assert learns(yesterday[8:])
    assert not learns(yesterday)


def test_no_level_takes_a_third_of_a_month_and_every_level_comes() -> None:
    player, seen = in_hand(personal={"run-3-even": limit(4.0)}), Counter[str]()
    for day in range(30):
        player = replace(player, day=TODAY + timedelta(days=day), recent=player.recent[-300:])
        for planned in plan(player, session(seed=day)):
            result = replace(played(planned, 9.0), day=player.day)
            player = player.after(result)
            seen[planned.level.id] += 1

    assert max(seen.values()) / seen.total() < 1 / 3
    assert set(seen) == EVERYTHING | {BAND.id}
