"""Remeasuring: computes the measures of a stored repetition once more, by today's definitions.

What was left to chance is not stored. The measures rest on the cues alone, and when those came,
and how many, is.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from drills.judging import judge_foot
from drills.kinds.asked_size import with_size
from drills.level import Level
from drills.measures.blip import OFF
from drills.repetition import LONGEST_GAP
from drills.score import OF_THE_PEDALS, Judged, Reason
from drills.task import Performance, Signal, Task
from drills.trace import SECOND, STEP, nanoseconds

Measures = Mapping[str, float | None]
"""Measures of a repetition by name, in the units of the catalogue."""
DRAWS = 24
"""Number of tasks drawn to see how many cues a level may give. Of three equally likely numbers one
is missed for 1 level in 17,000: (2/3)**24."""
UNJUDGED = frozenset(
    {
        *(Reason.NO_TARGET, Reason.GAP, Reason.UNPLUGGED, Reason.FOCUS_LOST, Reason.LEFT),
        *(Reason.WALKED_OUT, Reason.OFF_SIZE, Reason.MISCOUNTED, Reason.UNHEARD),
        *OF_THE_PEDALS,
    }
)
"""Outcomes for which no measures are computed."""

ANSWERED = ("knocks", "counted")
"""Names of the measures that no trace holds, as the player answered them: they stay as stored."""


class Unmeasured(StrEnum):
    """Why a stored repetition is not remeasured."""

    UNREADABLE = "a value of it cannot be read"
    UNJUDGED = "ended before it could be judged"
    NO_TRACE = "no trace of it is stored"
    NO_LEVEL = "its level is not known any more"
    OTHER_KIND = "its level is of another kind now"
    OTHER_LENGTH = "its level asks for more time or other cues now"
    UNKNOWN_COUNT = "cut short, with the number of blips unknown"


@dataclass(frozen=True)
class StoredRepetition:
    """A repetition in the history, as far as its measures rest on it."""

    number: int
    """Number of the repetition in the history."""
    level: str
    """Id of the level that was played."""
    kind: str
    """Name of the level's kind of drill."""
    target: float
    """Brake target of the repetition, in %."""
    tolerance: float
    """Tolerance of the level at the time of the repetition, in points."""
    reason: str
    """Outcome of the repetition, as the history spells it."""
    done: Performance | None
    """What was done in the repetition; None where no trace is stored."""
    measures: Measures
    """Measures that the history holds of the repetition."""
    definition: int
    """Version of the definitions that those measures are of."""


class Remeasurer:
    """Remeasures stored repetitions of given levels."""

    def __init__(self, levels: Sequence[Level]) -> None:
        self._levels = {level.id: level for level in levels}
        self._seeds: dict[str, dict[int, int]] = {}

    def measure(self, stored: StoredRepetition) -> Measures | Unmeasured:
        """Measures of a stored repetition by the definitions of today, or why there are none."""
        judged = self.judge(stored)
        if isinstance(judged, Unmeasured):
            return judged
        answered = {name: stored.measures[name] for name in ANSWERED if name in stored.measures}
        measured = {name: _number(value) for name, value in judged.verdict.measures.items()}
        return {**measured, **answered}

    def judge(self, stored: StoredRepetition) -> Judged | Unmeasured:
        """A stored repetition judged once more, or why it is not."""
        if stored.reason in UNJUDGED:
            return Unmeasured.UNJUDGED
        if stored.done is None:
            return Unmeasured.NO_TRACE
        level = self._levels.get(stored.level)
        if level is None:
            return Unmeasured.NO_LEVEL
        if level.kind.name != stored.kind:
            return Unmeasured.OTHER_KIND
        # A blip that counted when no size was asked keeps its measures now that one is.
        level = with_size(replace(level, tolerance=stored.tolerance), 0.0)
        task = self._task(level, stored.target, stored.done)
        if isinstance(task, Unmeasured):
            return task
        return judge_foot(level, task, stored.done)

    def _task(self, level: Level, target: float, done: Performance) -> Task | Unmeasured:
        """Task of a stored repetition's level, with as many cues as were given."""
        if level.id not in self._seeds:
            drawn = ((len(_drawn(level, target, seed).cues), seed) for seed in range(DRAWS))
            self._seeds[level.id] = dict(drawn)
        seeds = self._seeds[level.id]
        if len(seeds) > 1 and (len(done.cues) not in seeds or _is_on(done)):
            return Unmeasured.UNKNOWN_COUNT
        task = _drawn(level, target, seeds.get(len(done.cues), next(iter(seeds.values()))))
        if bool(task.cues) != bool(done.cues):
            # A pedal that did not wait for the cue: when that was due is not stored.
            return Unmeasured.UNJUDGED if task.cues else Unmeasured.OTHER_LENGTH
        fits = _has_room(task, done) and _has_cues(task, done)
        return task if fits else Unmeasured.OTHER_LENGTH


def differing(before: Measures, now: Measures) -> Iterator[str]:
    """Names of the measures whose stored and computed values differ, or that only one side has."""
    for name in {**before, **now}:
        if (name in before, before.get(name)) != (name in now, now.get(name)):
            yield name


def _drawn(level: Level, target: float, seed: int) -> Task:
    return level.kind.task(level, target, np.random.default_rng(seed))


def _is_on(done: Performance) -> bool:
    """Whether the throttle was on at the end of a trace: perhaps not all cues had come by then."""
    return bool(done.trace.throttle[-1] >= OFF)


def _has_room(task: Task, done: Performance) -> bool:
    """Whether the trace covers all that is measured of a task."""
    first, last = int(done.trace.time[0]), int(done.trace.time[-1])
    if len(done.cues) > len(task.cues) or any(not first <= cue <= last for cue in done.cues):
        return False
    if task.moves:
        return True
    since = done.cues[0] / SECOND if done.cues else done.began / SECOND + task.wait
    return last + STEP >= (since + task.lasts) * SECOND


def _has_cues(task: Task, done: Performance) -> bool:
    """Whether the cues were given when the task asks, so that its level is the one it was.

    They are counted from the last, as a gap in the count-in may make its beats late.
    """
    given = len(done.cues)
    return all(
        abs(done.cues[-1] - done.cues[k] - nanoseconds(task.cues[given - 1] - task.cues[k]))
        <= LONGEST_GAP
        for k in range(given)
        if task.signal(k) is not Signal.COUNT
    )


def _number(value: float | None) -> float | None:
    """Value of a measure as the history stores it: None for NaN."""
    return None if value is None or math.isnan(value) else float(value)
