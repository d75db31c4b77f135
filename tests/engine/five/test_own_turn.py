"""`own_turn`: which level in hand comes where its turn begins or goes on."""

from dataclasses import replace

from engine.five.planner import Planned
from engine.five.rotation import own_turn
from engine.practice.results import Purpose, Result
from tests.engine.five.planning import BY_ID, LEVELS, a_player, played, session

NAMES = tuple(level.id for level in LEVELS[:3])
PLAYER = a_player(frozenset(NAMES))
"""A player with three levels in hand."""


def done(name: str, why: Purpose) -> Result:
    """A repetition of a level that was played."""
    return played(Planned(BY_ID[name], why), 10.0)


def drawn(*results: Result) -> set[str]:
    """Ids of the levels that come after these results, of eight seeds."""
    found = (own_turn(PLAYER, session(seed=seed, results=results)) for seed in range(8))
    return {level.id for level in found if level is not None}


def test_a_turn_goes_on_until_its_fifth_repetition_whatever_comes_between() -> None:
    first, second, third = NAMES
    begun = [done(first, Purpose.OWN)] * 4

    assert drawn(*begun) == {first}
    assert drawn(*begun, done(second, Purpose.MIX)) == {first}
    assert drawn(*begun, done(first, Purpose.OWN)) == {second, third}


def test_a_level_not_played_yet_in_the_session_comes_first() -> None:
    first, second, third = NAMES

    assert drawn(done(first, Purpose.DUE)) == {second, third}
    assert drawn(done(first, Purpose.DUE), done(second, Purpose.DUE)) == {third}


def test_where_all_were_played_neither_the_last_one_nor_the_last_turn_comes_again() -> None:
    first, second, third = NAMES
    turn = [done(second, Purpose.OWN)] * 5

    assert drawn(done(third, Purpose.DUE), *turn, done(first, Purpose.MIX)) == {third}


def test_a_void_repetition_is_none_of_a_turn() -> None:
    first = NAMES[0]
    four = [done(first, Purpose.OWN)] * 4

    assert drawn(*four, replace(four[0], void=True)) == {first}
