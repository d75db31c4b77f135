"""`target_of`: the brake target of a repetition, drawn more often where the sense is worst."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

import numpy as np

from drills.level import Level
from drills.targets import Targets
from engine.practice.results import Purpose
from engine.store import History
from engine.store.asked import SQUEEZE, sense_now
from engine.store.retention import all_retention

NEAR = 5.0
"""Distance from the weight with the worst error at which targets are drawn more often, in points
each way."""
SHARE = 0.5
"""Share of the targets that are drawn there, 0 to 1; the others are drawn from the whole range."""
OF_PRACTICE = frozenset({Purpose.CHOSEN, Purpose.LEARN, Purpose.FAULT, Purpose.OWN, Purpose.MIX})
"""Purposes of repetitions that may ask for a weight more often: no check is among them."""


def target_of(
    targets: Targets, number: int, weight: float | None, rng: np.random.Generator
) -> float:
    """Brake target in % of repetition `number` of a set, counted from 1.

    It is that of the level, drawn with `rng`. Where there is a weight to ask for more often, half
    the targets are drawn once more, near it; without one nothing further is drawn.
    """
    drawn = targets.at(number, rng)
    if weight is None or rng.random() >= SHARE:
        return drawn
    near = _near(weight, targets)
    return drawn if near is None else float(rng.integers(*near, endpoint=True))


def weight_to_ask(
    level: Level, set_of: str, why: Purpose, history: History | None, now: Callable[[], datetime]
) -> float | None:
    """Weight in % that a repetition of `level` is to ask for more often; None if there is none.

    That is the weight with the worst error, once it is sure, in squeezes that are practised and
    draw their targets. `set_of` is the id of the level of the set: where it is due, its set is a
    check. A level that finds a player's place is none either. `history` is None where nothing is
    stored, `now` the local clock. Raises StoreError.
    """
    may_ask = level.kind.name == SQUEEZE and level.targets.drawn and not level.placing
    if history is None or not may_ask or why not in OF_PRACTICE:
        return None
    sense = sense_now(history)
    if sense is None or sense.asked_more is None:
        return None
    retention = all_retention(history).get(set_of)
    is_check = retention is not None and retention.is_due(now().date())
    return None if is_check else sense.asked_more


def _near(weight: float, targets: Targets) -> tuple[int, int] | None:
    """Least and greatest target near a weight, of those that are drawn, in %; None if none is."""
    least = max(round(targets.least), round(weight - NEAR))
    greatest = min(round(targets.greatest), round(weight + NEAR))
    return (least, greatest) if least <= greatest else None
