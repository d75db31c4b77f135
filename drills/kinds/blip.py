"""The blip: hold the brake, and on the cue blip the throttle once without disturbing it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from drills.coach import disturbance, leaning
from drills.deviation import Deviation
from drills.kinds.base import AT_REST, Kind, Prompt, brake_to
from drills.kinds.blipping import (
    ANSWER,
    ASKED,
    OF_THE_BLIP,
    TAIL,
    about_the_cue,
    blip_moves,
    bounds,
    came_off,
    first_of,
    flat,
    is_let_go,
    judged_run,
    missed,
    misshapen,
    pictured_run,
    reach,
    told,
)
from drills.level import Level
from drills.measures.blip import ANTICIPATION, ON
from drills.measures.disturbance import OF_A_RUN, Run
from drills.score import Reason, Verdict, kept, weigh
from drills.task import Performance, Task
from drills.trace import SECOND, STEP, Grid, Pedal


def _task(level: Level, target: float, rng: np.random.Generator) -> Task:
    return Task(
        target=target,
        start={Pedal.BRAKE: level.around(target), Pedal.THROTTLE: AT_REST},
        wait=level.foreperiod.draw(rng),
        cues=(0.0,),
        moves=blip_moves(0),
        tail=TAIL,
        early={Pedal.THROTTLE: ON},
    )


def _judge(level: Level, task: Task, done: Performance) -> Verdict:
    grid = Grid.of(done.trace)
    run = judged_run(level, grid, done.cues[0])
    if isinstance(run, Verdict):
        return run
    onset = grid.start + run.blips[0][0].first * STEP
    reaction = (onset - done.cues[0]) / SECOND
    if reaction < ANTICIPATION:
        return Verdict(Reason.ANTICIPATION, measures={"reaction": reaction})
    measures = flat(run, reaction, task.target)
    verdict = weigh(measures, level.limits, _shortcoming(level, grid, run, measures))
    return came_off(verdict, run)


def _shortcoming(
    level: Level, grid: Grid, run: Run, measures: Mapping[str, float | None]
) -> Reason | None:
    """What was asked and not done, the most telling first."""
    return first_of(
        {
            Reason.LET_GO: is_let_go(grid, run),
            Reason.OFF_TARGET: not kept(measures["base_error"], level.approach_band),
            Reason.EXTRA_BLIP: len(run.blips) > 1,
            Reason.LATE: not kept(measures["reaction"], ANSWER),
            **misshapen(level, [run.blips[0][0]]),
        }
    )


def _prompt(_: Level, task: Task) -> Prompt:
    return brake_to(task, "Then it goes dark: at the cue, blip once.")


def _tell(level: Level, verdict: Verdict) -> str:
    if verdict.reason in (Reason.CLEAN, Reason.OVER_LIMIT):
        return disturbance(verdict, level.limits)
    return told(verdict)


def _deviation(level: Level, task: Task, done: Performance, verdict: Verdict) -> Deviation | None:
    grid = Grid.of(done.trace)
    pictured = pictured_run(grid, verdict)
    if pictured is None:
        return about_the_cue(level, task, done, grid)
    run, picture = pictured
    cue = done.cues[0] / SECOND - run.blips[0][0].onset
    return replace(picture, cues=(cue,), reach=reach(level), bounds=bounds(level, run))


BLIP = Kind(
    name="blip",
    pedals=(Pedal.BRAKE, Pedal.THROTTLE),
    keys=ASKED,
    measures=OF_A_RUN + OF_THE_BLIP,
    shown=("dip", "surge", "settle", "reaction"),
    task=_task,
    judge=_judge,
    prompt=_prompt,
    tell=_tell,
    deviation=_deviation,
    called="One blip",
    guessed="dip",
    learned="dip",
    missed=missed,
    lean=leaning,
)
