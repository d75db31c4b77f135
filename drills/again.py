"""A repetition that was kept, measured again by what the measures are today.

Its chance is not kept, but what of it the measures rest on shows: when the cues came, and how many.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from drills.level import Level
from drills.measures.blip import OFF
from drills.score import Reason
from drills.task import Performance, Task
from drills.trace import SECOND, STEP

Measures = Mapping[str, float | None]
"""Measures by name, in the units of their sections."""
DRAWS = 24
"""count of tasks drawn to see how many cues a level may give: of three numbers, one is missed for
one level in 17,000, (2/3)**24."""
UNJUDGED = frozenset(
    {
        *(Reason.NO_TARGET, Reason.GAP, Reason.UNPLUGGED, Reason.FOCUS_LOST, Reason.LEFT),
        Reason.WALKED_OUT,
    }
)
"""Ends that nothing is measured after."""


class Unmeasured(StrEnum):
    """Why a repetition is not measured again."""

    UNJUDGED = "ended before it could be judged"
    NO_TRACE = "no trace of it is kept"
    NO_LEVEL = "its level is not known any more"
    OTHER_KIND = "its level is of another kind now"
    OTHER_LENGTH = "its level asks for more time or other cues now"
    UNKNOWN_COUNT = "cut short, and how many blips were asked is not kept"


@dataclass(frozen=True)
class Kept:
    """What is kept of a repetition, as far as its measures rest on it."""

    number: int
    """Its number in the history."""
    level: str
    """Id of the level that was played."""
    kind: str
    """Name of its drill kind."""
    target: float
    """%, brake target."""
    tolerance: float
    """points, tolerance of the level at the time."""
    reason: str
    """How it ended."""
    done: Performance | None
    """What was done; None where no trace is kept."""
    measures: Measures
    """What was measured then."""


class Again:
    """Measures kept repetitions of some levels."""

    def __init__(self, levels: Sequence[Level]) -> None:
        self._levels = {level.id: level for level in levels}
        self._seeds: dict[str, dict[int, int]] = {}

    def measure(self, kept: Kept) -> Measures | Unmeasured:
        """The measures of a repetition by today's definitions, or why there are none."""
        if kept.reason in UNJUDGED:
            return Unmeasured.UNJUDGED
        if kept.done is None:
            return Unmeasured.NO_TRACE
        level = self._levels.get(kept.level)
        if level is None:
            return Unmeasured.NO_LEVEL
        if level.kind.name != kept.kind:
            return Unmeasured.OTHER_KIND
        level = replace(level, tolerance=kept.tolerance)
        task = self._task(level, kept.target, kept.done)
        if isinstance(task, Unmeasured):
            return task
        measures = level.kind.judge(level, task, kept.done).verdict.measures
        return {name: _number(value) for name, value in measures.items()}

    def _task(self, level: Level, target: float, done: Performance) -> Task | Unmeasured:
        """What was asked: of the tasks of its level, the one with as many cues."""
        if level.id not in self._seeds:
            drawn = ((len(_drawn(level, target, seed).cues), seed) for seed in range(DRAWS))
            self._seeds[level.id] = dict(drawn)
        seeds = self._seeds[level.id]
        if len(seeds) > 1 and (len(done.cues) not in seeds or _is_on(done)):
            return Unmeasured.UNKNOWN_COUNT
        task = _drawn(level, target, seeds.get(len(done.cues), next(iter(seeds.values()))))
        if bool(task.cues) != bool(done.cues):
            # A pedal that did not wait for the cue: when that was due is not kept.
            return Unmeasured.UNJUDGED if task.cues else Unmeasured.OTHER_LENGTH
        return task if _has_room(task, done) else Unmeasured.OTHER_LENGTH


def _drawn(level: Level, target: float, seed: int) -> Task:
    return level.kind.task(level, target, np.random.default_rng(seed))


def _is_on(done: Performance) -> bool:
    """Whether the throttle was never let go: the repetition ended before all its cues, maybe."""
    return bool(done.trace.throttle[-1] >= OFF)


def _has_room(task: Task, done: Performance) -> bool:
    """Whether the trace holds all that is measured of a task."""
    first, last = int(done.trace.time[0]), int(done.trace.time[-1])
    if len(done.cues) > len(task.cues) or any(not first <= cue <= last for cue in done.cues):
        return False
    if task.moves:
        return True
    since = done.cues[0] / SECOND if done.cues else done.began / SECOND + task.wait
    return last + STEP >= (since + task.lasts) * SECOND


def _number(value: float | None) -> float | None:
    """A measure as the history keeps it, which has no place for what is not a number."""
    return None if value is None or math.isnan(value) else float(value)
