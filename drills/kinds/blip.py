"""The blip: hold the brake, and on the cue blip the throttle once without disturbing it."""

from __future__ import annotations

from dataclasses import asdict

import numpy as np

from drills.kinds.base import Kind, Performance, Task
from drills.level import Level
from drills.measures.blip import ANTICIPATION, find_blips
from drills.measures.disturbance import OF_A_RUN, Run, Unscored, measure_run
from drills.score import Reason, Verdict, weigh
from drills.trace import SECOND, STEP, Grid

OF_THE_BLIP = (
    "onset",
    "end",
    "peak",
    "width",
    "rise",
    "fall",
    "reaction",
    "dip_at",
    "coupling",
    "lag",
)
"""Measures of the one blip; onset and end are s from the start of the trace."""
LIMITED = (
    "dip",
    "rebound",
    "surge",
    "swing",
    "settle",
    "shortfall",
    "excess",
    "extra_distance",
    "mean_dip",
    "width",
    "rise",
    "fall",
    "reaction",
    "coupling",
)
"""Measures of which less is better, so that a level may limit them."""


def _task(level: Level, target: float, rng: np.random.Generator) -> Task:
    return Task(target, level.approach_band, foreperiod=level.foreperiod.draw(rng))


def _judge(level: Level, _: Task, done: Performance) -> Verdict:
    grid = Grid.of(done.trace)
    found = find_blips(grid)
    if not found:
        return weigh({}, level.limits, Reason.NO_BLIP)
    run = measure_run(grid, found, level.band)
    if isinstance(run, Unscored):
        return weigh({}, level.limits, Reason.NOT_SCORED)
    onset = grid.start + run.blips[0][0].first * STEP
    measures = _flat(run, (onset - done.cues[0]) / SECOND)
    reaction = measures["reaction"]
    if reaction is not None and reaction < ANTICIPATION:
        return Verdict(Reason.ANTICIPATION)
    extra = Reason.EXTRA_BLIP if len(run.blips) > 1 else None
    return weigh(measures, level.limits, extra)


def _flat(run: Run, reaction: float) -> dict[str, float | None]:
    """All measures by name: those of the run, then those of its first blip."""
    blip, disturbance = run.blips[0]
    single = {**asdict(disturbance), **asdict(blip), "reaction": reaction}
    whole = {name: getattr(run, name) for name in OF_A_RUN}
    return whole | {name: single[name] for name in OF_THE_BLIP}


BLIP = Kind(
    name="blip",
    measures=OF_A_RUN + OF_THE_BLIP,
    limited=LIMITED,
    windowed=False,
    task=_task,
    judge=_judge,
)
