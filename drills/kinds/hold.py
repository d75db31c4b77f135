"""The drill kind "hold": bring the brake to a target and keep it there in the dark."""

from __future__ import annotations

import math
from dataclasses import asdict, fields, replace

import numpy as np

from drills.coach import Prompt, brake_to
from drills.deviation import Average, Bound, Deviation, WorstPlace, of_window, reach_of
from drills.headline import allowed
from drills.kinds import hold_words
from drills.level import Kind, Level
from drills.level_key import Key
from drills.measures.disturbance import RELEASED
from drills.measures.hold import Hold, measure_hold
from drills.remark import Headline, Remark
from drills.score import WEIGHED, Judged, Reason, Verdict, weigh
from drills.task import Performance, Task
from drills.trace import SECOND, Grid, Pedal, nanoseconds

DARK_BEFORE = 0.5
"""Dark before the measured window of a hold, in s: a lost aid is noticed after about 0.15 s."""


class HoldDrill(Kind):
    """The kind of drill that asks for a brake held still on a target."""

    name = "hold"
    title = "Hold still"
    pedals = (Pedal.BRAKE,)
    keys = (Key("duration", 1, 60, about="s of hold that are measured"),)
    measures = tuple(field.name for field in fields(Hold))
    reveal_measures = ("constant_error", "variable_error", "total_error", "drift")
    learning_measure = "total_error"

    def task(self, level: Level, target: float, rng: np.random.Generator) -> Task:
        return Task(
            target=target,
            start={Pedal.BRAKE: level.around(target)},
            wait=DARK_BEFORE,
            lasts=level.own["duration"],
        )

    def judge(self, level: Level, task: Task, done: Performance) -> Judged:
        grid = Grid.of(done.trace)
        opens = done.began + nanoseconds(task.wait)
        closes = opens + nanoseconds(task.lasts)
        brake = grid.brake[grid.index(opens) : grid.index(closes)]
        held = measure_hold(brake, task.target, level.tolerance)
        let_go = Reason.LET_GO if brake.min() < RELEASED else None
        return Judged(task, done, weigh(asdict(held), level.limits, let_go), grid, held)

    def prompt(self, level: Level, task: Task) -> Prompt:
        return brake_to(task, "Dark, then hold still until the light returns")

    def comment(self, level: Level, verdict: Verdict) -> Remark:
        return hold_words.comment(level, verdict)

    def picture(self, level: Level, judged: Judged) -> Deviation | None:
        """Picture of the brake against its target, with the average or the swing that decided."""
        task, verdict = judged.task, judged.verdict
        opens = judged.done.began / SECOND + task.wait
        picture = of_window(judged.grid, opens, opens + task.lasts, task.target)
        if picture is None:
            return None
        limits = [level.limits[name] for name in _IN_POINTS if name in level.limits]
        span, reach = (0.0, task.lasts), reach_of([*limits, level.tolerance])
        picture = replace(picture, span=span, reach=reach)
        if verdict.void:
            return picture
        bounds = tuple(
            Bound(f"±{most:g} allowed on average", -most, most, span) for most in limits[:1]
        )
        figure = self.headline(level, verdict)
        return replace(
            picture,
            bounds=bounds,
            average=_average(level, verdict, figure, picture),
            worst=_widest(picture, figure, verdict),
        )

    def missed(self, level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
        let_go = verdict.reason is Reason.LET_GO
        return ("Brake", "let go", "on all through was asked") if let_go else None

    def lean(self, level: Level, verdict: Verdict) -> float | None:
        return hold_words.lean(level, verdict)


def _average(
    level: Level, verdict: Verdict, figure: Headline | None, picture: Deviation
) -> Average | None:
    """Average or drift that decided a hold; None where its swing or something else did.

    It is drawn on the side of the brake's bias, or where it moved about its middle, on the one
    where it went farthest.
    """
    name = verdict.worst
    if verdict.reason not in WEIGHED or figure is None:
        return None
    limit, bias = level.limits[name], verdict.amount("constant_error")
    if name == "drift":
        return _drift(verdict.amount(name), limit, figure, picture)
    if name not in _AVERAGES:
        return None
    middle = bias if name == "variable_error" else 0.0
    off = picture.deviation - middle
    one_sided = hold_words.is_off_centre(verdict)
    leans = hold_words.lean(level, verdict) or off[int(np.argmax(np.abs(off)))]
    side = math.copysign(1.0, bias if one_sided else leans)
    size, most = side * abs(verdict.amount(name)), side * limit
    return Average(
        line=(size, size),
        allowed=(most, most),
        during=(picture.span,),
        label=figure.value,
        limit=allowed(figure),
        sides=(int(side),) if one_sided else (-1, 1),
        middle=middle,
        zero=_ITS_AVERAGE,
    )


def _drift(slope: float, limit: float, figure: Headline, picture: Deviation) -> Average:
    """Straight line through a brake that drifted, beside the steepest that is allowed."""
    lasts = picture.span[1] - picture.span[0]
    begins = float(picture.deviation.mean()) - slope * lasts / 2
    most = math.copysign(limit, slope)
    return Average(
        (begins, begins + slope * lasts),
        (begins, begins + most * lasts),
        (picture.span,),
        figure.value,
        allowed(figure),
    )


def _widest(picture: Deviation, figure: Headline | None, verdict: Verdict) -> WorstPlace | None:
    """The place farthest from the target where the swing decided; None where it did not."""
    if verdict.reason not in WEIGHED or verdict.worst != "swing" or figure is None:
        return None
    at = int(np.argmax(np.abs(picture.deviation)))
    return WorstPlace(float(picture.time[at]), float(picture.deviation[at]), figure.value)


_ITS_AVERAGE = "average"
"""Label of the average of a brake, where it is drawn against that."""
_IN_POINTS = ("total_error", "constant_error", "variable_error", "swing")
"""Measures of a hold whose limit sets the scale of its picture, the deciding one first."""
_AVERAGES = ("total_error", "constant_error", "variable_error")
"""Measures of a hold that are averages over all of it, in points."""
