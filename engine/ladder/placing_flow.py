"""Flow of the placing set: a few repetitions per stage, up to the first that is too hard."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from drills.level import Feedback, Level
from engine.drill.attempt import Assignment, Setting, wait_for_pedals
from engine.drill.between import Between
from engine.drill.interruptions import Pause
from engine.drill.lesson_flow import pause_set, teach
from engine.drill.set import SEEDS
from engine.drill.set_end import Then
from engine.drill.set_log import SetLog
from engine.drill.turn import MOST_VOID, Pictures, take_turn
from engine.kit.base import Place
from engine.kit.flow import show
from engine.ladder.ladder import ladder_stages
from engine.ladder.ladder_words import FIND_PLACE
from engine.ladder.placing import MOST, Placing, begin, placed
from engine.ladder.placing_screens import BeforePlacing, PlacingEnd
from engine.practice.passes import next_level
from engine.stage.scene import Flow
from engine.store import History, Record, ledger


def find_place(setting: Setting, history: History, levels: Sequence[Level]) -> Flow[Level | Then]:
    """Play a placing set and store what it skipped; returns the level to practise or Then.HOME.

    Each repetition is stored as one of its own level. A set left early counts as far as it went.
    Raises StoreError.
    """
    rig, stage = setting.rig, setting.stage
    if not (yield from show(BeforePlacing(MOST), rig, stage)):
        return Then.HOME
    placing, home = yield from _play(setting, begin(levels, setting.there))
    ledger.keep_placed(history, placed(placing, levels))
    if home:
        return Then.HOME
    done = ledger.passed(history) | ledger.placed(history)
    following = next_level(levels, done, setting.there)
    stages = ladder_stages(levels, ledger.passed(history), ledger.placed(history), setting.there)
    taken = [gate.stage for gate in placing.taken]
    screen = PlacingEnd(stages, following, taken, len(placing.outcomes))
    return (yield from show(screen, rig, stage))


def _play(setting: Setting, placing: Placing) -> Flow[tuple[Placing, bool]]:
    """Play the repetitions of a placing set; returns how far it went, and whether to go home."""
    rig, stage = setting.rig, setting.stage
    stage.speaker.prepare()
    seed, voids = int(setting.rng.integers(SEEDS)), 0
    tries, between, records = 0, Between(setting), list[Record]()
    on = yield from wait_for_pedals(rig, stage)
    while on and (level := placing.asked) is not None and voids < MOST_VOID:
        log = SetLog(replace(level, feedback=Feedback.EVERY), setting.history)
        place = Place(len(placing.outcomes) + 1, MOST, level.kind.title)
        asked = Assignment(replace(level, title=FIND_PLACE), replace(level, guess=False), seed)
        setting = yield from teach(level, setting)
        rng, tries = np.random.default_rng((seed, tries)), tries + 1
        turn = yield from take_turn(asked, place, log, Pictures(), setting, rng)
        on, menu = turn.may_continue, turn.asked_for_menu
        if turn.attempt.record is not None:
            verdict = turn.attempt.record.verdict
            voids = voids + 1 if verdict.void else 0
            placing = placing if verdict.void else placing.after(verdict.clean)
            records.append(turn.attempt.record)
            if on and not menu:
                on = yield from between.after(turn.attempt, records)
        if on and menu:
            done = len(placing.outcomes)
            pause = yield from pause_set(done, MOST, None, level, setting)
            if pause is Pause.HOME:
                return placing, True
            on = pause is Pause.ON
    return placing, False
