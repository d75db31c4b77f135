"""Rotation: practice of levels in hand towards a lower personal limit, in short turns.

Where nothing is left to learn, a level comes the more often the further its personal limit is from
that of the best feet. No level, new or in hand, is to take more than a third of a month: one that
has had its share of the newest repetitions makes room.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import timedelta
from math import log

import numpy as np

from drills.level import Level
from engine.five.player_state import PlayerState
from engine.practice.results import Purpose, Session

MONTH = timedelta(days=30)
"""Time over which the share of one level in all repetitions is counted."""
MOST = 0.25
"""Share of the newest repetitions of a month at which a level makes room for others, from 0 to 1.

Its checks and revisions still come, so that it stays under a third."""
FEWEST = 240
"""Repetitions that the share is counted of at least, as a count: few say nothing of a month."""
TURN = 5
"""Repetitions towards a lower personal limit before another level has its turn, as a count."""
UNKNOWN = log(2)
"""Distance, as a logarithm, taken for a level whose personal limit is not known yet."""
NEAREST = 0.1
"""Smallest distance from the best feet, as a logarithm: a level there comes now and then too."""
STREAM = 1
"""Number of the random stream of turns, apart from that of reviews."""


def worn(player: PlayerState) -> frozenset[str]:
    """Ids of the levels that have had their share of the player's newest month."""
    since = player.day - MONTH
    newest = [result.level for result in player.recent if result.counts and result.day > since]
    most = MOST * max(len(newest), FEWEST)
    return frozenset(level for level, count in Counter(newest).items() if count >= most)


def own_turn(player: PlayerState, session: Session) -> Level | None:
    """The level in hand to practise now; None where there is none.

    A level that was retained has a turn of five repetitions, one that is only passed a single one.
    The next is drawn from those not played in this session, as far as there are any: so what was
    played changes no draw, and the forecast is what is played. Never one that is due for a check.
    """
    results = session.results
    turns = [result.level for result in results if result.why is Purpose.OWN and not result.void]
    tired = worn(player)
    pool = [
        level for level in player.playable if level.id not in tired and not player.is_due(level)
    ]
    now = next((level for level in pool if turns and level.id == turns[-1]), None)
    if now is not None and _length(turns) < TURN:
        return now
    seen, last = {result.level for result in results}, results[-1].level if results else ""
    others = [level for level in pool if level is not now and level.id != last]
    others = [level for level in others if level.id not in seen] or others
    if not others:
        return next(iter(pool), None)
    weights = np.array([distance(player, level) for level in others])
    number = sum(result.why in (Purpose.OWN, Purpose.MIX) for result in results)
    rng = np.random.default_rng((session.seed, number, STREAM))
    return others[int(rng.choice(len(others), p=weights / weights.sum()))]


def distance(player: PlayerState, level: Level) -> float:
    """How far a player's personal limit of a level is from the best feet, as a logarithm."""
    limit = player.personal.get(level.id)
    factor = None if limit is None else limit.factor
    return UNKNOWN if factor is None else max(log(max(factor, level.reach) / level.reach), NEAREST)


def _length(turns: Sequence[str]) -> int:
    """How often the last of these levels comes in a row at their end."""
    newest_first = enumerate(reversed(turns))
    return next((count for count, name in newest_first if name != turns[-1]), len(turns))
