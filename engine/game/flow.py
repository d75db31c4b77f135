"""The whole game, from the first start to leaving it.

Home, and all that comes after it, is loaded once the cautions were read: the first picture of a
new player waits for nothing else.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.game.cautions import Cautions
from engine.game.offer import Offer
from engine.game.sound_and_light import signals_wanted
from engine.kit.flow import show
from engine.pedals.rig import Rig
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History

if TYPE_CHECKING:
    import numpy as np

    from engine.drill.attempt import Now
    from engine.game.entry import Entry

CAUTIONS_READ = "cautions read"
"""Setting: whether the cautions have been read."""


def play(
    rig: Rig,
    stage: Stage,
    history: History,
    offer: Offer,
    rng: np.random.Generator,
    now: Now,
    straight: Entry | None = None,
) -> Flow[None]:
    """Play until the player leaves.

    `straight` is started at once in the place of home, once. Raises StoreError.
    """
    stage.tune(signals_wanted(history))
    rig.rescan()
    if not history.setting(CAUTIONS_READ):
        if not (yield from show(Cautions(), rig, stage)):
            return
        history.keep_setting(CAUTIONS_READ, True)
    from engine.game.home_flow import at_home

    yield from at_home(rig, stage, history, offer, rng, now, straight)
