"""One set of a level: the same for the game, the demo in the window and the headless demo."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from datetime import datetime
from itertools import takewhile
from statistics import median

import numpy as np

from drills.deviation import Deviation
from drills.kinds.base import unjudged
from drills.level import Level
from drills.measures.sampling import measure_sampling
from drills.repetition import Repetition
from drills.score import Reason, Verdict
from drills.task import Task
from engine.flow import show
from engine.pedals.identity import Missing
from engine.pedals.rig import Rig
from engine.practice.progress import reveals
from engine.screens.base import Place
from engine.screens.nopedals import Unplugged
from engine.screens.repeating import RepetitionScreen
from engine.screens.reveal import After, Reveal
from engine.screens.setend import SetEnd, Tally, Then
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History, Record

Now = Callable[[], datetime]
"""Local date and time with its offset from UTC, asked for once a repetition."""

EARLIER_SHOWN = 5
"""count of earlier repetitions shown faintly at the reveal."""
MOST_VOID = 10
"""count of repetitions in a row that do not count, after which a set is given up."""


def run_set(
    level: Level,
    rig: Rig,
    stage: Stage,
    history: History,
    rng: np.random.Generator,
    now: Now,
    repetitions: int,
) -> Flow[list[Record]]:
    """Repetitions until so many counted, each kept as it ends; those that were kept.

    One that does not count is followed by another of the same number. The set ends early when
    the player leaves it, or when many in a row do not count.
    """
    stage.speaker.prepare()
    kept: list[Record] = []
    if not (yield from _wait_for_pedals(rig, stage)):
        return kept
    earlier: deque[Deviation] = deque(maxlen=EARLIER_SHOWN)
    while _goes_on(kept, repetitions):
        place = Place(_counted(kept) + 1, repetitions)
        task = level.kind.task(level, level.targets[(place.number - 1) % len(level.targets)], rng)
        screen = RepetitionScreen(level, task, place, stage, rig.clock())
        ended = yield from show(screen, rig, stage)
        if ended.void is Reason.LEFT:
            break
        record = conclude(level, task, ended, rig, now())
        _keep(record, place, stage, history)
        # A trace is in the history by now; ten thousand of them would fill the memory.
        kept.append(replace(record, trace=None))
        verdict = record.verdict
        if ended.left or not (yield from _wait_for_pedals(rig, stage)):
            break
        deviation = _deviation(level, task, ended, verdict)
        if verdict.void or reveals(level, place.number, verdict.clean):
            more = _goes_on(kept, repetitions)
            reveal = Reveal(level, verdict, deviation, tuple(earlier), place, more=more)
            if (yield from show(reveal, rig, stage)) is After.LEAVE:
                break
        if deviation is not None:
            earlier.append(deviation)
    return kept


def end_set(
    level: Level,
    following: Level,
    kept: Sequence[Record],
    rig: Rig,
    stage: Stage,
    history: History,
    now: Now,
) -> Flow[Level | Then]:
    """How the set went; a level to go on with, be it `following`, or Then.HOME."""
    tally = _tally(level, kept, history, now)
    return (yield from show(SetEnd(level, tally, following), rig, stage))


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


def _keep(record: Record, place: Place, stage: Stage, history: History) -> None:
    """Commit a record, then tell and sound the verdict."""
    number = history.add(record)
    stage.conclude(place.number, number, record)
    if record.verdict.clean:
        stage.speaker.step(history.standing(record.at.date()).clean_row)


def _deviation(level: Level, task: Task, ended: Repetition, verdict: Verdict) -> Deviation | None:
    performance = ended.performance()
    if performance is None or verdict.void:
        return None
    return level.kind.deviation(level, task, performance, verdict)


def _wait_for_pedals(rig: Rig, stage: Stage) -> Flow[bool]:
    """Wait until the pedals are back; False where the player would rather leave."""
    while rig.sample() is None:
        if not (yield from show(Unplugged(rig.trouble is Missing.AMBIGUOUS), rig, stage)):
            return False
    return True


def _goes_on(kept: Sequence[Record], repetitions: int) -> bool:
    """Whether another repetition follows those that were kept."""
    return _counted(kept) < repetitions and not _is_given_up(kept)


def _is_given_up(kept: Sequence[Record]) -> bool:
    """Whether too many in a row did not count for another try to make sense."""
    latest: Iterator[Record] = reversed(kept)
    return sum(1 for _ in takewhile(lambda record: record.verdict.void, latest)) >= MOST_VOID


def _counted(kept: Sequence[Record]) -> int:
    return sum(not record.verdict.void for record in kept)


def _tally(level: Level, kept: Sequence[Record], history: History, now: Now) -> Tally:
    verdicts = [record.verdict for record in kept]
    scores = [verdict.score for verdict in verdicts if verdict.score is not None]
    standing = history.level_standing(level.id)
    return Tally(
        counted=_counted(kept),
        clean=sum(verdict.clean for verdict in verdicts),
        void=sum(verdict.void for verdict in verdicts),
        score=median(scores) if scores else None,
        clean_row=history.standing(now().date()).clean_row,
        latest_clean=sum(standing.latest[-level.rule.of :]),
        passed=standing.passed,
        given_up=_is_given_up(kept),
    )
