"""A simulated foot plays a set, with a rig and a history of its own."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from drills.foot import SimulatedFoot
from engine.drill.attempt import Now, Setting
from engine.drill.demonstration import Demonstration
from engine.drill.set import end_set, run_set
from engine.drill.watched_repetition import WatchedRepetition
from engine.pedals.port import CalibratedPedals, Clock
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History

KEPT_NOWHERE = "Demo: nothing is kept"
"""What every screen says of a demo."""
KEPT_APART = "Demo: nothing of it counts"
"""What every screen says of one that was given a folder."""
FOREPERIODS = 1
"""Number of the random stream that the waits come from: one apart from the foot's."""


def watch(
    shown: Demonstration, clock: Clock, stage: Stage, history: History, now: Now
) -> Flow[None]:
    """Play sets with the simulated foot and show how they went, until that is enough.

    A tour ends with its last level, or where the one who watches leaves it.
    """
    label = KEPT_NOWHERE if shown.folder is None else KEPT_APART
    foot = SimulatedPedals(SimulatedFoot(shown.skill, shown.seed), clock, label)
    rig = Rig(clock, pedals=CalibratedPedals(foot, SIMULATED_TRAVEL))
    watched = replace(stage, listeners=(*stage.listeners, foot))
    rng = np.random.default_rng((shown.seed, FOREPERIODS))
    setting = Setting(rig, watched, history, rng, now, WatchedRepetition, shown.levels)
    if shown.tour:
        for level in shown.shown:
            played = yield from run_set(level, setting, shown.repetitions)
            if played.home or not played.kept.counted:
                return
        return
    following: object = shown.level
    while following is shown.level:
        played = yield from run_set(shown.level, setting, shown.repetitions)
        if played.home or not played.kept.records:
            return
        following = yield from end_set(
            shown.level, shown.level, played.kept, setting, home_first=True
        )


def watch_aside(shown: Demonstration, clock: Clock, stage: Stage, now: Now) -> Flow[None]:
    """The same into a history of its own: a player's history never holds a simulated foot."""
    with shown.history() as history:
        yield from watch(shown, clock, stage, history, now)
