"""Players and sessions for tests of the planner, and a way to play a session to its end."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any

import numpy as np

from drills.trace import Pedal
from engine.five.planner import Planned, following
from engine.five.player_state import PlayerState
from engine.ladder.level_files import SHIPPED, load_levels
from engine.practice.passes import ALL_PEDALS
from engine.practice.results import Purpose, Result, Session, SessionKind
from engine.practice.retention import Retention

LEVELS = load_levels([SHIPPED])
BY_ID = {level.id: level for level in LEVELS}
BAND = replace(BY_ID["blip-3-good"], id="the-band")
NOW = datetime(2024, 5, 17, 18, tzinfo=UTC)
TODAY, LATER = NOW.date(), NOW.date() + timedelta(days=5)
TWO = ALL_PEDALS - {Pedal.CLUTCH}
EVERYTHING = frozenset(BY_ID)
MIDWAY = frozenset(level.id for level in LEVELS[:14])


def a_player(
    done: frozenset[str] = frozenset(), due: tuple[str, ...] = (), **changes: Any
) -> PlayerState:
    """A player with some levels done, of which some are due for a check today."""
    retention = {name: Retention(due=TODAY if name in due else LATER) for name in done}
    return replace(PlayerState(TODAY, LEVELS, done, retention, band=BAND), **changes)


def session(minutes: float = 5.0, seed: int = 1, results: tuple[Result, ...] = ()) -> Session:
    """A session of five minutes under way, with what was played of it."""
    return Session(1, SessionKind.FIVE, NOW, minutes, seed, results)


def played(planned: Planned, took: float, clean: bool = True, void: bool = False) -> Result:
    """The result of a planned repetition that took so many seconds."""
    level = planned.level
    return Result(
        level.id,
        TODAY,
        None if void else 50.0,
        clean and not void,
        void,
        level.rule,
        kind=level.kind.name,
        why=planned.why,
        took=took,
    )


def play(
    player: PlayerState,
    begun: Session,
    share: float = 1.0,
    seed: int = 1,
    uneven: float = 0.0,
    void: float = 0.0,
    most: int = 1000,
) -> tuple[PlayerState, Session]:
    """A session played to its end by a player who is clean in a share of all repetitions.

    `uneven` is the spread of the times in logarithms, `void` the share of void repetitions, and
    `most` how many repetitions are played at most.
    """
    rng = np.random.default_rng(seed)
    while (planned := following(player, begun)) is not None and len(begun.results) < most:
        took = player.pace.of(planned.level) * float(np.exp(rng.normal(0, uneven)))
        is_void, clean = bool(rng.random() < void), bool(rng.random() < share)
        result = played(planned, took * (0.5 if is_void else 1.0), clean, is_void)
        player = player.after(result)
        begun = replace(begun, results=(*begun.results, result))
    return player, begun


def whys(planned: list[Planned]) -> list[Purpose]:
    """The purposes of a plan in order, each once for as long as it lasts."""
    purposes = [repetition.why for repetition in planned]
    return [why for k, why in enumerate(purposes) if k == 0 or purposes[k - 1] is not why]


def ids(planned: list[Planned], why: Purpose) -> list[str]:
    """Ids of the levels planned for a purpose, in order."""
    return [repetition.level.id for repetition in planned if repetition.why is why]
