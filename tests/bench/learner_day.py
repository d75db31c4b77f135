"""One day of practice by a simulated learner, led by a planner."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from engine.five.pace import USUAL
from engine.five.planner import Planned
from engine.five.player_state import PlayerState
from engine.ladder.level_files import SHIPPED, load_levels
from engine.practice.results import Result, Session
from tests.bench.learner import Learner

VOID = 0.03
"""1, share of repetitions that do not count."""
MORE = {"zone": 3.7, "counting": 3.6}
"""s, by which a repetition of a kind is longer than a blip: the foot's time on the clock beside
that on blip-3-good, and 1.5 s for the answer to a count, which every second one asks for 3 s."""
LEVELS = load_levels([SHIPPED])
BAND = replace(next(one for one in LEVELS if one.id == "blip-3-good"), id="the-band")

Planner = Callable[[PlayerState, Session], Planned | None]


def play(
    learner: Learner,
    planner: Planner,
    player: PlayerState,
    session: Session,
    rng: np.random.Generator,
) -> tuple[PlayerState, Session]:
    """One day's five minutes."""
    while (planned := planner(player, session)) is not None:
        level = planned.level
        longer = level.own.get("duration", 0.0) + MORE.get(level.kind.name, 0.0)
        took = (USUAL + longer) * learner.slow * np.exp(rng.normal(0, 0.1))
        void, load = rng.random() < VOID, learner.load(level, rng.random())
        if not void:
            learner.practises(level)
        result = Result(
            level=level.id,
            day=player.day,
            score=None if void else 100 * 2**-load,
            clean=load <= 1 and not void,
            void=void,
            rule=level.rule,
            kind=level.kind.name,
            why=planned.why,
            took=float(took) * (0.6 if void else 1.0),
        )
        player = player.after(result)
        session = replace(session, results=(*session.results, result))
    return player, session
