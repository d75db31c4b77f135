"""The run: two to four blips at a tempo that is counted in, while the brake is held."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from drills.coach import SMALL, disturbance, leaning
from drills.deviation import Deviation, of_run
from drills.digits import apart
from drills.kinds.base import AT_REST, Kind, Prompt, brake_to
from drills.kinds.blipping import (
    ASKED,
    OF_THE_BLIP,
    RECORDED,
    TAIL,
    about_the_cue,
    blip_moves,
    bounds,
    came_off,
    first_of,
    flat,
    is_let_go,
    missed,
    misshapen,
    reach,
    told,
    what_came_instead,
)
from drills.level import Key, Level
from drills.measures.blip import ON, find_blips
from drills.measures.catalogue import CATALOGUE, PLACES
from drills.measures.disturbance import OF_A_RUN, RELEASED, Run, Unscored, measure_run
from drills.measures.tempo import farthest, lateness, spacing_error
from drills.score import Reason, Verdict, kept, weigh
from drills.task import Performance, Signal, Task
from drills.trace import SECOND, Grid, Pedal

COUNTED = 2
"""count of beats before the first cue: two tell a tempo, and more would only be waited for."""
SHOWN_AFTER = 1.5
"""s shown after the last cue of a run."""
GROWS = 5.0
"""points, by so much more must the last blip of a run take than the first to be spoken of."""
ORDINAL = ("first", "second", "third", "fourth")
"""Places in words."""
KEYS = (
    *ASKED,
    Key("tempo", 0.4, 2.0, about="s from one blip to the next"),
    Key("least", 2, 4, 3, whole=True, table="blips", most="most", about="fewest blips asked"),
    Key("most", 2, 4, 3, whole=True, table="blips", about="most blips asked"),
)
SINGLE = tuple(name for name in OF_THE_BLIP if name not in ("reaction", "rise", "fall"))
"""Measures of the blip that took the most."""
BY_PLACE = tuple(f"{name}_{place}" for name in ("dip", "lateness") for place in PLACES)


def _task(level: Level, target: float, rng: np.random.Generator) -> Task:
    tempo, wait = level.own["tempo"], level.foreperiod.draw(rng)
    fewest, most = round(level.own["blips.least"]), round(level.own["blips.most"])
    count = int(rng.integers(fewest, most, endpoint=True))
    beats = COUNTED + count
    moves = [
        blip_moves(beat, (beats - 1 - beat) * tempo + RECORDED) for beat in range(COUNTED, beats)
    ]
    return Task(
        target=target,
        start={Pedal.BRAKE: level.around(target), Pedal.THROTTLE: AT_REST},
        wait=wait,
        cues=tuple(beat * tempo for beat in range(beats)),
        signals=(Signal.COUNT,) * COUNTED + (Signal.CUE,) * count,
        moves=tuple(move for pair in moves for move in pair),
        lasts=(beats - 1) * tempo,
        tail=TAIL,
        early={Pedal.THROTTLE: ON},
    )


@dataclass(frozen=True)
class _Beat:
    """When the blips of a task are asked."""

    cues: tuple[float, ...]
    """s, on the axis of the trace."""
    tempo: float
    """s."""

    @classmethod
    def of(cls, task: Task, done: Performance) -> _Beat:
        """Every cue of the task, the ones not given any more where they would have been."""
        zero = done.cues[0] / SECOND - task.cues[0]
        cues = [
            done.cues[k] / SECOND if k < len(done.cues) else zero + task.cues[k] for k in task.acts
        ]
        return cls(tuple(cues), task.cues[1] - task.cues[0])


def _judge(level: Level, task: Task, done: Performance) -> Verdict:
    grid, beat = Grid.of(done.trace), _Beat.of(task, done)
    found = find_blips(grid)
    if not found:
        return weigh({}, level.limits, what_came_instead(grid, done.cues[0]))
    run = measure_run(grid, found, level.band)
    if isinstance(run, Unscored):
        let_go = run is Unscored.NO_BRAKE
        return weigh({}, level.limits, Reason.LET_GO if let_go else Reason.NOT_SCORED)
    measures = _measures(run, beat, task)
    verdict = weigh(measures, level.limits, _shortcoming(level, grid, run, measures, beat))
    return came_off(verdict, run)


def _measures(run: Run, beat: _Beat, task: Task) -> dict[str, float | None]:
    onsets = [pulse.onset for pulse, _ in run.blips]
    worst = max(run.blips, key=lambda blip: blip[1].dip)
    measures = flat(replace(run, blips=(worst,)), 0.0, task.target)
    measures = {name: measures[name] for name in (*OF_A_RUN, *SINGLE)}
    measures["spacing_error"] = spacing_error(onsets, beat.tempo)
    if len(onsets) == len(beat.cues):
        late = lateness(onsets, beat.cues)
        measures["lateness"] = farthest(late)
        measures |= {f"lateness_{place}": one for place, one in zip(PLACES, late, strict=False)}
    dips = [done.dip for _, done in run.blips]
    return measures | {f"dip_{place}": one for place, one in zip(PLACES, dips, strict=False)}


def _shortcoming(
    level: Level, grid: Grid, run: Run, measures: Mapping[str, float | None], beat: _Beat
) -> Reason | None:
    return first_of(
        {
            Reason.LET_GO: is_let_go(grid, run),
            Reason.OFF_TARGET: not kept(measures["base_error"], level.approach_band),
            Reason.EXTRA_BLIP: len(run.blips) > len(beat.cues),
            Reason.FEW_BLIPS: len(run.blips) < len(beat.cues),
            Reason.OFF_BEAT: not kept(measures.get("lateness"), beat.tempo / 2),
            **misshapen(level, [pulse for pulse, _ in run.blips]),
        }
    )


def _prompt(_: Level, task: Task) -> Prompt:
    tempo = task.cues[1] - task.cues[0]
    blips = len(task.acts)
    return brake_to(
        task,
        f"Then, in the dark, {COUNTED} beats and {blips} blips, each on its cue, "
        f"{tempo:.1f} s apart.",
    )


def _tell(level: Level, verdict: Verdict) -> str:
    if verdict.reason in _TOLD:
        return _TOLD[verdict.reason]
    if verdict.reason not in (Reason.CLEAN, Reason.OVER_LIMIT):
        return told(verdict)
    if verdict.clean:
        return _praise(verdict)
    name, limit = verdict.worst, level.limits[verdict.worst]
    value = verdict.measures.get(name) or 0.0
    match name:
        case "dip":
            return _dip(verdict, limit)
        case "surge" | "rebound":
            return (
                f"The brake went {apart(value, limit)[0]} points over what was held: "
                "let the ball stay and only the edge roll."
            )
        case "spacing_error":
            return "The blips came unevenly: count on through them, and let the foot keep time."
        case "lateness":
            side = "behind" if value > 0 else "ahead of"
            change = "roll on the beat, not after it" if value > 0 else "wait for the beat"
            return f"A blip came {side} its cue: {change}."
    return disturbance(verdict, level.limits)


_TOLD = {
    Reason.FEW_BLIPS: "A blip was missing: one to each cue, however small.",
    Reason.EXTRA_BLIP: "There was a blip too many: the beats before are only for counting.",
    Reason.OFF_BEAT: "A blip lay nearer to another beat than to its own: count, then roll.",
    Reason.NO_BLIP: "No blip came: after the beats, one to each cue.",
    Reason.LIGHT: "A blip was too light: each one as deep as the first should be.",
    Reason.HEAVY: "A blip was too big: stab less deep, and as short.",
    Reason.LONG: "The throttle stayed on too long: each blip one short stab, in and out.",
}


def _praise(verdict: Verdict) -> str:
    measures = verdict.measures
    if (measures.get("dip") or 0.0) < SMALL and (measures.get("surge") or 0.0) < SMALL:
        return "Still: the brake stayed where it was through the whole run."
    return "Clean: blip after blip, the brake stayed within what this level allows."


def _dips(verdict: Verdict) -> list[float]:
    found = [verdict.measures.get(f"dip_{place}") for place in PLACES]
    return [dip for dip in found if dip is not None]


def _dip(verdict: Verdict, limit: float) -> str:
    dips, base = _dips(verdict), verdict.measures.get("base") or 0.0
    worst = max(range(len(dips)), key=lambda place: dips[place])
    shown = apart(dips[worst], limit)[0]
    place = ORDINAL[worst]
    if base - dips[worst] < RELEASED:
        return (
            f"The foot came off the brake altogether at the {place} blip: "
            "keep the ball of the foot down while its edge rolls."
        )
    if _grows(dips):
        return (
            f"The brake fell further with every blip, {shown} points by the {place}: "
            "give back each time what the roll took."
        )
    return (
        f"The brake fell {shown} points at the {place} of {len(dips)} blips: "
        "roll on the ball, keep it pushing."
    )


def _grows(dips: Sequence[float]) -> bool:
    return dips[-1] - dips[0] >= GROWS and all(one < other for one, other in pairwise(dips))


def _deviation(level: Level, task: Task, done: Performance, verdict: Verdict) -> Deviation | None:
    grid = Grid.of(done.trace)
    run = None if verdict.measures.get("base") is None else measure_run(grid, find_blips(grid))
    if not isinstance(run, Run):
        return about_the_cue(level, task, done, grid)
    picture = of_run(grid, run)
    if picture is None:
        return None
    beat, first = _Beat.of(task, done), run.blips[0][0].onset
    last = beat.tempo * (len(beat.cues) - 1)
    return replace(
        picture,
        span=(picture.span[0], max(picture.span[1], round(last + SHOWN_AFTER, 1))),
        cues=tuple(cue - first for cue in beat.cues),
        reach=reach(level),
        bounds=bounds(level, run),
    )


def _missed(level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
    came = len(_dips(verdict))
    measures = verdict.measures
    return {
        Reason.NO_BLIP: ("Blips", "none", "one to each cue was asked"),
        Reason.FEW_BLIPS: ("Blips", f"{came}", "one to each cue was asked"),
        Reason.EXTRA_BLIP: ("Blips", "too many", "one to each cue was asked"),
        Reason.OFF_BEAT: (
            "From the cue",
            CATALOGUE["lateness"].written(measures.get("lateness")),
            f"within {level.own['tempo'] / 2:g} s was asked",
        ),
        Reason.LIGHT: ("Throttle", "too light", f"{level.own['blip.least']:g} % at least"),
        Reason.HEAVY: ("Throttle", "too big", f"{level.own['blip.most']:g} % at most"),
        Reason.LONG: ("Width", "too long", f"{level.own['blip.longest']:g} s at most"),
    }.get(verdict.reason) or missed(level, verdict)


RUN = Kind(
    name="run",
    pedals=(Pedal.BRAKE, Pedal.THROTTLE),
    keys=KEYS,
    measures=(*OF_A_RUN, *SINGLE, "spacing_error", "lateness", *BY_PLACE),
    shown=("dip", "spacing_error", "lateness", "settle"),
    task=_task,
    judge=_judge,
    prompt=_prompt,
    tell=_tell,
    deviation=_deviation,
    called="A run of blips",
    guessed="dip",
    asks="How far did the brake fall, at the worst of the blips?",
    missed=_missed,
    lean=leaning,
)
