"""State of the player: what a session carries from one repetition to the next."""

from collections.abc import Iterator
from datetime import timedelta

import pytest

from engine.five.forecast import forecast
from engine.five.planner import Planned
from engine.five.player_history import RECENT, player_state_of
from engine.five.player_state import PlayerState
from engine.five.session import SessionRules, run_session
from engine.practice.passes import ALL_PEDALS
from engine.practice.results import Purpose, Session, SessionKind
from engine.stage.headless import run_headless
from engine.store import History
from engine.store.repetitions import add_repetition, recent_results
from tests.engine.five.unattended import BAND, DATE, HOLDS, Minutes
from tests.made import record
from tests.stored import in_memory

PLAYED = 3
"""Repetitions of the session, as a count."""


@pytest.fixture
def history() -> Iterator[History]:
    """A history with a few repetitions more than the planner reads, of two days ago."""
    with in_memory() as made:
        for number in range(RECENT + 2):
            level, at = HOLDS[number % len(HOLDS)], DATE - timedelta(days=2)
            add_repetition(
                made,
                record(level=level.id, kind=level.kind.name, at=at, trace=None, took=9.0),
            )
        yield made


def state(history: History) -> PlayerState:
    """State of the player on the day of the session, all of it read from the history."""
    return player_state_of(history, HOLDS, BAND, ALL_PEDALS, DATE.date())


def test_the_state_carried_through_a_session_is_the_one_that_is_stored(history: History) -> None:
    minutes = Minutes(history)
    carried: list[tuple[PlayerState, PlayerState]] = []

    def following(player: PlayerState, so_far: Session) -> Planned | None:
        stored = player_state_of(history, HOLDS, BAND, minutes.setting.rig.there, DATE.date())
        carried.append((player, stored))
        return Planned(HOLDS[0], Purpose.LEARN) if len(so_far.results) < PLAYED else None

    rules = SessionRules(SessionKind.FIVE, 5.0, following)
    run_headless(run_session(rules, minutes.setting, history, BAND), minutes.clock)

    assert [list(player.recent) for player, _ in carried] == [
        list(stored.recent) for _, stored in carried
    ]
    assert all(player.pace == stored.pace for player, stored in carried)
    assert all(player.personal == stored.personal for player, stored in carried)
    assert len({player.recent[-1].number for player, _ in carried}) == PLAYED + 1


def test_repetitions_that_are_known_are_not_read_and_no_more_are_kept(history: History) -> None:
    every = recent_results(history, RECENT + 2)
    known = player_state_of(history, HOLDS, BAND, ALL_PEDALS, DATE.date(), every)

    assert len(every) == RECENT + 2
    assert known == state(history)


def test_a_forecast_of_a_player_who_was_read_before_is_the_same(history: History) -> None:
    read = forecast(history, HOLDS, BAND, ALL_PEDALS, DATE, 5.0)

    assert forecast(history, HOLDS, BAND, ALL_PEDALS, DATE, 5.0, state(history)) == read
