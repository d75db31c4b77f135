"""The hold: bring the brake to a target and keep it there in the dark."""

from __future__ import annotations

from dataclasses import asdict, fields

import numpy as np

from drills.kinds.base import Kind, Performance, Task
from drills.level import Level
from drills.measures.hold import Hold, measure_hold
from drills.score import Verdict, weigh
from drills.trace import Grid, nanoseconds

LEAD = 0.5
"""s of dark before the window: the foot needs about 0.15 s to notice that the aid is gone."""

LIMITED = ("constant_error", "variable_error", "total_error", "cv", "swing", "drift", "tremor")
"""Measures of which less is better, so that a level may limit them."""


def _task(level: Level, target: float, _: np.random.Generator) -> Task:
    return Task(target, level.approach_band, foreperiod=LEAD, window=level.duration)


def _judge(level: Level, task: Task, done: Performance) -> Verdict:
    grid = Grid.of(done.trace)
    opens = done.dark + nanoseconds(task.foreperiod)
    closes = opens + nanoseconds(task.window or 0.0)
    held = measure_hold(
        grid.brake[grid.index(opens) : grid.index(closes)], task.target, level.tolerance
    )
    return weigh(asdict(held), level.limits)


HOLD = Kind(
    name="hold",
    measures=tuple(field.name for field in fields(Hold)),
    limited=LIMITED,
    windowed=True,
    task=_task,
    judge=_judge,
)
