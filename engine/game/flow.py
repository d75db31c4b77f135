"""The whole game, from the first start to leaving it.

Home, and all that comes after it, is loaded once the cautions were read: the first picture of a
new player waits for nothing else.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from drills.level import Level
from engine.game.cautions import Cautions
from engine.game.sound_and_light import signals_wanted
from engine.kit.flow import show
from engine.pedals.rig import Rig
from engine.practice.results import MINUTES
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History

if TYPE_CHECKING:
    import numpy as np

    from engine.drill.attempt import Now
    from engine.drill.demonstration import Demonstration
    from engine.game.home import Go

CAUTIONS_READ = "cautions read"
"""Setting: whether the cautions have been read."""


@dataclass(frozen=True)
class Offer:
    """What there is to play."""

    levels: Sequence[Level]
    """The levels, each after those it needs."""
    band: Level
    """The drill of the steadiness band."""
    demo: Demonstration
    """What can be watched."""
    minutes: float = MINUTES
    """min, how long five minutes are."""
    straight: Go | None = None
    """What is begun at once, in the place of home."""


def play(
    rig: Rig, stage: Stage, history: History, offer: Offer, rng: np.random.Generator, now: Now
) -> Flow[None]:
    """Play until the player leaves."""
    stage.tune(signals_wanted(history))
    rig.rescan()
    if not history.setting(CAUTIONS_READ):
        if not (yield from show(Cautions(), rig, stage)):
            return
        history.keep_setting(CAUTIONS_READ, True)
    from engine.game.home_flow import at_home

    yield from at_home(rig, stage, history, offer, rng, now)
