"""The drill kind "blip": hold the brake, and on the cue blip once without disturbing the brake."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from drills.coach import Prompt, brake_to
from drills.deviation import Deviation
from drills.fault import Fault
from drills.kinds import cause
from drills.kinds.asked_size import BLIP_KEYS, SIZE, BlippingKind, to_size
from drills.kinds.asked_words import ANSWER, missed, not_as_asked
from drills.kinds.blip_picture import (
    against_target,
    bounds,
    decided,
    is_of_target,
    picture_about_cue,
    reach,
    run_with_picture,
)
from drills.kinds.blip_words import fault, lean_of
from drills.kinds.blipping import (
    OF_THE_BLIP,
    TAIL,
    blip_moves,
    find_run,
    first_that_holds,
    is_brake_let_go,
    measures_of,
    put_dip_first,
    shape_faults,
)
from drills.kinds.clean_words import praise
from drills.level import Level
from drills.level_key import Key
from drills.measures.base import base_at_cue, base_before
from drills.measures.blip import ANTICIPATION, ON
from drills.measures.disturbance import OF_A_RUN, Run
from drills.remark import Remark
from drills.score import WEIGHED, Judged, Reason, Verdict, anticipation, weigh, within
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
    is_diagnosed = True

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
        return brake_to(task, f"Dark, then the cue: one blip{to_size(level)}")

    def comment(self, level: Level, verdict: Verdict) -> Remark:
        if verdict.reason not in WEIGHED:
            return not_as_asked(verdict)
        return praise(verdict, level.limits) if verdict.clean else fault(verdict)

    def picture(self, level: Level, judged: Judged) -> Deviation | None:
        pictured = run_with_picture(judged)
        if pictured is None:
            return picture_about_cue(level, judged)
        run, picture = pictured
        verdict, given = judged.verdict, judged.done.cues[0]
        figure = self.headline(level, verdict)
        if is_of_target(verdict):
            held = base_before(run.blips[0][0].first, base_at_cue(judged.grid, given))
            return against_target(level, judged, held, figure)
        cue = given / SECOND - run.blips[0][0].onset
        picture = replace(picture, cues=(cue,), reach=reach(level), bounds=bounds(level, run))
        return decided(level, verdict, run, picture, figure)

    def missed(self, level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
        return missed(level, verdict)

    def lean(self, level: Level, verdict: Verdict) -> float | None:
        return lean_of(verdict)

    def fault(self, verdict: Verdict) -> Fault | None:
        return cause.of_blip(verdict)


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
