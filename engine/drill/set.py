"""`run_set` plays one set of a level, the same in the game and in every demo; `end_set` ends it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drills.level import Level
from engine.drill.attempt import Assignment, Setting, wait_for_pedals
from engine.drill.between import Between
from engine.drill.interruptions import Pause
from engine.drill.lesson_flow import pause_set, teach
from engine.drill.moments import Moments, next_to_learn
from engine.drill.pairs import half_of_pair
from engine.drill.set_end import SetEnd, Then
from engine.drill.set_log import SetLog, set_tally
from engine.drill.turn import Pictures, is_given_up, take_turn
from engine.kit.base import Place
from engine.kit.flow import show
from engine.practice.passes import reveals_each
from engine.stage.scene import Flow

SEEDS = 2**62
"""Number of possible seeds for the random numbers of a set."""


@dataclass(frozen=True)
class Played:
    """Result of playing a set."""

    log: SetLog
    """Log with the records of the repetitions of the set."""
    home: bool
    """Whether the player went home from the menu, so that the end of the set is not shown."""


def run_set(level: Level, setting: Setting, repetitions: int) -> Flow[Played]:
    """Play a set until `repetitions` of them counted; each is stored as it ends.

    A void repetition is repeated. The set ends early when the player leaves it, or when too many
    repetitions in a row are void. The random generator of stored repetition k (from 0) is seeded
    with the pair (seed of the set, k). Raises StoreError.
    """
    rig, stage = setting.rig, setting.stage
    stage.speaker.prepare()
    seed = int(setting.rng.integers(SEEDS))
    drawable = setting.drawable(level)
    log, earlier = SetLog(level, setting.history), Pictures()
    between = Between(setting)
    moments = Moments(setting, lambda: next_to_learn(setting))
    before: Level | None = None
    on = yield from wait_for_pedals(rig, stage)
    while on and _continues(log, repetitions):
        marks = tuple(log.marks) if reveals_each(level) else None
        place = Place(log.counted + 1, repetitions, marks=marks)
        rng = np.random.default_rng((seed, log.played))
        drawn = level.kind.draw(level, drawable, before, rng)
        assignment = Assignment(level, half_of_pair(drawn, log.counted, seed), seed)
        setting = yield from teach(assignment.drawn, setting)
        turn = yield from take_turn(assignment, place, log, earlier, setting, rng)
        on, menu = turn.may_continue, turn.asked_for_menu
        if turn.attempt.record is not None:
            before = assignment.drawn
            moments.take(log)
            if on and _continues(log, repetitions):
                menu = (yield from moments.show()) or menu
        elif not log.played and not turn.attempt.asked_for_menu:
            break
        if on and not menu:
            on = yield from between.after(turn.attempt, log.records)
        if menu:
            marks = tuple(log.marks) if reveals_each(level) else None
            place = Place(log.counted + 1, repetitions, marks=marks)
            pause = yield from pause_set(log.counted, repetitions, place, assignment.drawn, setting)
            if pause is Pause.HOME:
                yield from moments.end_set(log)
                return Played(log.with_pictures(earlier.of(level)), home=True)
            on = pause is Pause.ON
    log.given_up = is_given_up(log.records)
    yield from moments.end_set(log)
    return Played(log.with_pictures(earlier.of(level)), home=False)


def end_set(
    level: Level, following: Level, log: SetLog, setting: Setting, *, home_first: bool = False
) -> Flow[Level | Then]:
    """Show the end of a set; return the level to play next, or Then.HOME.

    The level is `level` once more or `following`. Raises StoreError.
    """
    tally = set_tally(log, setting.now)
    screen = SetEnd(level, tally, following, log.pictures, home_first=home_first)
    return (yield from show(screen, setting.rig, setting.stage))


def _continues(log: SetLog, repetitions: int) -> bool:
    """Whether the set goes on with another repetition after those of the log."""
    return log.counted < repetitions and not is_given_up(log.records)
