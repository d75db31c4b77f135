"""One set of a level: the same for the game, the demo in the window and the headless demo."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import takewhile

import numpy as np

from drills.deviation import Deviation
from drills.kinds.base import unjudged
from drills.level import Level
from drills.measures.sampling import measure_sampling
from drills.repetition import Repetition
from drills.score import Reason
from drills.task import Task
from engine.flow import show
from engine.flow.tally import Kept, tally_of
from engine.pedals.identity import Missing
from engine.pedals.rig import Rig
from engine.practice.progress import reveals
from engine.screens.base import Place
from engine.screens.busy import Busy
from engine.screens.nopedals import Unplugged
from engine.screens.pause import Pause, SmallMenu
from engine.screens.repeating import RepetitionScreen
from engine.screens.reveal import After, Reveal
from engine.screens.setend import SetEnd, Then
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History, Record

Now = Callable[[], datetime]
"""Local date and time with its offset from UTC, asked for once a repetition."""

EARLIER_SHOWN = 5
"""count of earlier repetitions shown faintly at the reveal."""
MOST_VOID = 10
"""count of repetitions in a row that do not count, after which a set is given up."""
BUSY_AFTER = 3
"""count of repetitions in a row lost to gaps, after which the computer is taken to be busy."""
MOST_PICTURES = 50
"""count of the newest pictures that are kept for the end of a set: a level has no more."""


@dataclass(frozen=True)
class Played:
    """A set that was played."""

    kept: Kept
    """What came of it."""
    home: bool
    """Whether the player wants home now and not to see how it went."""


@dataclass(frozen=True)
class Setting:
    """What a set is played with, and where it goes."""

    rig: Rig
    """What it is played with."""
    stage: Stage
    """Where it is seen, heard and told."""
    history: History | None
    """Where it is kept; None for a try-out, of which nothing is."""
    rng: np.random.Generator
    """Where its chance comes from."""
    now: Now
    """Tells the local date and time."""
    screen: type[RepetitionScreen] = RepetitionScreen
    """How a repetition is shown."""


def run_set(level: Level, setting: Setting, repetitions: int) -> Flow[Played]:
    """Repetitions until so many counted, each kept as it ends.

    One that does not count is followed by another of the same number. The set ends early when
    the player leaves it, or when many in a row do not count.
    """
    rig, stage = setting.rig, setting.stage
    stage.speaker.prepare()
    kept = Kept(level, setting.history)
    earlier: deque[Deviation] = deque(maxlen=MOST_PICTURES)
    on = yield from _wait_for_pedals(rig, stage)
    while on and _goes_on(kept.records, repetitions):
        place = Place(kept.counted + 1, repetitions)
        target = level.targets.at(place.number, setting.rng)
        task = level.kind.task(level, target, setting.rng)
        screen = setting.screen(level, task, place, stage, rig.clock())
        ended = yield from show(screen, rig, stage)
        menu = ended.left or ended.void is Reason.LEFT
        if ended.void is not Reason.LEFT:
            record = conclude(level, task, ended, rig, setting.now())
            kept.add(record, place, stage)
            deviation = _deviation(level, task, ended, record)
            if not menu:
                on = yield from _wait_for_pedals(rig, stage)
                shows = record.verdict.void or reveals(level, place.number, record.verdict.clean)
                if on and shows:
                    seen = tuple(earlier)[-EARLIER_SHOWN:]
                    reveal = Reveal(level, record.verdict, deviation, seen, place, record.sampling)
                    menu = (yield from show(reveal, rig, stage)) is After.MENU
            if deviation is not None and not record.verdict.void:
                earlier.append(deviation)
        elif not kept.records and not screen.asked_for_menu:
            break
        if on and not menu and _is_busy(kept.records):
            on = yield from show(Busy(), rig, stage)
        if menu:
            pause = yield from show(SmallMenu(kept.counted, repetitions), rig, stage)
            if pause is Pause.HOME:
                return Played(kept.with_pictures(earlier), home=True)
            on = pause is Pause.ON
    kept.given_up = _is_given_up(kept.records)
    return Played(kept.with_pictures(earlier), home=False)


def end_set(
    level: Level, following: Level, kept: Kept, setting: Setting, *, home_first: bool = False
) -> Flow[Level | Then]:
    """How the set went; a level to go on with, be it `following`, or Then.HOME."""
    tally = tally_of(kept, setting.now)
    if tally.passed_now:
        setting.stage.speaker.passed()
    elif tally.is_beaten:
        setting.stage.speaker.best()
    screen = SetEnd(level, tally, following, kept.pictures, home_first=home_first)
    return (yield from show(screen, setting.rig, setting.stage))


def conclude(level: Level, task: Task, done: Repetition, rig: Rig, at: datetime) -> Record:
    """The record of a repetition of `level` that ended at `at`, judged."""
    performance = done.performance()
    if done.void is not None:
        verdict = unjudged(done.void, task, performance)
    elif done.left:
        verdict = unjudged(Reason.WALKED_OUT, task, performance)
    elif performance is None:
        verdict = unjudged(Reason.NO_TARGET, task, None)
    else:
        verdict = level.kind.judge(level, task, performance)
    sampling = None
    if performance is not None and done.measured_from is not None:
        sampling = measure_sampling(performance.trace, done.measured_from)
    return Record(
        level=level.id,
        kind=level.kind.name,
        source=rig.source,
        feet=rig.counts,
        at=at,
        target=task.target,
        tolerance=level.tolerance,
        rule=level.rule,
        verdict=verdict,
        trace=None if performance is None else performance.trace,
        calibration=None if rig.pedals is None else rig.pedals.calibration,
        dark=None if performance is None else performance.began,
        cues=() if performance is None else performance.cues,
        sampling=sampling,
    )


def _deviation(level: Level, task: Task, ended: Repetition, record: Record) -> Deviation | None:
    performance = ended.performance()
    if performance is None:
        return None
    return level.kind.deviation(level, task, performance, record.verdict)


def _wait_for_pedals(rig: Rig, stage: Stage) -> Flow[bool]:
    """Wait until the pedals are back; False where the player would rather leave."""
    while rig.sample() is None:
        if not (yield from show(Unplugged(rig.trouble is Missing.AMBIGUOUS), rig, stage)):
            return False
    return True


def _goes_on(kept: Sequence[Record], repetitions: int) -> bool:
    """Whether another repetition follows those that were kept."""
    counted = sum(not record.verdict.void for record in kept)
    return counted < repetitions and not _is_given_up(kept)


def _is_given_up(kept: Sequence[Record]) -> bool:
    """Whether too many in a row did not count for another try to make sense."""
    latest: Iterator[Record] = reversed(kept)
    return sum(1 for _ in takewhile(lambda record: record.verdict.void, latest)) >= MOST_VOID


def _is_busy(kept: Sequence[Record]) -> bool:
    """Whether the newest repetitions were lost to gaps, and the count of them says so anew."""
    latest: Iterator[Record] = reversed(kept)
    lost = sum(1 for _ in takewhile(lambda one: one.verdict.reason is Reason.GAP, latest))
    return lost > 0 and lost % BUSY_AFTER == 0
