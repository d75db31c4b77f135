"""The blip: hold the brake, and on the cue blip the throttle once without disturbing it."""

from __future__ import annotations

from dataclasses import asdict

import numpy as np

from drills.coach import disturbance
from drills.deviation import Deviation, of_blip
from drills.kinds.base import AT_REST, Kind, Prompt, brake_to
from drills.level import Level
from drills.measures.blip import ANTICIPATION, OFF, ON, find_blips
from drills.measures.disturbance import OF_A_RUN, Run, Unscored, measure_run
from drills.score import Reason, Verdict, weigh
from drills.task import Move, Performance, Task
from drills.trace import SECOND, STEP, Grid, Pedal

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
ANSWER = 2.0
"""s from the cue within which throttle must come on."""
PULSE = 1.0
"""s a blip may last before it is something else."""
TAIL = 1.2
"""s recorded after the throttle is off: the second its window may take, and some to spare."""


def _task(level: Level, target: float, rng: np.random.Generator) -> Task:
    return Task(
        target=target,
        start={Pedal.BRAKE: level.around(target), Pedal.THROTTLE: AT_REST},
        wait=level.foreperiod.draw(rng),
        cues=(0.0,),
        moves=(
            Move(Pedal.THROTTLE, ON, up=True, within=ANSWER, cue=0),
            Move(Pedal.THROTTLE, OFF, up=False, within=PULSE),
        ),
        tail=TAIL,
        early={Pedal.THROTTLE: ON},
    )


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
    blip, disturbed = run.blips[0]
    single = {**asdict(disturbed), **asdict(blip), "reaction": reaction}
    whole = {name: getattr(run, name) for name in OF_A_RUN}
    return whole | {name: single[name] for name in OF_THE_BLIP}


def _prompt(_: Level, task: Task) -> Prompt:
    return brake_to(task, "Then it goes dark: at the orange flash and the click, blip once.")


def _tell(verdict: Verdict) -> str:
    if verdict.reason is Reason.NO_BLIP:
        return "No blip came in time: one short stab of the throttle while the brake stays on."
    if verdict.reason is Reason.NOT_SCORED:
        return "There was too little held brake before the blip to measure it against."
    told = disturbance(verdict.measures)
    if verdict.reason is Reason.EXTRA_BLIP:
        return f"One blip was asked and more came. {told}"
    return told


def _deviation(_: Level, __: Task, done: Performance, verdict: Verdict) -> Deviation | None:
    measures = verdict.measures
    base, onset, end = measures.get("base"), measures.get("onset"), measures.get("end")
    if base is None or onset is None or end is None:
        return None
    return of_blip(Grid.of(done.trace), base, onset, end)


BLIP = Kind(
    name="blip",
    pedals=(Pedal.BRAKE, Pedal.THROTTLE),
    keys=(),
    measures=OF_A_RUN + OF_THE_BLIP,
    shown=("dip", "surge", "settle", "reaction"),
    task=_task,
    judge=_judge,
    prompt=_prompt,
    tell=_tell,
    deviation=_deviation,
)
