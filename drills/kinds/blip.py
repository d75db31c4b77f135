"""The drill kind "blip": hold the brake, and on the cue blip once without disturbing the brake."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from drills.coach import Prompt, brake_to, disturbance, lean_of
from drills.deviation import Deviation
from drills.kinds.asked_size import BLIP_KEYS, SIZE, BlippingKind, to_size
from drills.kinds.blipping import (
    ANSWER,
    OF_THE_BLIP,
    TAIL,
    blip_moves,
    bounds,
    find_run,
    first_that_holds,
    is_brake_let_go,
    measures_of,
    missed,
    not_as_asked,
    picture_about_cue,
    put_dip_first,
    reach,
    run_with_picture,
    shape_faults,
)
from drills.level import Key, Level
from drills.measures.base import base_at_cue
from drills.measures.blip import ANTICIPATION, ON
from drills.measures.disturbance import OF_A_RUN, Run
from drills.score import Judged, Reason, Verdict, anticipation, weigh, within
from drills.task import AT_REST, Performance, Task
from drills.trace import SECOND, STEP, Grid, Pedal


class BlipDrill(BlippingKind):
    """The kind of drill that asks for one blip while the brake is held."""

    name = "blip"
    title = "One blip"
    pedals: tuple[Pedal, ...] = (Pedal.BRAKE, Pedal.THROTTLE)
    keys: tuple[Key, ...] = BLIP_KEYS
    measures: tuple[str, ...] = OF_A_RUN + OF_THE_BLIP
    reveal_measures: tuple[str, ...] = ("dip", "surge", "settle", "reaction")
    guess_measure = "dip"
    learning_measure = "dip"

    def task(self, level: Level, target: float, rng: np.random.Generator) -> Task:
        return Task(
            target=target,
            start={Pedal.BRAKE: level.around(target), Pedal.THROTTLE: AT_REST},
            wait=level.foreperiod.draw(rng),
            cues=(0.0,),
            moves=blip_moves(0),
            size=level.own[SIZE],
            tail=TAIL,
            early={Pedal.THROTTLE: ON},
        )

    def judge(self, level: Level, task: Task, done: Performance) -> Judged:
        grid = Grid.of(done.trace)
        run = find_run(level, grid, done.cues[0], base_at_cue(grid, done.cues[0]), 1)
        if isinstance(run, Verdict):
            return Judged(task, done, run, grid)
        onset = grid.start + run.blips[0][0].first * STEP
        reaction = (onset - done.cues[0]) / SECOND
        if reaction < ANTICIPATION:
            return Judged(task, done, anticipation(reaction), grid)
        measures = measures_of(run, reaction, task.target)
        verdict = weigh(measures, level.limits, _shortcoming(level, grid, run, measures))
        return Judged(task, done, put_dip_first(verdict, run), grid, run)

    def prompt(self, level: Level, task: Task) -> Prompt:
        size = to_size(level)
        asked = f"one blip{size}" if size else "blip once"
        return brake_to(task, f"Then it goes dark: at the cue, {asked}.")

    def comment(self, level: Level, verdict: Verdict) -> str:
        if verdict.reason in (Reason.CLEAN, Reason.OVER_LIMIT):
            return disturbance(verdict, level.limits)
        return not_as_asked(verdict)

    def picture(self, level: Level, judged: Judged) -> Deviation | None:
        pictured = run_with_picture(judged)
        if pictured is None:
            return picture_about_cue(level, judged)
        run, picture = pictured
        cue = judged.done.cues[0] / SECOND - run.blips[0][0].onset
        return replace(picture, cues=(cue,), reach=reach(level), bounds=bounds(level, run))

    def missed(self, level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
        return missed(level, verdict)

    def lean(self, level: Level, verdict: Verdict) -> float | None:
        return lean_of(verdict)


def _shortcoming(
    level: Level, grid: Grid, run: Run, measures: Mapping[str, float | None]
) -> Reason | None:
    """The most telling thing that a repetition asked and was not done; None where all was."""
    return first_that_holds(
        {
            Reason.LET_GO: is_brake_let_go(grid, run),
            Reason.OFF_TARGET: not within(measures["base_error"], level.approach_band),
            Reason.EXTRA_BLIP: len(run.blips) > 1,
            Reason.LATE: not within(measures["reaction"], ANSWER),
            **shape_faults(level, [run.blips[0][0]]),
        }
    )
