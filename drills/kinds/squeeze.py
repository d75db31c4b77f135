"""The drill kind "squeeze": on a cue, press from rest to a target at once, and stay there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, fields, replace

import numpy as np

from drills.coach import Prompt
from drills.deviation import Bound, Deviation, MarkedTime, WorstPlace, cut, reach_of
from drills.digits import plain
from drills.headline import WORDS, allowed
from drills.kinds import squeeze_words
from drills.kinds.blip_picture import number_of
from drills.level import Kind, Level
from drills.level_key import Key
from drills.measures.blip import ANTICIPATION, OFF
from drills.measures.disturbance import STAY_LEAST
from drills.measures.step import Step, measure_step
from drills.remark import Headline, Remark
from drills.score import WEIGHED, Judged, Reason, Verdict, anticipation, weigh
from drills.task import AT_REST, Performance, Task
from drills.trace import SECOND, STEP, Grid, Pedal, nanoseconds

REACHED = 0.1
"""Share of the target at which a squeeze counts as begun."""
REST = 200
"""Grid points at the end of a squeeze's window that tell where the brake came to rest: 0.2 s."""
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
    figure_words: Mapping[str, str] = {**WORDS, "rise": "to reach the weight"}

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

    def comment(self, level: Level, verdict: Verdict) -> Remark:
        return squeeze_words.comment(level, verdict)

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
        figure = self.headline(level, verdict)
        picture = replace(picture, bounds=_bounds(level, task.lasts))
        return replace(
            picture,
            decides=_deciding(level, verdict, figure, task.lasts),
            worst=_worst(picture, verdict, figure, task.lasts, level.band),
            timing=_timing(verdict, figure),
        )

    def missed(self, level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
        not_pressed = verdict.reason is Reason.NOT_PRESSED
        return ("Brake", "not pressed", "a squeeze at the cue was asked") if not_pressed else None

    def lean(self, level: Level, verdict: Verdict) -> float | None:
        return squeeze_words.lean(level, verdict)


def _bounds(level: Level, lasts: float) -> tuple[Bound, ...]:
    """Limits of a level that the picture of a squeeze can show."""
    found = (_bound(level, name, lasts) for name in level.limits)
    return tuple(bound for bound in found if bound is not None)


def _bound(level: Level, name: str, lasts: float) -> Bound | None:
    """Limit of one measure of a squeeze over its own window; None: the picture cannot show it."""
    at, band = level.limits[name], level.band
    match name:
        case "overshoot":
            return Bound(f"overshoot {plain(at)} allowed", None, at, (0.0, lasts))
        case "settle":
            opens = min(at, lasts - STAY_LEAST / 1000)
            return Bound(f"settled within {band:g}", -band, band, (opens, lasts))
        case "offset":
            return Bound(f"end ±{plain(at)} allowed", -at, at, (lasts - REST / 1000, lasts))
    return None


def _deciding(
    level: Level, verdict: Verdict, figure: Headline | None, lasts: float
) -> Bound | None:
    """The limit that decided a squeeze; None where the picture cannot show it."""
    if verdict.reason not in WEIGHED or not verdict.worst:
        return None
    bound = _bound(level, verdict.worst, lasts)
    if bound is None or figure is None or verdict.worst == "settle":
        return bound
    return replace(bound, label=allowed(figure))


def _timing(verdict: Verdict, figure: Headline | None) -> MarkedTime | None:
    """The time that decided a squeeze; None where something else decided."""
    value, reaction = verdict.measures.get(verdict.worst), verdict.amount("reaction")
    if figure is None or value is None or verdict.reason not in WEIGHED:
        return None
    match verdict.worst:
        case "reaction":
            return MarkedTime(0.0, value, figure.value)
        case "rise":
            return MarkedTime(reaction, reaction + value, figure.value)
    return None


def _worst(
    picture: Deviation, verdict: Verdict, figure: Headline | None, lasts: float, band: float
) -> WorstPlace | None:
    """The place that decided a squeeze; None where its measure has none on the curve."""
    if figure is None or verdict.reason not in WEIGHED:
        return None
    value = verdict.measures.get(verdict.worst)
    if verdict.worst == "offset":
        return WorstPlace(lasts - REST / 2000, verdict.amount("offset"), figure.value)
    match verdict.worst:
        case "overshoot" if value:
            at = verdict.amount("peak_time")
        case "settle":
            outside = np.flatnonzero(np.abs(picture.deviation) > band)
            if value is None and not outside.size:
                return None
            at = float(picture.time[outside[-1]]) if value is None else value
        case _:
            return None
    at -= STEP / SECOND / 2
    place = min(int(np.searchsorted(picture.time, at)), picture.time.size - 1)
    return WorstPlace(
        float(picture.time[place]), float(picture.deviation[place]), number_of(figure)
    )
