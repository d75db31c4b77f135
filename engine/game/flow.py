"""`play`: the whole game, from the cautions at the first start until the player leaves.

Home and everything behind it is loaded only after the cautions, so that the first picture of a new
player comes soon.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from engine.game.cautions import Cautions
from engine.game.offer import Offer
from engine.game.sound_and_light import saved_signals
from engine.kit.flow import show
from engine.pedals.rig import Rig
from engine.setup.rigs import fitting
from engine.setup.saved import open_saved
from engine.setup.saved_rigs import saved_rigs
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History

if TYPE_CHECKING:
    import numpy as np

    from engine.drill.attempt import Now
    from engine.game.entry import Entry

CAUTIONS_READ = "cautions read"
"""Key of the setting that says whether the cautions have been read."""
FILL_ASKED = "fill asked"
"""Key of the setting that says whether the player was asked to fill the screen; False: not yet."""


def play(
    rig: Rig,
    stage: Stage,
    history: History,
    offer: Offer,
    rng: np.random.Generator,
    now: Now,
    first_entry: Entry | None = None,
) -> Flow[None]:
    """Run the game until the player leaves.

    `first_entry` is an entry to start in place of the first home. Raises StoreError.
    """
    stage.tune(saved_signals(history))
    open_saved(rig, history)
    if not history.setting(CAUTIONS_READ):
        if not (yield from show(Cautions(), rig, stage)):
            return
        history.keep_setting(CAUTIONS_READ, True)
        history.keep_setting(FILL_ASKED, False)
    # A player of an earlier version has chosen a window long ago: there the setting is None.
    if history.setting(FILL_ASKED) is False and not offer.is_sized:
        from engine.game.fill_screen import ask_to_fill_screen

        yield from ask_to_fill_screen(rig, stage)
        history.keep_setting(FILL_ASKED, True)
    if len(fitting(saved_rigs(history), rig)) > 1:
        from engine.setup.rig_flow import choose_rig

        yield from choose_rig(rig, stage, history)
    from engine.drill.attempt import Setting
    from engine.game.entry import Game
    from engine.game.home_flow import at_home
    from engine.game.remeasuring import remeasure_in_background

    levels = [*offer.levels, offer.band]
    work = yield from remeasure_in_background(rig, stage, history, levels, now)
    if work is not None:
        stage = replace(stage, idle=work.before(stage.idle))
    game = Game(Setting(rig, stage, history, rng, now, levels=offer.levels), history, offer)
    yield from at_home(game, first_entry, None if work is None else lambda: work.state)
