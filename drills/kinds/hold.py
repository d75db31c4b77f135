"""The drill kind "hold": bring the brake to a target and keep it there in the dark."""

from __future__ import annotations

import math
from dataclasses import asdict, fields, replace

import numpy as np

from drills.coach import SMALL, Prompt, brake_to
from drills.deviation import Bound, Deviation, of_window, reach_of
from drills.digits import apart
from drills.level import Key, Kind, Level
from drills.measures.disturbance import RELEASED
from drills.measures.hold import Hold, measure_hold
from drills.score import Judged, Reason, Verdict, weigh
from drills.task import Performance, Task
from drills.trace import SECOND, Grid, Pedal, nanoseconds

DRIFT_SHARE = 0.75
"""Least share of the brake's variance that a drift must account for to be mentioned."""
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
        return brake_to(
            task, "Then it goes dark: keep the brake where it is until the light comes back."
        )

    def comment(self, level: Level, verdict: Verdict) -> str:
        if verdict.reason is Reason.LET_GO:
            return (
                "The brake was let go in the dark: keep the weight on until the light comes back."
            )
        if verdict.clean:
            return _praise(verdict)
        name, measures = verdict.worst, verdict.measures
        moved = _drift(verdict, level.own["duration"])
        if moved and name not in _STEADY:
            way = "pressing harder" if moved > 0 else "easing off"
            return (
                f"The foot kept {way}, {abs(moved):.0f} points in all: "
                "take a breath, then feel for the weight, not the place."
            )
        if _is_off_centre(verdict):
            side = "heavier" if verdict.amount("constant_error") > 0 else "lighter"
            return (
                f"The brake sat {side} than the target: remember its weight from before the dark."
            )
        if name == "tremor":
            return "The foot trembled: press with the leg at ease."
        if name == "swing":
            points = apart(measures["swing"] or 0.0, level.limits[name])[0]
            return f"The brake moved {points} points from least to most: let the leg rest on it."
        return "The brake wandered about: let the weight of the leg hold it, not the ankle."

    def picture(self, level: Level, judged: Judged) -> Deviation | None:
        task, verdict = judged.task, judged.verdict
        opens = judged.done.began / SECOND + task.wait
        picture = of_window(judged.grid, opens, opens + task.lasts, task.target)
        if picture is None:
            return None
        limits = [level.limits[name] for name in _IN_POINTS if name in level.limits]
        span, reach = (0.0, task.lasts), reach_of([*limits, level.tolerance])
        if verdict.void or not limits:
            return replace(picture, span=span, reach=reach)
        decides = limits[0]
        bound = Bound(f"±{decides:g} decides", -decides, decides, span)
        return replace(picture, span=span, reach=reach, bounds=(bound,))

    def missed(self, level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
        let_go = verdict.reason is Reason.LET_GO
        return ("Brake", "let go", "to keep it on was asked") if let_go else None

    def lean(self, level: Level, verdict: Verdict) -> float | None:
        """Bubble after a hold: the side to which the brake drifted or on which it stayed; None
        where it was on both."""
        if verdict.reason is Reason.LET_GO:
            return -1.0
        if verdict.clean or not verdict.measures:
            return 0.0 if verdict.clean else None
        moved = _drift(verdict, level.own["duration"])
        if moved and verdict.worst not in _STEADY:
            return math.copysign(1.0, moved)
        return (
            math.copysign(1.0, verdict.amount("constant_error"))
            if _is_off_centre(verdict)
            else None
        )


def _praise(verdict: Verdict) -> str:
    bias, spread = abs(verdict.amount("constant_error")), verdict.amount("variable_error")
    still, centred = spread < SMALL / 2, bias < SMALL / 2
    if still and centred:
        return "Still, and right on the target."
    if still:
        return "Still: the brake hardly moved from where you put it."
    if centred:
        return "On the target: the brake stayed about it all through."
    return "Clean: the brake stayed close enough to the target all through."


def _drift(verdict: Verdict, seconds: float) -> float:
    """Drift of the brake over a hold, in points; 0 where most of its movement was something else.

    A line of slope d over T s has the variance d² T² / 12.
    """
    moved = verdict.amount("drift") * seconds
    variance = verdict.amount("variable_error") ** 2
    real = abs(moved) > SMALL and moved**2 / 12 >= DRIFT_SHARE * variance
    return moved if real else 0.0


def _is_off_centre(verdict: Verdict) -> bool:
    """Whether a failed hold failed by where the brake stayed, not by how it moved."""
    bias, spread = verdict.amount("constant_error"), verdict.amount("variable_error")
    worst = verdict.worst
    return worst == "constant_error" or (worst == "total_error" and abs(bias) >= spread)


_IN_POINTS = ("total_error", "constant_error", "variable_error", "swing")
"""Measures of a hold whose limit is drawn as a band about the target, the deciding one first."""
_STEADY = ("constant_error", "tremor")
"""Names of the measures of a hold that a drift does not change."""
