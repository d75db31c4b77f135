"""The whole game, from the first start to leaving it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from drills.level import Level
from engine.flow import show
from engine.flow.binding import bind_saved, find_pedals, set_up
from engine.flow.demonstration import Demonstration, watch_aside
from engine.flow.set import Now, Setting, end_set, run_set
from engine.flow.tuning import loudness, signals_wanted, sound_and_light
from engine.pedals.rig import Rig
from engine.practice.progress import next_level
from engine.screens.cautions import Cautions
from engine.screens.home import Go, Home
from engine.screens.level_list import LevelList
from engine.screens.nopedals import Instead
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History

CAUTIONS_READ = "cautions read"
"""Setting: whether the cautions have been read."""


def play(
    rig: Rig,
    stage: Stage,
    history: History,
    levels: Sequence[Level],
    offered: Demonstration,
    rng: np.random.Generator,
    now: Now,
) -> Flow[None]:
    """Play until the player leaves; `offered` is the demo that can be watched."""
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
                    yield from watch_aside(offered, rig.clock, stage, now)
                    continue
                case Instead():
                    return
        setting = Setting(rig, stage, history if rig.counts else None, rng, now)
        match (yield from show(_home(rig, history, levels, now), rig, stage)):
            case Level() as level:
                yield from _practise(level, levels, setting)
            case Go.LEVELS:
                done = history.passed()
                opened = _open_to(setting, levels)
                chosen = yield from show(LevelList(levels, done, rig.there, opened), rig, stage)
                if isinstance(chosen, Level):
                    yield from _practise(chosen, levels, setting)
            case Go.DEMO:
                yield from watch_aside(offered, rig.clock, stage, now)
            case Go.PEDALS:
                yield from set_up(rig, stage, history)
            case Go.AGAIN:
                bind_saved(rig, history)
            case Go.SOUND:
                yield from sound_and_light(rig, stage, history)
            case _:
                return


def _practise(level: Level, levels: Sequence[Level], setting: Setting) -> Flow[None]:
    """Sets of levels one after another, until the player goes home."""
    following: object = level
    while isinstance(following, Level):
        level = following
        played = yield from run_set(level, setting, level.repetitions)
        if played.home or not played.kept.records:
            return
        next_one = level
        if played.kept.standing.passed:
            next_one = next_level(levels, _open_to(setting, levels), setting.rig.there)
        following = yield from end_set(level, next_one, played.kept, setting)


def _open_to(setting: Setting, levels: Sequence[Level]) -> frozenset[str]:
    """Ids of the levels that count as passed: in a try-out nothing needs passing first."""
    if setting.history is None:
        return frozenset(level.id for level in levels)
    return setting.history.passed()


def _home(rig: Rig, history: History, levels: Sequence[Level], now: Now) -> Home:
    passed = history.passed()
    return Home(
        history.standing(now().date()),
        next_level(levels, passed, rig.there),
        passed=sum(level.id in passed for level in levels),
        levels=len(levels),
        pedals=_played_with(rig),
        sound=loudness(signals_wanted(history)),
    )


def _played_with(rig: Rig) -> str:
    if not rig.is_feet:
        return "playing with the mouse"
    return "ready" if rig.sample() is not None else "unplugged"
