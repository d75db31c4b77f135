"""The hold: bring the brake to a target and keep it there in the dark."""

from __future__ import annotations

from dataclasses import asdict, fields

import numpy as np

from drills.coach import SMALL
from drills.deviation import Deviation, of_window
from drills.kinds.base import Kind, Prompt, brake_to
from drills.level import Key, Level
from drills.measures.hold import Hold, measure_hold
from drills.score import Verdict, weigh
from drills.task import Performance, Task
from drills.trace import SECOND, Grid, Pedal, nanoseconds

LEAD = 0.5
"""s of dark before the window: the foot needs about 0.15 s to notice that the aid is gone."""


def _task(level: Level, target: float, _: np.random.Generator) -> Task:
    return Task(
        target=target,
        start={Pedal.BRAKE: level.around(target)},
        wait=LEAD,
        lasts=level.own["duration"],
    )


def _judge(level: Level, task: Task, done: Performance) -> Verdict:
    grid = Grid.of(done.trace)
    opens = done.began + nanoseconds(task.wait)
    closes = opens + nanoseconds(task.lasts)
    held = measure_hold(
        grid.brake[grid.index(opens) : grid.index(closes)], task.target, level.tolerance
    )
    return weigh(asdict(held), level.limits)


def _prompt(_: Level, task: Task) -> Prompt:
    return brake_to(
        task, "Then it goes dark: keep the brake where it is until the light comes back."
    )


def _tell(verdict: Verdict) -> str:
    measures = verdict.measures
    bias, spread = measures["constant_error"] or 0.0, measures["variable_error"] or 0.0
    drift = measures["drift"] or 0.0
    side = "heavy" if bias > 0 else "light"
    where = f"{abs(bias):.1f} % {side}" if abs(bias) >= SMALL / 2 else "on the target"
    moved = f"The brake sat {where} and wandered {spread:.1f} % about itself"
    if abs(drift) >= SMALL / 4:
        way = "pressing harder" if drift > 0 else "easing off"
        return f"{moved}; it kept {way}, {abs(drift):.1f} % a second."
    return f"{moved}."


def _deviation(_: Level, task: Task, done: Performance, __: Verdict) -> Deviation | None:
    opens = done.began / SECOND + task.wait
    return of_window(Grid.of(done.trace), opens, opens + task.lasts, task.target)


HOLD = Kind(
    name="hold",
    pedals=(Pedal.BRAKE,),
    keys=(Key("duration", 1, 60),),
    measures=tuple(field.name for field in fields(Hold)),
    shown=("constant_error", "variable_error", "total_error", "drift"),
    task=_task,
    judge=_judge,
    prompt=_prompt,
    tell=_tell,
    deviation=_deviation,
)
