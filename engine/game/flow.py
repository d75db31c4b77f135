"""The whole game, from the first start to leaving it."""

from __future__ import annotations

import numpy as np

from engine.drill.attempt import Now, Setting
from engine.drill.demo import watch_aside
from engine.game.cautions import Cautions
from engine.game.entries import HOME
from engine.game.entry import Entry, Game, choices_of
from engine.game.facts import Offer, facts_of
from engine.game.home import Home
from engine.game.sound_and_light import signals_wanted
from engine.kit.flow import show
from engine.pedals.rig import Rig
from engine.setup.flow import find_pedals
from engine.setup.no_pedals import Instead
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History

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
    while True:
        if rig.pedals is None:
            match (yield from find_pedals(rig, stage, history)):
                case Instead.DEMO:
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
