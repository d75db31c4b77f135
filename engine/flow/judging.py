"""From a repetition that has ended to the record that is kept of it."""

from __future__ import annotations

from datetime import datetime

from drills.kinds import KINDS
from drills.kinds.base import Task
from drills.level import Level
from drills.measures.sampling import measure_sampling
from drills.repetition import Repetition
from drills.score import Reason, Verdict
from engine.store.records import Record


def as_event(number: int, record: Record) -> dict[str, object]:
    """What the events file says of a record that is kept under a number."""
    verdict = record.verdict
    return {
        "id": number,
        "level": record.level,
        "target": record.target,
        "score": verdict.score,
        "clean": verdict.clean,
        "reason": verdict.reason.value,
        "over": verdict.over,
        "measures": dict(verdict.measures),
    }


def conclude(level: Level, task: Task, done: Repetition, source: str, at: datetime) -> Record:
    """Judge a repetition of `level` that ended at `at`, with pedals from `source`."""
    performance = done.performance()
    if done.void is not None:
        verdict = Verdict(done.void)
    elif performance is None:
        verdict = Verdict(Reason.NO_TARGET)
    else:
        verdict = KINDS[level.kind].judge(level, task, performance)
    sampling = None
    if performance is not None and done.measured_from is not None:
        sampling = measure_sampling(performance.trace, done.measured_from)
    return Record(
        level=level.id,
        kind=level.kind,
        source=source,
        at=at,
        target=task.target,
        tolerance=level.tolerance,
        verdict=verdict,
        trace=None if performance is None else performance.trace,
        dark=None if performance is None else performance.dark,
        cues=() if performance is None else performance.cues,
        sampling=sampling,
        calibration=None,
        rule=level.rule,
    )
