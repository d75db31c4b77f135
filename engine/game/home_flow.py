"""Home again and again, and what is chosen there, until the player leaves."""

from __future__ import annotations

import numpy as np

from engine.drill.attempt import Now, Setting
from engine.game.entries import HOME
from engine.game.entry import Entry, Game, choices_of
from engine.game.facts import facts_of
from engine.game.home import Home
from engine.game.offer import Offer
from engine.kit.flow import show
from engine.pedals.rig import Rig
from engine.setup.saved import bind_saved
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History


def at_home(
    rig: Rig,
    stage: Stage,
    history: History,
    offer: Offer,
    rng: np.random.Generator,
    now: Now,
    straight: Entry | None = None,
) -> Flow[None]:
    """Show home, or what to do without pedals, and start what is chosen, until the player leaves.

    `straight` is started in the place of the first home. Raises StoreError.
    """
    while True:
        if rig.pedals is None:
            bind_saved(rig, history)
        if rig.pedals is None:
            from engine.setup.flow import find_pedals
            from engine.setup.no_pedals import Instead

            match (yield from find_pedals(rig, stage, history)):
                case Instead.DEMO:
                    from engine.drill.demo import watch_aside

                    yield from watch_aside(offer.demo, rig.clock, stage, now)
                    continue
                case Instead():
                    return
        kept = history if rig.counts else None
        game = Game(Setting(rig, stage, kept, rng, now, levels=offer.levels), history, offer)
        chosen = straight if rig.counts else None
        if chosen is None:
            facts = facts_of(game.setting, history, offer)
            chosen = yield from show(Home(facts, choices_of(HOME, facts)), rig, stage)
        straight = None
        if (yield from chosen.start(game)):
            return
