"""Flows for choosing a level from the ladder and for practising one level after another."""

from __future__ import annotations

from drills.level import Level
from engine.drill.attempt import Setting
from engine.drill.set import end_set, run_set
from engine.drill.set_end import Then
from engine.kit.flow import show
from engine.ladder.ladder import LadderStage
from engine.ladder.ladder_screen import Ladder
from engine.ladder.ladder_words import due_words
from engine.ladder.level_list import Instead, LevelList
from engine.ladder.placing_flow import find_place
from engine.ladder.saved import done, stages_of
from engine.practice.passes import next_level
from engine.stage.scene import Flow
from engine.store import History
from engine.store.personal import personal_limits
from engine.store.retention import all_retention


def choose_and_practise(setting: Setting, history: History, following: Level) -> Flow[None]:
    """Let the player choose a level or find their place, and practise the level.

    `following` is the level to practise next, which is selected at first. Raises StoreError.
    """
    chosen = yield from choose_level(setting, history, following)
    if chosen is Instead.FIND_PLACE:
        chosen = yield from find_place(setting, history, setting.levels)
    if isinstance(chosen, Level):
        yield from practise(chosen, setting)


def choose_level(
    setting: Setting, history: History, following: Level
) -> Flow[Level | Instead | Then]:
    """Let the player choose the next level, a level of some stage, or the placing set.

    `following` is the level to practise next, which is selected at first. Raises StoreError.
    """
    rig, stage = setting.rig, setting.stage
    stage.speaker.prepare()  # only then is it known whether a level that needs sound is open
    stages = stages_of(setting, history)
    placing = setting.history is not None and not done(history)
    previous: LadderStage | None = None
    while True:
        ladder = Ladder(
            stages, following, setting.there, previous, placing=placing, lucky=setting.lucky
        )
        chosen = yield from show(ladder, rig, stage)
        if not isinstance(chosen, LadderStage):
            return chosen
        previous = chosen
        due = _review_words(setting, history)
        personal = {} if setting.history is None else personal_limits(history)
        screen = LevelList(chosen, stages, setting.there, due, setting.lucky, personal)
        level = yield from show(screen, rig, stage)
        if isinstance(level, Level):
            return level


def _review_words(setting: Setting, history: History) -> dict[str, str]:
    """When each level's next retention check is due, in words, by the id of the level."""
    if setting.history is None:
        return {}
    today = setting.now().date()
    return {
        name: due_words((retention.due - today).days)
        for name, retention in all_retention(history).items()
        if retention.due is not None
    }


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
            next_one = next_level(setting.levels, _open_to(setting), setting.there)
        following = yield from end_set(level, next_one, played.log, setting)


def _open_to(setting: Setting) -> frozenset[str]:
    """Ids of the levels taken as passed, to open others: all of them in a try-out."""
    if setting.history is None:
        return frozenset(level.id for level in setting.levels)
    return done(setting.history)
