"""Flows for choosing a level from the ladder and for practising one level after another."""

from __future__ import annotations

from drills.level import Level
from engine.drill.attempt import Setting
from engine.drill.set import end_set, run_set
from engine.kit.flow import show
from engine.ladder.ladder import LadderStage
from engine.ladder.level_list import Back, Ladder, LevelList
from engine.ladder.saved import done, stages_of
from engine.practice.passes import next_level
from engine.stage.scene import Flow
from engine.store import History
from engine.store.retention import all_retention


def choose_level(setting: Setting, history: History, following: Level) -> Flow[Level | None]:
    """Let the player choose a level, first its stage if there are several; None: went back.

    `following` is the level to practise next, which is marked. Raises StoreError.
    """
    rig, stage = setting.rig, setting.stage
    stages = stages_of(setting, history)
    previous: LadderStage | None = None
    chosen: LadderStage | Back = stages[0]
    while True:
        if len(stages) > 1:
            chosen = yield from show(Ladder(stages, following, rig.there, previous), rig, stage)
        if not isinstance(chosen, LadderStage):
            return None
        previous = chosen
        due = _review_words(setting, history)
        screen = LevelList(chosen, stages, rig.there, due, setting.lucky)
        level = yield from show(screen, rig, stage)
        if isinstance(level, Level):
            return level
        if len(stages) == 1:
            return None


def _review_words(setting: Setting, history: History) -> dict[str, str]:
    """When each level's next retention check is due, in words, by the id of the level."""
    today, words = setting.now().date(), dict[str, str]()
    for name, retention in all_retention(history).items():
        if setting.history is None or retention.due is None:
            continue
        days = (retention.due - today).days
        later = "again tomorrow" if days == 1 else f"again in {days} days"
        words[name] = "again today" if retention.is_due(today) else later
    return words


def practise(level: Level, setting: Setting) -> Flow[None]:
    """Play sets of levels one after another, until the player goes home. Raises StoreError."""
    following: object = level
    while isinstance(following, Level):
        level = following
        played = yield from run_set(level, setting, level.repetitions)
        if played.home or not played.log.played:
            return
        next_one = level
        if played.log.streaks.passed:
            next_one = next_level(setting.levels, _open_to(setting), setting.rig.there)
        following = yield from end_set(level, next_one, played.log, setting)


def _open_to(setting: Setting) -> frozenset[str]:
    """Ids of the levels taken as passed, to open others: all of them in a try-out."""
    if setting.history is None:
        return frozenset(level.id for level in setting.levels)
    return done(setting.history)
