"""The demo: a simulated foot plays a set, with a rig and a history of its own."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from drills.foot import SimulatedFoot
from engine.drill.attempt import Now, Setting
from engine.drill.demonstration import Demonstration
from engine.drill.lesson_saved import Lessons
from engine.drill.set import end_set, run_set
from engine.drill.watched_repetition import WatchedRepetition
from engine.kit.foot_pose import Way
from engine.pedals.port import CalibratedPedals, Clock, Source
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.stage.scene import Flow
from engine.stage.stage import Listener, Stage
from engine.store import History

FOREPERIODS = 1
"""Number of the random stream that draws a demo's foreperiods, apart from that of its foot."""


def watch(
    demonstration: Demonstration,
    clock: Clock,
    stage: Stage,
    history: History,
    now: Now,
    lessons: Lessons | None = None,
    way: Way = Way.ROLL,
) -> Flow[None]:
    """Play sets with the simulated foot and show how they went, until the viewer leaves.

    A tour of the levels also ends after the last of them. `lessons` are those that the viewer has
    seen; None where none are shown. `way` is how the drawn foot blips. Raises StoreError.
    """
    simulated = SimulatedFoot(demonstration.skill, demonstration.seed)
    foot = SimulatedPedals(simulated, clock, demonstration.label)
    source: Source = foot
    listeners: tuple[Listener, ...] = (*stage.listeners, foot)
    if demonstration.fault is not None:
        faulty = demonstration.fault.around(foot, SIMULATED_TRAVEL, demonstration.seed)
        source, listeners = faulty, (*listeners, faulty)
    rig = Rig(clock, pedals=CalibratedPedals(source, SIMULATED_TRAVEL))
    watched = replace(stage, listeners=listeners)
    rng = np.random.default_rng((demonstration.seed, FOREPERIODS))
    setting = Setting(
        *(rig, watched, history, rng, now, WatchedRepetition, demonstration.levels),
        way=way,
        lessons=lessons,
    )
    if demonstration.tour:
        for level in demonstration.played_levels:
            played = yield from run_set(level, setting, demonstration.repetitions_of(level))
            if played.home or not played.log.counted:
                return
        return
    following: object = demonstration.level
    while following is demonstration.level:
        played = yield from run_set(demonstration.level, setting, demonstration.repetitions)
        if played.home or not played.log.played:
            return
        following = yield from end_set(
            demonstration.level, demonstration.level, played.log, setting, home_first=True
        )


def watch_aside(
    demonstration: Demonstration, clock: Clock, stage: Stage, now: Now, way: Way
) -> Flow[None]:
    """Watch a demo from within the game, with a history apart from the player's.

    `way` is how the player blips, and so the drawn foot. Raises StoreError.
    """
    with demonstration.history() as history:
        yield from watch(demonstration, clock, stage, history, now, way=way)
