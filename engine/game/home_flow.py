"""`at_home`: shows home and starts what the player chooses there, until the player leaves."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from drills.level import Level
from engine.drill.attempt import Now, Setting
from engine.drill.lesson_saved import Lessons, saved_way
from engine.game.entries import HOME
from engine.game.entry import LEAVE, Entry, Game, choices_of
from engine.game.facts import Facts, facts_of, risen
from engine.game.home import Home
from engine.game.offer import Offer
from engine.kit.flow import show
from engine.kit.foot_pose import Way
from engine.pedals.moved_ends import MovedEnd
from engine.pedals.rig import Rig
from engine.practice.remeasuring import Remeasuring
from engine.setup.saved import bind_saved, keep_buttons
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
    first_entry: Entry | None = None,
    remeasuring: Callable[[], Remeasuring | None] | None = None,
) -> Flow[None]:
    """Show home, or the menu for a player without pedals, and start what the player chooses.

    `first_entry` is an entry to start in place of the first home; `remeasuring` tells how far the
    history is remeasured, if that is going on. Raises StoreError.
    """
    shown: Facts | None = None
    tried_out = Lessons(None, saved_way(history))
    while True:
        if bind_saved(rig, history):
            from engine.setup.rig_flow import choose_rig

            yield from choose_rig(rig, stage, history)
        if rig.pedals is None:
            from engine.setup.flow import find_pedals
            from engine.setup.no_pedals import NoPedalsChoice

            match (yield from find_pedals(rig, stage, history, now)):
                case NoPedalsChoice.DEMO:
                    from engine.drill.demo import watch_aside

                    way = tried_out.way or Way.ROLL
                    yield from watch_aside(offer.demo, rig.clock, stage, now, way)
                    continue
                case NoPedalsChoice():
                    return
        keep_buttons(rig, history)
        stored = history if rig.counts else None
        lessons = tried_out if stored is None else Lessons(stored)
        setting = Setting(
            rig,
            stage,
            stored,
            rng,
            now,
            levels=offer.levels,
            renew_end=None if stored is None else _renewal(rig, stage, stored, now),
            way=lessons.way or Way.ROLL,
            lessons=lessons,
            check_pedals=None if stored is None else _health_check(stored, offer.levels),
        )
        game = Game(setting, history, offer)
        chosen = first_entry if rig.counts else None
        if chosen is None:
            facts = facts_of(game.setting, history, offer)
            rise = None if shown is None else risen(shown, facts)
            home, shown = Home(facts, choices_of(HOME, facts), remeasuring, rise), facts
            chosen = yield from show(home, rig, stage)
        first_entry = None
        if stored is not None and chosen is not LEAVE:
            lucky = _luck(stored, offer.levels)
            game = replace(game, setting=replace(setting, lucky=lucky))
        if (yield from chosen.start(game)):
            return


def _luck(history: History, levels: Sequence[Level]) -> frozenset[str]:
    """Ids of the levels that are partly luck; loaded after home, so that it comes up at once."""
    from engine.setup.health_saved import saved_luck

    return saved_luck(history, levels)


def _health_check(history: History, levels: Sequence[Level]) -> Callable[[Rig, Stage], Flow[None]]:
    """Flow that checks the health of the pedals; its screens are loaded when needed."""

    def check(rig: Rig, stage: Stage) -> Flow[None]:
        from engine.setup.health_flow import check_health

        yield from check_health(rig, stage, history, levels)

    return check


def _renewal(
    rig: Rig, stage: Stage, history: History, now: Now
) -> Callable[[MovedEnd], Flow[bool]]:
    """Flow that offers to set a moved end of a pedal anew; its screens are loaded when needed."""

    def renew(moved: MovedEnd) -> Flow[bool]:
        from engine.setup.renewal import renew_end

        return (yield from renew_end(moved, rig, stage, history, now))

    return renew
