"""The drill kind "clutch": clutch down, a blip under it, clutch up, with the brake held."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, replace

import numpy as np

from drills.coach import Prompt, Said, brake_to
from drills.deviation import Deviation
from drills.kinds import shift_words
from drills.kinds.asked_size import SIZE, to_size
from drills.kinds.asked_words import ANSWER
from drills.kinds.blip import BlipDrill
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
from drills.kinds.clean_words import clean
from drills.kinds.clutch_words import DOWN_LATE, IN_TIME, SHORTCOMINGS, UP_LATE
from drills.kinds.shifting import limits_of, shift_measures, shift_out_of_order, with_shifts
from drills.level import Level
from drills.measures.base import base_at_cue
from drills.measures.blip import ANTICIPATION, ON
from drills.measures.catalogue import CATALOGUE
from drills.measures.clutch import DOWN, UP, ClutchWork, in_order, measure_clutch, tie
from drills.measures.disturbance import OF_A_RUN, Run
from drills.measures.sampling import report_interval
from drills.measures.shift import SHIFT
from drills.remark import Remark
from drills.score import WEIGHED, Judged, Reason, Verdict, anticipation, weigh, within
from drills.task import AT_REST, Move, Performance, Task
from drills.trace import SECOND, STEP, Grid, Pedal

WAITED = 2.0
"""Longest wait for each movement of a shift, in s: long enough to record one out of order."""
USUAL_DOWN = 0.35
"""Usual time from the cue until the clutch is down, in s (common practice)."""
USUAL_REST = 0.2
"""Usual time of each part of a shift after the clutch is down, in s (common practice)."""
OF_THE_CLUTCH = ("clutch_down", "clutch_up", "under_clutch")
"""Names of the measures of the clutch in a shift."""


class ClutchDrill(BlipDrill):
    """The kind of drill that asks for one blip under the clutch while the brake is held."""

    name = "clutch"
    title = "Clutch and blip"
    pedals = (Pedal.BRAKE, Pedal.THROTTLE, Pedal.CLUTCH)
    measures = (*OF_A_RUN, *OF_THE_BLIP, *OF_THE_CLUTCH, SHIFT)
    reveal_measures = ("dip", "clutch_down", "clutch_up", "reaction", SHIFT)
    answering_pedal = "clutch or the throttle"

    def task(self, level: Level, target: float, rng: np.random.Generator) -> Task:
        """Task of a shift; it ends as the clutch comes up, the order is judged from the trace."""
        throttle, off = blip_moves(0, WAITED)
        return Task(
            target=target,
            start={
                Pedal.BRAKE: level.around(target),
                Pedal.THROTTLE: AT_REST,
                Pedal.CLUTCH: AT_REST,
            },
            wait=level.foreperiod.draw(rng),
            cues=(0.0,),
            moves=(
                Move(Pedal.CLUTCH, DOWN, up=True, within=WAITED, cue=0),
                replace(throttle, cue=None),
                off,
                Move(Pedal.CLUTCH, UP, up=False, within=WAITED),
            ),
            size=level.own[SIZE],
            tail=TAIL,
            early={Pedal.THROTTLE: ON, Pedal.CLUTCH: UP},
        )

    def judge(self, level: Level, task: Task, done: Performance) -> Judged:
        grid = Grid.of(done.trace)
        if grid.clutch is None:
            return Judged(task, done, weigh({}, level.limits, Reason.NO_CLUTCH), grid)
        run = find_run(level, grid, done.cues[0], base_at_cue(grid, done.cues[0]), 1)
        if isinstance(run, Verdict):
            return Judged(task, done, run, grid)
        pulse, cue = run.blips[0][0], grid.index(done.cues[0])
        work = measure_clutch(grid.clutch, cue, pulse, grid.late(done.cues[0]))
        reaction = (grid.start + pulse.first * STEP - done.cues[0]) / SECOND
        soonest = min(reaction, reaction if work.clutch_down is None else work.clutch_down)
        if soonest < ANTICIPATION:
            return Judged(task, done, anticipation(soonest), grid)
        measures = measures_of(run, reaction, task.target) | {
            name: asdict(work)[name] for name in OF_THE_CLUTCH
        }
        measures |= shift_measures(grid, [pulse], by_place=False)
        together = tie(report_interval(done.trace, [blip for blip, _ in run.blips]))
        shifted = shift_out_of_order(done.trace, grid, [pulse])
        shortcoming = _shortcoming(level, grid, run, measures, work, together, shifted)
        verdict = put_dip_first(weigh(measures, limits_of(level, grid), shortcoming), run)
        return Judged(task, done, verdict, grid, run)

    def prompt(self, level: Level, task: Task) -> Prompt:
        return brake_to(task, f"Dark, cue: clutch down, one blip{to_size(level)}, clutch up")

    def comment(self, level: Level, verdict: Verdict) -> Remark:
        name, reason = verdict.worst, verdict.reason
        if reason in SHORTCOMINGS:
            return Remark(reason.value, *SHORTCOMINGS[reason])
        if reason in WEIGHED and name in OF_THE_CLUTCH:
            if verdict.clean:
                return clean(name, IN_TIME[name])
            return Remark(name, *(DOWN_LATE if name == "clutch_down" else _slow(verdict)))
        return shift_words.comment(verdict) or super().comment(level, verdict)

    def note(self, verdict: Verdict) -> str:
        return shift_words.note(verdict)

    def picture(self, level: Level, judged: Judged) -> Deviation | None:
        """Picture of the blip in a shift, with throttle and clutch beneath the brake."""
        figure, grid, cues = self.headline(level, judged.verdict), judged.grid, judged.done.cues
        picture = with_shifts(super().picture(level, judged), judged, figure)
        if picture is None or not cues or grid.clutch is None:
            return picture
        zero = cues[0] / SECOND - picture.cues[0]
        first = grid.index(round((zero + float(picture.time[0])) * SECOND))
        return replace(picture, clutch=grid.clutch[first : first + picture.time.size].copy())

    def missed(self, level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
        down, reaction = (verdict.measures.get(name) for name in ("clutch_down", "reaction"))
        written = CATALOGUE["clutch_down"].written
        return (
            {
                Reason.NO_CLUTCH: ("Clutch", "not down", "down before the blip was asked"),
                Reason.BLIP_FIRST: (
                    "Clutch down",
                    written(down),
                    f"until the clutch was down, the blip at {written(reaction)}",
                ),
                Reason.CLUTCH_FIRST: (
                    "Clutch up",
                    written(verdict.measures.get("clutch_up")),
                    "until the clutch was up, the blip not over",
                ),
                Reason.NOT_SCORED: ("Brake", "too little before", "held before the blip was asked"),
                Reason.CLUTCH_STAYED: ("Clutch", "not up", "up after the blip was asked"),
            }.get(verdict.reason)
            or shift_words.missed(verdict)
            or super().missed(level, verdict)
        )


def _shortcoming(
    level: Level,
    grid: Grid,
    run: Run,
    measures: Mapping[str, float | None],
    work: ClutchWork,
    together: float,
    shifted: Reason | None,
) -> Reason | None:
    """The most telling thing that a shift asked and was not done; None where all was.

    Movements less than `together` s apart count as in order; `shifted` is what the shift was out
    of order by.
    """
    late, early = work.down_late, work.up_early
    return first_that_holds(
        {
            Reason.LET_GO: is_brake_let_go(grid, run),
            Reason.OFF_TARGET: not within(measures["base_error"], level.approach_band),
            Reason.EXTRA_BLIP: len(run.blips) > 1,
            Reason.NO_CLUTCH: late is None,
            Reason.BLIP_FIRST: late is not None and not in_order(late, together),
            Reason.CLUTCH_STAYED: early is None,
            Reason.CLUTCH_FIRST: early is not None and not in_order(early, together),
            **({} if shifted is None else {shifted: True}),
            Reason.LATE: not within(measures["reaction"], ANSWER),
            **shape_faults(level, [run.blips[0][0]]),
        }
    )


def _slow(verdict: Verdict) -> Said:
    """Words on a slow shift: its part that took longest over its usual time."""
    down, up, reaction = (verdict.amount(name) for name in ("clutch_down", "clutch_up", "reaction"))
    pulse = verdict.amount("end") - verdict.amount("onset")
    over = {
        "down": down - USUAL_DOWN,
        "blip": reaction - down - USUAL_REST,
        "throttle": pulse - USUAL_REST,
        "up": up - reaction - pulse - USUAL_REST,
    }
    return UP_LATE[max(over, key=lambda part: over[part])]
