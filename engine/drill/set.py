"""One set of a level: the same for the game, the demo in the window and the headless demo."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from drills.level import Level
from engine.drill.attempt import Assignment, Setting, wait_for_pedals
from engine.drill.interruptions import Busy, Pause, SmallMenu
from engine.drill.set_end import SetEnd, Then
from engine.drill.tally import SetLog, set_tally
from engine.drill.turn import Pictures, is_busy, is_given_up, take_turn
from engine.kit.base import Place
from engine.kit.flow import show
from engine.stage.scene import Flow
from engine.store import Record

SEEDS = 2**62
"""1, how many seeds there are for the chance of a set."""


@dataclass(frozen=True)
class Played:
    """A set that was played."""

    kept: SetLog
    """What came of it."""
    home: bool
    """Whether the player wants home now and not to see how it went."""


def run_set(level: Level, setting: Setting, repetitions: int) -> Flow[Played]:
    """Repetitions until so many counted, each kept as it ends.

    One that does not count is followed by another of the same number. The set ends early when
    the player leaves it, or when many in a row do not count. The chance in repetition k (from 0)
    of those kept comes from the pair of the seed of the set and k.
    """
    rig, stage = setting.rig, setting.stage
    stage.speaker.prepare()
    seed = int(setting.rng.integers(SEEDS))
    passed = setting.passed(level)
    kept, earlier = SetLog(level, setting.history), Pictures()
    before: Level | None = None
    on = yield from wait_for_pedals(rig, stage)
    while on and _goes_on(kept.records, repetitions):
        place = Place(kept.counted + 1, repetitions)
        rng = np.random.default_rng((seed, len(kept.records)))
        asked = Assignment(level, level.kind.draw(level, passed, before, rng), seed)
        turn = yield from take_turn(asked, place, kept, earlier, setting, rng)
        on = turn.on
        if turn.tried.record is not None:
            before = asked.drawn
        elif not kept.records and not turn.tried.asked_for_menu:
            break
        if on and not turn.menu and is_busy(kept.records):
            on = yield from show(Busy(), rig, stage)
        if turn.menu:
            pause = yield from show(SmallMenu(kept.counted, repetitions), rig, stage)
            if pause is Pause.HOME:
                return Played(kept.with_pictures(earlier.of(level)), home=True)
            on = pause is Pause.ON
    kept.given_up = is_given_up(kept.records)
    return Played(kept.with_pictures(earlier.of(level)), home=False)


def end_set(
    level: Level, following: Level, kept: SetLog, setting: Setting, *, home_first: bool = False
) -> Flow[Level | Then]:
    """How the set went; a level to go on with, be it `following`, or Then.HOME."""
    tally = set_tally(kept, setting.now)
    if tally.passed_now:
        setting.stage.speaker.passed()
    elif tally.is_beaten:
        setting.stage.speaker.best()
    screen = SetEnd(level, tally, following, kept.pictures, home_first=home_first)
    return (yield from show(screen, setting.rig, setting.stage))


def _goes_on(kept: Sequence[Record], repetitions: int) -> bool:
    """Whether another repetition follows those that were kept."""
    counted = sum(not record.verdict.void for record in kept)
    return counted < repetitions and not is_given_up(kept)
