"""The drill kind "squeeze": on a cue, press from rest to a target at once, and stay there."""

from __future__ import annotations

from dataclasses import asdict, fields, replace

import numpy as np

from drills.coach import LITTLE, Prompt
from drills.deviation import Bound, Deviation, cut, reach_of
from drills.digits import apart
from drills.level import Key, Kind, Level
from drills.measures.blip import ANTICIPATION, OFF
from drills.measures.disturbance import STAY_LEAST
from drills.measures.step import Step, measure_step
from drills.score import Judged, Reason, Verdict, anticipation, weigh
from drills.task import AT_REST, Performance, Task
from drills.trace import SECOND, Grid, Pedal, nanoseconds

REACHED = 0.1
"""Share of the target at which a squeeze counts as begun."""
REST = 200
"""Grid points at the end of a squeeze's window that tell where the brake came to rest: 0.2 s."""
AT_ONCE = 0.5
"""Longest time in s from 90 % of the target to a steady brake for praise as "straight"."""
BEFORE = 0.2
"""Time before the cue that the picture of a squeeze shows, in s."""


class SqueezeDrill(Kind):
    """The kind of drill that asks for one squeeze of the brake on a cue."""

    name = "squeeze"
    title = "One squeeze"
    pedals = (Pedal.BRAKE,)
    keys = (Key("duration", 1.0, 5.0, 1.8, about="s from the cue that are measured"),)
    measures = (*(field.name for field in fields(Step)), "offset")
    reveal_measures = ("overshoot", "settle", "offset", "reaction")
    learning_measure = "settle"
    answering_pedal = "brake"

    def task(self, level: Level, target: float, rng: np.random.Generator) -> Task:
        return Task(
            target=target,
            start={Pedal.BRAKE: AT_REST},
            wait=level.foreperiod.draw(rng),
            cues=(0.0,),
            lasts=level.own["duration"],
            early={Pedal.BRAKE: max(OFF, REACHED * target)},
            dark=False,
        )

    def judge(self, level: Level, task: Task, done: Performance) -> Judged:
        grid, cue = Grid.of(done.trace), done.cues[0]
        window = grid.brake[grid.index(cue) : grid.index(cue + nanoseconds(task.lasts))]
        step = measure_step(window, task.target, level.band, grid.late(cue))
        if step.reaction is not None and step.reaction < ANTICIPATION:
            return Judged(task, done, anticipation(step.reaction), grid)
        at_rest = float(window[-REST:].mean()) - task.target
        shortcoming = Reason.NOT_PRESSED if step.reaction is None else None
        verdict = weigh(asdict(step) | {"offset": at_rest}, level.limits, shortcoming)
        return Judged(task, done, verdict, grid, step)

    def prompt(self, level: Level, task: Task) -> Prompt:
        return Prompt(
            "squeeze",
            f"{task.target:.0f}",
            "At the cue it goes dark: squeeze, and stay there",
            find="Let the brake go",
            keep="Rest on the brake, and wait",
        )

    def comment(self, level: Level, verdict: Verdict) -> str:
        if verdict.reason is Reason.NOT_PRESSED:
            return "The brake was not pressed: squeeze it at the cue."
        if verdict.clean:
            return _praise(verdict, level.band)
        name, limit = verdict.worst, level.limits[verdict.worst]
        value, at_rest = verdict.measures.get(name), verdict.amount("offset")
        match name:
            case "overshoot":
                points = apart(value or 0.0, limit)[0]
                return (
                    f"The brake went {points} points past the target: "
                    "aim at the weight, and let the leg stop by itself."
                )
            case "offset":
                side = "heavier" if at_rest > 0 else "lighter"
                points = apart(abs(at_rest), limit)[0]
                return (
                    f"The brake ended {points} points {side} than the target: "
                    "remember how much the leg gave when you held it."
                )
            case "reaction":
                return "The squeeze was slow to follow the cue: have the foot on the pedal."
            case "rise" if value is None:
                return (
                    "The brake stayed well short of the target: press on until its weight is there."
                )
            case "rise":
                return "The brake went on slowly: one firm squeeze, not a search."
        return _settle(level, verdict)

    def picture(self, level: Level, judged: Judged) -> Deviation | None:
        task, done, verdict = judged.task, judged.done, judged.verdict
        given = bool(done.cues)
        cue = done.cues[0] / SECOND if given else done.began / SECOND + task.wait
        limits = [level.limits[name] for name in ("overshoot", "offset") if name in level.limits]
        span, reach = (-BEFORE, task.lasts), reach_of([*limits, level.band])
        picture = cut(judged.grid, cue, task.target, span, throttle=False)
        if picture is None:
            return None
        if verdict.reason is Reason.NOT_PRESSED:
            return None
        near = np.flatnonzero(picture.deviation >= min(-reach, float(picture.deviation.max())))
        picture = replace(
            picture,
            time=picture.time[near[0] :],
            deviation=picture.deviation[near[0] :],
            zero="target",
            reach=reach,
            cues=(0.0,),
        )
        if verdict.void:
            return picture
        return replace(picture, bounds=_bounds(level, task.lasts))

    def missed(self, level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
        not_pressed = verdict.reason is Reason.NOT_PRESSED
        return ("Brake", "not pressed", "a squeeze at the cue was asked") if not_pressed else None

    def lean(self, level: Level, verdict: Verdict) -> float | None:
        """Bubble after a squeeze: heavy where the brake passed its target or stayed above, light
        where it stayed below."""
        if verdict.reason is Reason.NOT_PRESSED:
            return -1.0
        if verdict.clean:
            return 0.0
        if verdict.void or not verdict.measures:
            return None
        at_rest = verdict.amount("offset")
        match verdict.worst:
            case "overshoot":
                return 1.0
            case "rise" if verdict.measures.get("rise") is None:
                return -1.0
            case "reaction" | "rise":
                return 0.0
            case "settle" if (
                verdict.measures.get("settle") is not None or abs(at_rest) <= level.band
            ):
                return None
        return float(np.sign(at_rest))


def _settle(level: Level, verdict: Verdict) -> str:
    """Sentence on a brake that was not steady in time; being late to the target is named first."""
    at_rest, limit = verdict.amount("offset"), level.limits["settle"]
    settle, reaction = verdict.measures.get("settle"), verdict.amount("reaction")
    rise = verdict.measures.get("rise")
    if settle is None and abs(at_rest) > level.band:
        side = "heavy" if at_rest > 0 else "light"
        return f"The brake ended {side}, outside the band: feel for the weight again."
    if rise is not None and reaction + rise >= limit:
        slow = (
            "slow to follow the cue: have the foot on the pedal."
            if reaction > rise
            else "slow to reach its weight: one firm squeeze, not a search."
        )
        return f"The squeeze was {slow}"
    if settle is None:
        return "The brake did not come to rest: squeeze once, then let the leg be still."
    return "The brake took long to come to rest: squeeze once, then let the leg be still."


def _praise(verdict: Verdict, band: float) -> str:
    over = verdict.amount("overshoot")
    at_rest = verdict.amount("offset")
    settle = verdict.measures.get("settle")
    there = verdict.amount("reaction") + verdict.amount("rise")
    if abs(at_rest) >= band / 2 or settle is None or settle - there > AT_ONCE:
        return "Clean: the brake ended as near to the target as this level asks."
    if over < band / 2:
        return "Clean: straight to the target, and still."
    past = "a little past the target" if over <= LITTLE else "past the target no more than it may"
    return f"Clean: {past}, and straight back to it."


def _bounds(level: Level, lasts: float) -> tuple[Bound, ...]:
    rest, stay, band = lasts - REST / 1000, lasts - STAY_LEAST / 1000, level.band
    found = {
        "overshoot": lambda at: Bound(f"past {at:g}", None, at, (0.0, lasts)),
        "settle": lambda at: Bound(f"steady ±{band:g}", -band, band, (min(at, stay), lasts)),
        "offset": lambda at: Bound(f"end ±{at:g}", -at, at, (rest, lasts)),
    }
    return tuple(found[name](at) for name, at in level.limits.items() if name in found)
