"""`for_the_fault`: which level comes against the fault worked on, and when it is its turn."""

from dataclasses import replace
from typing import Any

import pytest

from drills.fault import Fault
from engine.five.fault_practice import for_the_fault
from engine.five.planner import Planned
from engine.five.player_state import PlayerState
from engine.practice.diagnosis import FaultShare
from engine.practice.focus import Focus
from engine.practice.results import Purpose, Result
from tests.engine.five.planning import BY_ID, EVERYTHING, LEVELS, TODAY, a_player, played, session

FOCUS = Focus(FaultShare(Fault.EARLY_ROLL, 22, 40), FaultShare(Fault.EARLY_ROLL, 14, 40), TODAY)
ONE, OTHER, NEITHER = "blip-3-good", "run-1-two", "run-3-even"


def worked_on(*answers: str, **changes: Any) -> PlayerState:
    """A player with every level in hand, of which these answer the fault worked on."""
    levels = [
        replace(level, answers=(Fault.EARLY_ROLL,) if level.id in answers else ())
        for level in LEVELS
    ]
    player = replace(a_player(EVERYTHING), levels=levels, focus=FOCUS)
    return replace(player, **changes)


def done(level: str, why: Purpose, took: float) -> Result:
    """A repetition that was played, which took so many seconds."""
    return played(Planned(BY_ID[level], why), took)


@pytest.mark.parametrize(("answers", "next_level"), [((ONE,), ONE), ((ONE, OTHER), OTHER)])
def test_the_level_played_last_comes_again_only_where_no_other_answers(
    answers: tuple[str, ...], next_level: str
) -> None:
    before = (done(NEITHER, Purpose.LEARN, 60.0), done(ONE, Purpose.MIX, 10.0))

    for seed in range(8):
        level = for_the_fault(worked_on(*answers), session(seed=seed, results=before))

        assert level is not None
        assert level.id == next_level


def test_a_level_that_had_its_share_of_the_month_comes_only_where_no_other_answers() -> None:
    often = [done(ONE, Purpose.OWN, 10.0)] * 60
    before = (done(NEITHER, Purpose.LEARN, 60.0),)

    def comes(*answers: str) -> set[str]:
        player = worked_on(*answers, recent=often)
        found = (for_the_fault(player, session(seed=seed, results=before)) for seed in range(8))
        return {level.id for level in found if level is not None}

    assert comes(ONE, OTHER) == {OTHER}
    assert comes(ONE) == {ONE}


def test_its_turn_is_when_it_takes_a_third_of_the_learning_time_with_it() -> None:
    player = worked_on(ONE)
    takes = player.pace.of(BY_ID[ONE])

    def comes(learned: float) -> bool:
        results = (done(NEITHER, Purpose.LEARN, learned), done(NEITHER, Purpose.DUE, 100.0))
        return for_the_fault(player, session(results=results)) is not None

    assert comes(2.01 * takes)
    assert not comes(1.99 * takes)
